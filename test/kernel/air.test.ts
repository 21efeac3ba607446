import { describe, expect, it } from 'vitest';
import { airProperties } from '../../src/kernel/air.ts';

describe('airProperties', () => {
  // Incropera et al., table A.4 (from memory): T, nu 1e-6 m2/s, k 1e-3 W/(m K), Pr. The table's density is that of
  // 1 bar: its kinematic viscosity is 1.3 % above that of one atmosphere.
  it.each([
    [250, 11.44, 22.3, 0.72],
    [300, 15.89, 26.3, 0.71],
    [350, 20.92, 30.0, 0.7],
    [400, 26.41, 33.8, 0.69],
    [500, 38.79, 40.7, 0.684],
    [700, 68.1, 52.4, 0.695],
  ])('reads as the published table at %d K within 2 %%', (T, nu, k, prandtl) => {
    const air = { conductivity: 0, buoyancy: 0, prandtl: 0 };
    airProperties(T, air);
    const kinematic = Math.sqrt(air.prandtl / (air.buoyancy * T));
    expect(Math.abs((kinematic * 1.0132) / (nu * 1e-6) - 1)).toBeLessThan(0.02);
    expect(Math.abs(air.conductivity / (k * 1e-3) - 1)).toBeLessThan(0.02);
    expect(Math.abs(air.prandtl - prandtl)).toBeLessThan(0.02);
  });
});
