import { createRandom } from '../math/random.ts';
import { createSobol } from '../math/sobol.ts';
import type { DesignBatch } from '../model/rows.ts';
import type { SobolPlan } from '../model/study.ts';
import { setDigits } from './mixed-radix.ts';
import { createOnePass } from './one-pass.ts';
import type { BatchPlan } from './plan.ts';
import { designKey, type Space, toDesign } from './space.ts';

/** The random stream that scrambles points, so that nothing else that a seed decides hangs together with them. */
const SCRAMBLE = 1;

/**
 * Designs spread evenly over a space, each once: scrambled Sobol' points, in their order. Learns nothing from rows.
 * `largest`: most designs of a batch.
 */
export function createSobolPlan(
  space: Space,
  { points, seed }: Omit<SobolPlan, 'kind'>,
  largest?: number,
): BatchPlan {
  const draw = sobolDesigns(space, seed);
  return createOnePass(
    {
      total: Math.min(points, space.size),
      batch: (first, count) => take(draw, first, count, space),
      sample: (count) => take(sobolDesigns(space, seed), 0, count, space),
    },
    largest,
  );
}

/** The next `count` designs that `draw` gives, as a batch. */
export function take(draw: Draw, first: number, count: number, space: Space): DesignBatch {
  const width = space.axes.length;
  const values = new Float64Array(count * width);
  for (let i = 0; i < count; i++) values.set(draw(), i * width);
  return { first, count, values };
}

/** The next design, in an array that the next call writes over; to be called no more than the space's size. */
export type Draw = () => Float64Array;

/** Beyond this many points to a design of the space, what Sobol' points have not met yet is taken in its order. */
const PATIENCE = 32;

/**
 * Designs at scrambled Sobol' points, one after the other; points that round to a design already given are passed
 * over. A space with a continuous axis is not looked through for these: to agree in all digits is rare there.
 */
export function sobolDesigns(space: Space, seed: number): Draw {
  const sobol = createSobol(space.axes.length, createRandom(seed, SCRAMBLE));
  const point = new Float64Array(space.axes.length);
  const design = new Float64Array(space.axes.length);
  const seen = new Set<string>();
  let points = 0;
  let combination = 0;
  return () => {
    for (;;) {
      if (points < PATIENCE * space.size) {
        sobol.next(point);
        points++;
        toDesign(space, point, design);
      } else {
        combine(space, combination++, design);
      }
      if (space.size === Number.POSITIVE_INFINITY) return design;
      const key = designKey(design);
      if (!seen.has(key)) {
        seen.add(key);
        return design;
      }
    }
  };
}

/** Combination `index` of the values of a space without a continuous axis. */
function combine({ axes }: Space, index: number, into: Float64Array): void {
  const digits = new Uint32Array(axes.length);
  setDigits(
    axes.map(({ count }) => count),
    index,
    digits,
  );
  axes.forEach((axis, a) => {
    into[a] = axis.neighbour(axis.value(0), digits[a]!)!;
  });
}
