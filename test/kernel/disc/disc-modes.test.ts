import { describe, expect, it } from 'vitest';
import type { CoilWinding } from '../../../src/kernel/disc/coil-source.ts';
import { DiscCoupling } from '../../../src/kernel/disc/disc-coupling.ts';
import { createDiscModes } from '../../../src/kernel/disc/disc-modes.ts';
import { createDiscPlate } from '../../../src/kernel/disc/disc-plate.ts';
import { resolveDisc } from '../../../src/kernel/disc/disc-resolution.ts';
import { DiscResponse } from '../../../src/kernel/disc/disc-response.ts';
import type { DiscSpec } from '../../../src/kernel/disc/disc-spec.ts';
import { createCoupledModes } from '../../../src/kernel/motion/coupled-modes.ts';

const OMEGA = 2 * Math.PI * 50;
const COIL: readonly CoilWinding[] = [
  { innerRadius: 0.05, outerRadius: 0.166, height: 0.017, offset: 0, turns: 440, sense: 1 },
];
const DISCS: readonly [string, DiscSpec][] = [
  [
    'thin',
    {
      radius: 0.2,
      innerRadius: 0,
      layers: [{ thickness: 1e-3, resistivity: 2.8e-8 }],
      angularFrequency: OMEGA,
    },
  ],
  [
    'thick',
    {
      radius: 0.25,
      innerRadius: 0,
      layers: [{ thickness: 12e-3, resistivity: 2.8e-8 }],
      angularFrequency: OMEGA,
    },
  ],
  [
    'washer in layers',
    {
      radius: 0.2,
      innerRadius: 0.04,
      layers: [
        { thickness: 2e-3, resistivity: 2.8e-8 },
        { thickness: 3e-3, resistivity: 7e-8 },
      ],
      angularFrequency: OMEGA,
    },
  ],
];

describe.each(DISCS)('the modes of a %s disc', (_, spec) => {
  const resolution = resolveDisc(spec, COIL, 2e-3);
  const modes = createDiscModes(spec, resolution);
  const coupling = new DiscCoupling(createDiscPlate(spec, resolution));
  coupling.fill(COIL);
  const response = new DiscResponse(modes);
  response.fill(COIL);

  it('answer at the supply frequency as the factorised disc does', () => {
    for (const gap of [2e-3, 0.01, 0.04]) {
      coupling.evaluate(gap);
      response.at(gap);
      response.evaluate(0, OMEGA);
      // the same matrices by another way; ports leave out 2e-6
      const size = Math.hypot(coupling.inductanceRe, coupling.inductanceIm);
      expect(Math.abs(response.valueRe - coupling.inductanceRe) / size).toBeLessThan(1e-5);
      expect(Math.abs(response.valueIm - coupling.inductanceIm) / size).toBeLessThan(1e-5);
      expect(Math.abs(2 * response.slopeRe - coupling.slopeRe) / Math.abs(coupling.slopeRe)).toBeLessThan(
        1e-4,
      );
    }
  });

  it('fade at positive rates, the slowest first, and there are as many as currents but for the finest', () => {
    expect(modes.count).toBeGreaterThan(10);
    for (let n = 0; n < modes.count; n++) {
      expect(modes.rates[n]).toBeGreaterThan(0);
      if (n > 0) expect(modes.rates[n]).toBeGreaterThanOrEqual(modes.rates[n - 1]!);
    }
  });

  it('are tabulated over the gap to 1e-6, their slopes to 1e-4, and those left out do not count', () => {
    const coupled = createCoupledModes(modes, COIL, OMEGA, 2e-3, 0.5);
    expect(coupled.count).toBeLessThanOrEqual(modes.count);
    for (const gap of [2e-3, 2.03e-3, 0.0123, 0.047, 0.31]) {
      response.at(gap);
      coupled.evaluate(gap);
      const most = Math.max(...response.coupling.map(Math.abs));
      const steepest = Math.max(...response.couplingSlope.map(Math.abs));
      let lift = 0;
      let same = 0;
      for (let n = 0; n < coupled.count; n++) {
        const m = modes.rates.indexOf(coupled.rates[n]!);
        expect(Math.abs(coupled.coupling[n]! - response.coupling[m]!)).toBeLessThan(1e-6 * most);
        expect(Math.abs(coupled.slope[n]! - response.couplingSlope[m]!)).toBeLessThan(1e-4 * steepest);
        const weight = OMEGA ** 2 / (OMEGA ** 2 + coupled.rates[n]! ** 2);
        lift -= weight * coupled.coupling[n]! * coupled.slope[n]!;
      }
      for (let n = 0; n < modes.count; n++) {
        const weight = OMEGA ** 2 / (OMEGA ** 2 + modes.rates[n]! ** 2);
        same -= weight * response.coupling[n]! * response.couplingSlope[n]!;
      }
      expect(lift / same).toBeCloseTo(1, 4);
    }
  });
});
