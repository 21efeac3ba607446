import { describe, expect, it } from 'vitest';
import { MU0 } from '../../../src/kernel/constants.ts';
import { fitMagnetisation, fluxDensity } from '../../../src/kernel/steel/magnetisation.ts';

describe('fluxDensity', () => {
  it('starts with the permeability of low field, and ends at saturation and the air', () => {
    expect(fluxDensity(0.01, 800, 1.5) / (MU0 * 800 * 0.01)).toBeCloseTo(1, 6);
    expect(fluxDensity(1e9, 800, 1.5) - MU0 * 1e9).toBeCloseTo(1.5, 4);
    expect(fluxDensity(-700, 800, 1.5)).toBe(-fluxDensity(700, 800, 1.5));
  });
});

describe('fitMagnetisation', () => {
  it('finds the numbers that points were made with', () => {
    const points = [100, 500, 2000, 8000, 40000].map((field) => ({
      field,
      flux: fluxDensity(field, 900, 1.8),
    }));
    const curve = fitMagnetisation(points);
    expect(curve.permeability).toBeCloseTo(900, 4);
    expect(curve.saturation).toBeCloseTo(1.8, 8);
    expect(curve.misfit).toBeLessThan(1e-8);
  });

  it('says how far the points are off', () => {
    const points = [500, 2000, 8000].map((field, i) => ({
      field,
      flux: fluxDensity(field, 900, 1.8) * (1 + (i - 1) * 0.05),
    }));
    const { misfit } = fitMagnetisation(points);
    expect(misfit).toBeGreaterThan(0.005);
    expect(misfit).toBeLessThan(0.05);
  });
});
