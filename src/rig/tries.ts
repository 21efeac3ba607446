import { normalQuantile } from '../math/normal-quantile.ts';
import { createRandom } from '../math/random.ts';
import { createSobol } from '../math/sobol.ts';
import { Q, quantityColumns } from '../model/quantities.ts';
import { isEvaluated } from '../model/status.ts';
import type { Task, Tolerance } from '../model/study.ts';
import { createLaws } from './laws.ts';
import { NearRigs } from './near-rigs.ts';
import { neededLaws } from './needed-laws.ts';

/** Rigs that each design is tried as: a power of two, for which Sobol' points are even. */
export const TRIES = 256;
/** The same rigs for every design, so that designs differ by what they are and not by luck. */
const SEED = 1;
/** Sobol' points are multiples of 2^-32, the first may be 0, which no normal variate has. */
const LOWEST = 2 ** -33;

/** The rigs that a design may turn out as, evaluated. */
export interface Tries {
  /** Columns of TRIES rows, as in a batch, of the quantities read; overwritten by the next `run`. */
  readonly rows: {
    readonly first: number;
    readonly count: number;
    readonly status: Uint8Array;
    readonly quantities: Float64Array;
  };
  /** A column each for the requested slots: what was built. */
  readonly inputs: ReadonlyMap<number, Float64Array>;
  /** @param slots inputs of the design, SI, with their defaults; left as they are */
  run(slots: Float64Array): void;
}

/**
 * Tries designs as rigs whose inputs are spread about their own by scrambled Sobol' points, as the tolerances give it.
 *
 * Coil and plate are interpolated over the rigs where that is as good (see NearRigs), and laws left out whose quantities are
 * not read.
 * @param kept slots whose values are kept
 * @param read quantities that are read, indices
 * @param interpolates left off to compare with
 */
export function createTries(
  { rig, requested }: Pick<Task, 'rig' | 'requested'>,
  tolerance: readonly Tolerance[],
  kept: readonly number[],
  read: ReadonlySet<number>,
  interpolates = true,
): Tries {
  const needed = neededLaws(read);
  const laws = createLaws(rig.plateLayers, rig.windings, requested, needed);
  const columns = quantityColumns(requested);
  // laws on request and voltages of layers look at the field itself
  const isFieldRead = needed.insulation || (requested ?? []).length > 0;
  const nearRigs = interpolates && !isFieldRead ? new NearRigs(rig.plateLayers, rig.windings) : null;
  const points = samplePoints(tolerance);
  const rows = {
    first: 0,
    count: TRIES,
    status: new Uint8Array(TRIES),
    quantities: new Float64Array(columns * TRIES).fill(Number.NaN),
  };
  const inputs = new Map(kept.map((slot) => [slot, new Float64Array(TRIES)]));
  const built = new Float64Array(rig.slots.length);
  const columnsRead = [...read];

  function build(slots: Float64Array, k: number): void {
    built.set(slots);
    for (let t = 0; t < tolerance.length; t++) {
      const each = tolerance[t]!;
      built[each.slot] = off(slots[each.slot]!, each, points[k * tolerance.length + t]!);
    }
  }

  /** Null where coil and plate of the rigs are not to be interpolated. */
  function interpolate(slots: Float64Array): NearRigs | null {
    if (nearRigs === null) return null;
    laws.evaluate(slots);
    if (!isEvaluated(laws.status)) return null;
    nearRigs.begin(slots);
    for (let k = 0; k < TRIES; k++) {
      build(slots, k);
      nearRigs.include(built);
    }
    const { results } = laws;
    const point = { current: results[Q.current]!, addedShare: laws.addedShare };
    return nearRigs.settle(point) ? nearRigs : null;
  }

  return {
    rows,
    inputs,
    run(slots) {
      const near = interpolate(slots);
      for (let k = 0; k < TRIES; k++) {
        build(slots, k);
        if (near === null) laws.evaluate(built);
        else laws.evaluateNear(built, near);
        rows.status[k] = laws.status;
        for (const q of columnsRead) rows.quantities[q * TRIES + k] = laws.results[q]!;
        for (const [slot, cells] of inputs) cells[k] = built[slot]!;
      }
    },
  };
}

/** Deviations in units of each tolerance's size, point after point. */
function samplePoints(tolerance: readonly Tolerance[]): Float64Array {
  const sobol = createSobol(tolerance.length, createRandom(SEED));
  const at = new Float64Array(tolerance.length);
  const points = new Float64Array(TRIES * tolerance.length);
  for (let k = 0; k < TRIES; k++) {
    sobol.next(at);
    tolerance.forEach(({ distribution }, t) => {
      points[k * tolerance.length + t] =
        distribution === 'normal' ? normalQuantile(Math.max(at[t]!, LOWEST)) : 2 * at[t]! - 1;
    });
  }
  return points;
}

function off(value: number, { size, relative, integer, minimum, maximum }: Tolerance, by: number): number {
  const moved = value + by * size * (relative ? value : 1);
  return Math.min(Math.max(integer ? Math.round(moved) : moved, minimum), maximum);
}
