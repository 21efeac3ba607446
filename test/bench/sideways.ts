import { performance } from 'node:perf_hooks';
import type { CoilWinding } from '../../src/kernel/disc/coil-source.ts';
import type { DiscSpec } from '../../src/kernel/disc/disc-spec.ts';
import { SidewaysCoupling } from '../../src/kernel/sideways/sideways-coupling.ts';
import { SidewaysPlate } from '../../src/kernel/sideways/sideways-plate.ts';
import { resolveSideways } from '../../src/kernel/sideways/sideways-resolution.ts';
import { type Spread, spreadOf } from './statistics.ts';

/** Milliseconds of one rig: stiffnesses with a plate of its own and with a plate that is shared, force at a shift. */
export interface SidewaysTiming {
  readonly name: string;
  readonly fresh: Spread;
  readonly shared: Spread;
  readonly force: Spread;
}

const FOYER: CoilWinding = {
  innerRadius: 0.05,
  outerRadius: 0.166,
  height: 0.017,
  offset: 0,
  turns: 440,
  sense: 1,
};

const CASES: readonly { name: string; radius: number; hole: number; thickness: number; gap: number }[] = [
  { name: 'foyer coil, 12 mm plate of its own radius', radius: 0.166, hole: 0, thickness: 0.012, gap: 0.01 },
  {
    name: 'foyer coil, 3 mm plate of 0.8 of its radius',
    radius: 0.133,
    hole: 0,
    thickness: 0.003,
    gap: 0.01,
  },
  { name: 'foyer coil, washer, 6 mm', radius: 0.166, hole: 0.04, thickness: 0.006, gap: 0.01 },
];

export function benchSideways(rounds = 15): SidewaysTiming[] {
  return CASES.map(({ name, radius, hole, thickness, gap }) => {
    const plateOf = (round: number) => {
      const spec: DiscSpec = {
        radius: radius * (1 - 1e-4 * round),
        innerRadius: hole,
        layers: [{ thickness, resistivity: 2.9e-8 }],
        angularFrequency: 2 * Math.PI * 50,
      };
      return new SidewaysPlate(spec, resolveSideways(spec, [FOYER], gap));
    };
    const stiffness = (coupling: SidewaysCoupling, round: number) => {
      const coil = { ...FOYER, innerRadius: FOYER.innerRadius * (1 + 1e-3 * round) };
      coupling.fill([coil], gap, FOYER.height / 2);
      coupling.evaluate(false);
    };
    const kept = new SidewaysCoupling(plateOf(0));
    return {
      name,
      fresh: time(rounds, (round) => stiffness(new SidewaysCoupling(plateOf(round)), round)),
      shared: time(rounds, (round) => stiffness(kept, round)),
      force: time(rounds, (round) => {
        const coupling = new SidewaysCoupling(plateOf(round));
        stiffness(coupling, round);
        coupling.slopeAt(0.1 * FOYER.outerRadius);
      }),
    };
  });
}

function time(rounds: number, run: (round: number) => void): Spread {
  for (let i = 0; i < 5; i++) run(i);
  const spent = Array.from({ length: rounds }, (_, round) => {
    const start = performance.now();
    run(round);
    return performance.now() - start;
  });
  return spreadOf(spent);
}
