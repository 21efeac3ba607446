import { performance } from 'node:perf_hooks';
import type { CoilWinding } from '../../src/kernel/disc/coil-source.ts';
import { DiscCoupling } from '../../src/kernel/disc/disc-coupling.ts';
import { createDiscPlate } from '../../src/kernel/disc/disc-plate.ts';
import { resolveDisc } from '../../src/kernel/disc/disc-resolution.ts';
import type { DiscSpec } from '../../src/kernel/disc/disc-spec.ts';
import { averageForce } from '../../src/kernel/lift.ts';

/** Milliseconds: the median of the rounds and their extremes; size and memory of the plate. */
export interface DiscTiming {
  readonly name: string;
  readonly median: number;
  readonly least: number;
  readonly most: number;
  readonly unknowns: number;
  readonly kilobytes: number;
  /** Of a fresh plate and coil. */
  readonly target: string;
}

interface Case {
  name: string;
  target: string;
  spec: DiscSpec;
  coil: CoilWinding;
  standoff: number;
  weight: number;
  current: number;
}

const pancake = (innerRadius: number, outerRadius: number, height: number, turns: number): CoilWinding => ({
  innerRadius,
  outerRadius,
  height,
  offset: 0,
  turns,
  sense: 1,
});

const disc = (
  radius: number,
  innerRadius: number,
  thickness: number,
  resistivity: number,
  frequency: number,
) => ({
  radius,
  innerRadius,
  layers: [{ thickness, resistivity }],
  angularFrequency: 2 * Math.PI * frequency,
});

const CASES: readonly Case[] = [
  {
    name: 'foyer coil, 12 mm plate of its own radius, 50 Hz',
    target: '< 1.2 ms',
    spec: disc(0.166, 0, 0.012, 2.9e-8, 50),
    coil: pancake(0.05, 0.166, 0.017, 440),
    standoff: 2e-3,
    weight: 28,
    current: 12,
  },
  {
    name: 'foyer coil, 3 mm plate of twice its radius, 50 Hz',
    target: '< 1.2 ms',
    spec: disc(0.332, 0, 0.003, 2.9e-8, 50),
    coil: pancake(0.05, 0.166, 0.017, 440),
    standoff: 2e-3,
    weight: 20,
    current: 12,
  },
  {
    name: 'washer, 6 mm, 50 Hz',
    target: '< 1.2 ms',
    spec: disc(0.15, 0.04, 0.006, 2.9e-8, 50),
    coil: pancake(0.05, 0.166, 0.017, 440),
    standoff: 2e-3,
    weight: 20,
    current: 12,
  },
  {
    name: 'pan base on a cooking coil, 4 mm, 25 kHz',
    target: '< 3.5 ms',
    spec: disc(0.11, 0, 0.004, 3.6e-8, 25e3),
    coil: pancake(0.02, 0.1, 0.004, 24),
    standoff: 5e-3,
    weight: 2,
    current: 20,
  },
];

/** Gap evaluations of an equilibrium search: a fixed number, so that every round does the same work. */
const EVALUATIONS = 8;

/** A search as the rig makes it: bisection here, eight evaluations with derivatives. */
function search(coupling: DiscCoupling, { standoff, weight, current }: Case): number {
  let low = standoff;
  let high = 0.2;
  for (let i = 0; i < EVALUATIONS - 1; i++) {
    const gap = Math.sqrt(low * high);
    coupling.evaluateLift(gap);
    if (averageForce(current, coupling.slopeRe) > weight) low = gap;
    else high = gap;
  }
  coupling.evaluate(low);
  return low;
}

/** A fresh plate and coil with the search; then the same with the plate shared and only the coil changing. */
export function benchDisc(rounds = 15): { fresh: DiscTiming[]; shared: DiscTiming[] } {
  const fresh: DiscTiming[] = [];
  const shared: DiscTiming[] = [];
  for (const rig of CASES) {
    const { name, target, spec, coil, standoff } = rig;
    const make = (share: number) =>
      createDiscPlate(
        { ...spec, radius: spec.radius * (1 - 1e-4 * share) },
        resolveDisc(spec, [coil], standoff),
      );
    const plate = make(0);
    const size = { unknowns: plate.unknowns, kilobytes: Math.round(plate.bytes / 1024) };
    const whole = (round: number) => {
      const coupling = new DiscCoupling(make(round));
      coupling.fill([coil]);
      search(coupling, rig);
    };
    fresh.push({ name, target, ...time(rounds, FRESH_REPEATS, whole), ...size });
    const coupling = new DiscCoupling(plate);
    const again = (round: number) => {
      coupling.fill([
        { ...coil, turns: coil.turns + round, innerRadius: coil.innerRadius * (1 + 1e-3 * round) },
      ]);
      search(coupling, rig);
    };
    shared.push({ name, target, ...time(rounds, SHARED_REPEATS, again), ...size });
  }
  return { fresh, shared };
}

/** Times a round: a round of one millisecond was decided by whoever else the machine had just then. */
const FRESH_REPEATS = 40;
const SHARED_REPEATS = 200;

/** Times before the first that counts: until then the compiler is at it, as at the beginning of a study. */
const WARMING = 60;

function time(rounds: number, repeats: number, run: (round: number) => void) {
  for (let i = 0; i < WARMING; i++) run(i);
  const spent = Array.from({ length: rounds }, (_, round) => {
    const start = performance.now();
    for (let i = 0; i < repeats; i++) run(round + i);
    return (performance.now() - start) / repeats;
  }).sort((a, b) => a - b);
  return { median: spent[rounds >> 1]!, least: spent[0]!, most: spent[rounds - 1]! };
}
