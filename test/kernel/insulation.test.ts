import { describe, expect, it } from 'vitest';
import { type InsulationStress, insulationStress, ratedImpulse } from '../../src/kernel/insulation.ts';

function at(...[coil, toEarth, turns, layers, film, strength, standoff]: number[]): InsulationStress {
  const out = {} as InsulationStress;
  const voltages = { coilVoltage: coil!, toEarth: toEarth!, lineVoltage: 230 };
  const winding = { turns: turns!, layers: layers!, unevenness: 1, filmBreakdown: film! };
  insulationStress({ ...voltages, ...winding, standoffBreakdown: strength!, standoff: standoff! }, out);
  return out;
}

describe('insulationStress', () => {
  it('shares the voltage evenly: by turns, and two layers at their open edge', () => {
    const stress = at(96, 96, 440, 8, 3000, 2e7, 0.002);
    expect(stress.voltsPerTurn).toBeCloseTo(96 / 440, 12);
    // 440 / 8 turns a layer, two of them
    expect(stress.betweenLayers).toBeCloseTo((2 * 55 * 96) / 440, 12);
    expect(at(96, 96, 440, 1, 3000, 2e7, 0.002).betweenLayers).toBe(0);
    expect(at(96, 96, 440, Number.NaN, 3000, 2e7, 0.002).betweenLayers).toBeNaN();
  });

  it('sets film and standoff against the peak of the voltage to earth, not of the coil', () => {
    expect(at(96, 230, 440, 8, 3000, 2e7, 0.002).margin).toBeCloseTo(43000 / (230 * Math.SQRT2), 9);
    expect(at(96, Number.NaN, 440, 8, 3000, 2e7, 0.002).margin).toBeNaN();
  });

  it('adds film and standoff, what is known of them', () => {
    const peak = 96 * Math.SQRT2;
    expect(at(96, 96, 440, 8, 3000, 2e7, 0.002).margin).toBeCloseTo(43000 / peak, 9);
    expect(at(96, 96, 440, 8, 3000, Number.NaN, 0.002).margin).toBeCloseTo(3000 / peak, 10);
    expect(at(96, 96, 440, 8, Number.NaN, 2e7, 0.002).margin).toBeCloseTo(40000 / peak, 9);
    expect(at(96, 96, 440, 8, Number.NaN, Number.NaN, 0.002).margin).toBeNaN();
  });

  it('sets the same breakdown against the impulse of the mains: 2.5 kV at 230 V, 1.5 kV at 120 V', () => {
    // IEC 60664-1, table F.1, category II (from memory)
    expect([50, 120, 230, 400, 1000, 3000].map(ratedImpulse)).toEqual([
      500,
      1500,
      2500,
      4000,
      6000,
      Number.NaN,
    ]);
    expect(at(96, 230, 440, 8, 3000, 2e7, 0.002).impulseMargin).toBeCloseTo(43000 / 2500, 10);
  });
});
