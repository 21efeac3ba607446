import type { Random } from '../math/random.ts';
import type { Axis, Space } from './space.ts';

/** Probability that two parents are crossed at all, and that one axis of theirs is. */
const CROSSING = 0.9;
const CROSSING_OF_AXIS = 0.5;
/** Distribution indices: the larger, the nearer to their parents children are. Chosen on the problems of test/plan. */
const CROSSING_INDEX = 5;
const MUTATION_INDEX = 50;

/**
 * Two children of two designs, by simulated binary crossover and polynomial mutation: K. Deb, R. B. Agrawal, Simulated
 * binary crossover for continuous search space, Complex Systems 9 (1995) 115-148, and K. Deb, Multi-objective
 * optimization using evolutionary algorithms, Wiley 2001 (from memory). They act on the unit interval of an axis, in
 * their unbounded form: what leaves the interval becomes its end, because the best designs of rigs often stand at an
 * end (the thinnest standoff), which the bounded form nears but never reaches. A number of a list, or a whole number,
 * that a mutation leaves in its cell moves to the next cell on the side that the mutation points to; a choice is
 * passed on whole, and mutates to any other with equal probability.
 */
export function breed(
  space: Space,
  a: Float64Array,
  b: Float64Array,
  random: Random,
): [Float64Array, Float64Array] {
  const [c, d] = [a.slice(), b.slice()];
  if (random.unit() < CROSSING) {
    space.axes.forEach((axis, i) => {
      if (random.unit() < CROSSING_OF_AXIS) [c[i], d[i]] = crossed(axis, a[i]!, b[i]!, random);
    });
  }
  const rate = 1 / space.axes.length;
  for (const child of [c, d]) {
    space.axes.forEach((axis, i) => {
      if (random.unit() < rate) child[i] = mutated(axis, child[i]!, random);
    });
  }
  return [c, d];
}

/** The design with one axis, picked at random, mutated. */
export function mutateOne(space: Space, design: Float64Array, random: Random): Float64Array {
  const mutant = design.slice();
  const i = random.below(space.axes.length);
  mutant[i] = mutated(space.axes[i]!, mutant[i]!, random);
  return mutant;
}

function crossed(axis: Axis, a: number, b: number, random: Random): [number, number] {
  const swap = random.unit() < 0.5;
  if (axis.kind === 'choice' || a === b) return swap ? [b, a] : [a, b];
  const [u, v] = [axis.unit(a), axis.unit(b)];
  const [low, high] = u < v ? [u, v] : [v, u];
  const reach = crossoverFactor(random.unit()) * (high - low);
  const children: [number, number] = [
    axis.value(0.5 * (low + high - reach)),
    axis.value(0.5 * (low + high + reach)),
  ];
  return swap ? [children[1], children[0]] : children;
}

/** How far apart children are, over how far apart their parents are. */
function crossoverFactor(draw: number): number {
  const power = 1 / (CROSSING_INDEX + 1);
  return draw <= 0.5 ? (2 * draw) ** power : (2 - 2 * draw) ** -power;
}

function mutated(axis: Axis, value: number, random: Random): number {
  if (axis.count < 2) return value;
  if (axis.kind === 'choice') {
    const other = random.below(axis.count - 1);
    return other < value ? other : other + 1;
  }
  const u = axis.unit(value);
  const step = polynomialStep(random.unit());
  const moved = axis.value(u + step);
  if (moved !== value || axis.kind === 'continuous') return moved;
  const side = step < 0 ? -1 : 1;
  return axis.neighbour(value, side) ?? axis.neighbour(value, -side)!;
}

/** A step between -1 and 1, mostly a small one. */
function polynomialStep(draw: number): number {
  const power = 1 / (MUTATION_INDEX + 1);
  return draw < 0.5 ? (2 * draw) ** power - 1 : 1 - (2 - 2 * draw) ** power;
}
