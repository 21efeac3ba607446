import { performance } from 'node:perf_hooks';
import { type CoilWinding, coilSource } from '../../src/kernel/disc/coil-source.ts';
import { createDiscModes, type DiscModes } from '../../src/kernel/disc/disc-modes.ts';
import { resolveDisc } from '../../src/kernel/disc/disc-resolution.ts';
import type { DiscSpec } from '../../src/kernel/disc/disc-spec.ts';
import { readBounce } from '../../src/kernel/motion/bounce.ts';
import { type CoupledModes, createCoupledModes } from '../../src/kernel/motion/coupled-modes.ts';
import { MovingCoil, type MovingCoilRig } from '../../src/kernel/motion/moving-coil.ts';
import { Q } from '../../src/model/quantities.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { createMovingRig } from '../../src/rig/moving-rig.ts';
import { FOYER, slotsOf } from '../support/design.ts';
import { type Spread, spreadOf } from './statistics.ts';

export interface MotionTiming {
  readonly name: string;
  readonly unit: string;
  readonly measured: Spread;
  readonly target: string;
}

const OMEGA = 2 * Math.PI * 50;
const STEP = 1e-4;
const ROUNDS = 9;
/** The published benchmark: studies/two-coil-benchmark.yaml. */
const COIL: readonly CoilWinding[] = [
  { innerRadius: 0.027, outerRadius: 0.055, height: 0.052, offset: 0, turns: 960, sense: 1 },
  { innerRadius: 0.08, outerRadius: 0.095, height: 0.052, offset: 0, turns: 576, sense: -1 },
];
const DISC: DiscSpec = {
  radius: 0.065,
  innerRadius: 0,
  layers: [{ thickness: 3e-3, resistivity: 1 / 3.4e7 }],
  angularFrequency: OMEGA,
};
const RIG: MovingCoilRig = {
  mass: 0.107,
  drag: 0,
  standoff: 3.8e-3,
  restitution: 0.3,
  held: false,
  resistance: 5,
  freeInductance: 0.1,
  capacitance: Number.NaN,
};

export function benchMotion(): MotionTiming[] {
  const prepare = () => createDiscModes(DISC, resolveDisc(DISC, COIL, RIG.standoff));
  const modes = prepare();
  const coupled = createCoupledModes(modes, COIL, OMEGA, RIG.standoff, 0.08);
  const second = (plate: CoupledModes) => () => {
    const feed = { given: true, at: (t: number) => 20 * Math.sin(OMEGA * t), open: () => false };
    const moving = new MovingCoil(RIG, plate, feed, STEP);
    for (let i = 0; i < 1 / STEP; i++) moving.advance();
  };
  return [
    {
      name: 'motion of the levitation benchmark: preparation',
      unit: 'ms',
      measured: time(() => createCoupledModes(prepare(), COIL, OMEGA, RIG.standoff, 0.08), 1),
      target: '< 300 ms',
    },
    {
      name: 'one second of it, steps of 0.1 ms',
      unit: 'ms',
      measured: time(second(coupled), 1),
      target: '< 30 ms',
    },
    {
      name: 'the same with every mode summed anew at each step',
      unit: 'ms',
      measured: time(second(untabulated(modes)), 1, 3),
      target: '',
    },
    ...benchGrowth(),
  ];
}

/** Small motion over a wide plate: what it adds to a design, and growth read off motion in time. */
function benchGrowth(): MotionTiming[] {
  const designs = Array.from({ length: 64 }, (_, i) =>
    slotsOf({ ...FOYER, 'coil.turns': 400 + 2 * i, 'plate.layers.0.thickness': (6 + i * 0.1) * 1e-3 }),
  );
  const plain = createLaws(1);
  const asked = createLaws(1, 0, [Q.bounce_growth, Q.guide_damping]);
  const all = (laws: typeof plain) => () => {
    for (const design of designs) laws.evaluate(design);
  };
  const without = time(all(plain), 1000 / designs.length, 15);
  const whole = time(all(asked), 1000 / designs.length, 15);
  const less = (a: number) => Math.max(0, a - without.median);
  asked.evaluate(designs[0]!);
  const naive = () => {
    const point = asked.operatingPoint!;
    const model = createMovingRig(point)!;
    const { current } = point.rig;
    const feed = {
      given: true,
      at: (t: number) => Math.SQRT2 * current * Math.cos(OMEGA * t),
      open: () => false,
    };
    const moving = new MovingCoil(model.rig, model.modes, feed, STEP);
    moving.placeSteady(point.rig.gap + 2e-4, current, OMEGA, 0);
    const gaps = Float64Array.from({ length: 4 / STEP }, () => {
      moving.advance();
      return moving.gap;
    });
    return readBounce(gaps, STEP, 50, 1).growth;
  };
  return [
    {
      name: 'growth and drag of a small bounce over a wide plate, beside all else of a design',
      unit: 'us',
      measured: { median: less(whole.median), least: less(whole.least), most: less(whole.most) },
      target: '< 150 us',
    },
    {
      name: 'growth read off 4 s of motion in time',
      unit: 'us',
      measured: time(naive, 1000, 3),
      target: '',
    },
  ];
}

/** What a table over the gap spares. */
function untabulated(modes: DiscModes): CoupledModes {
  const { nodes, excitation, count, rates } = modes;
  const source = Float64Array.from(nodes.k, (k) => coilSource(COIL, k));
  const coupling = new Float64Array(count);
  const slope = new Float64Array(count);
  return {
    count,
    rates,
    nearest: 0,
    farthest: 1,
    coupling,
    slope,
    evaluate(gap) {
      coupling.fill(0);
      slope.fill(0);
      for (let q = 0; q < nodes.count; q++) {
        const k = nodes.k[q]!;
        const field = source[q]! * Math.exp(-k * gap);
        for (let n = 0; n < count; n++) {
          const part = excitation[n * nodes.count + q]! * field;
          coupling[n] = coupling[n]! + part;
          slope[n] = slope[n]! - k * part;
        }
      }
    },
  };
}

/** Milliseconds times `scale`, of rounds after the first. */
function time(run: () => unknown, scale: number, rounds = ROUNDS): Spread {
  run();
  const times = Array.from({ length: rounds }, () => {
    const began = performance.now();
    run();
    return (performance.now() - began) * scale;
  });
  return spreadOf(times);
}
