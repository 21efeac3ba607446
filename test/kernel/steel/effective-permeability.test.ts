import { describe, expect, it } from 'vitest';
import { MU0 } from '../../../src/kernel/constants.ts';
import { EffectivePermeability } from '../../../src/kernel/steel/effective-permeability.ts';

const OMEGA = 2 * Math.PI * 50;
const FERRITIC = { permeability: 800, saturation: 1.5, resistivity: 6e-7 };
const MILD = { permeability: 1500, saturation: 2, resistivity: 1.43e-7 };

/** Surface impedance of a half-space with this complex permeability. */
function impedance({ re, im }: { re: number; im: number }, resistivity: number, omega = OMEGA) {
  const [x, y] = [-omega * MU0 * im * resistivity, omega * MU0 * re * resistivity];
  const size = Math.hypot(x, y);
  return { re: Math.sqrt((size + x) / 2), im: Math.sqrt((size - x) / 2) };
}

function saturated(field: number, metal: typeof MILD, omega = OMEGA) {
  const effective = new EffectivePermeability();
  effective.at(field, metal, Number.POSITIVE_INFINITY, omega);
  return impedance(effective, metal.resistivity, omega);
}

/** Loss of a linear plate over that of the saturating one, at a field that means so many tesla on linear paper. */
function ratio(tesla: number, linear: number, metal: typeof MILD): number {
  const field = tesla / (MU0 * linear);
  return impedance({ re: linear, im: 0 }, metal.resistivity).re / saturated(field, metal).re;
}

describe('EffectivePermeability', () => {
  it("gives the contract's ratios of ferritic stainless within 1 %: +9, 14, 23, 42, 81 % at 1.5 to 10 T on paper", () => {
    [1.5, 2, 3, 5, 10].forEach((tesla, i) => {
      const expected = [1.09, 1.14, 1.23, 1.42, 1.81][i]!;
      expect(Math.abs(ratio(tesla, 800, FERRITIC) / expected - 1)).toBeLessThan(0.01);
    });
  });

  it('and of mild steel called 200 on paper within 1 %: -38, -31, -18, +2, +39 %', () => {
    [1.5, 2, 3, 5, 10].forEach((tesla, i) => {
      const expected = [0.62, 0.69, 0.82, 1.02, 1.39][i]!;
      expect(Math.abs(ratio(tesla, 200, MILD) / expected - 1)).toBeLessThan(0.01);
    });
  });

  it('does not care for the frequency', () => {
    const at = (omega: number) => saturated(5000, FERRITIC, omega);
    const [low, high] = [at(OMEGA), at(500 * OMEGA)];
    expect(high.re / low.re / Math.sqrt(500)).toBeCloseTo(1, 2);
    expect(high.im / high.re).toBeCloseTo(low.im / low.re, 2);
  });

  it('tends to the step law far into saturation (Agarwal 1959, from memory): Zs = (16 + 8j) rho / (3 pi ds)', () => {
    // 1000 times the knee
    const metal = { ...MILD, permeability: 20000 };
    const field = (1000 * metal.saturation) / (MU0 * metal.permeability);
    const depth = Math.sqrt((2 * metal.resistivity * field) / (OMEGA * metal.saturation));
    const { re, im } = saturated(field, metal);
    expect((re * depth) / metal.resistivity / (16 / (3 * Math.PI))).toBeCloseTo(1, 1);
    expect(Math.abs((im * depth) / metal.resistivity / (8 / (3 * Math.PI)) - 1)).toBeLessThan(0.08);
  });

  it('has nearly the loss of the step law where the flux is sinusoidal, not H: |E|^3 / (4 w Bs rho)', () => {
    // a front at x = |E| (1 - cos wt) / (2 w Bs) below the face, H = E x / rho: the mean of E H
    const metal = { ...MILD, permeability: 20000 };
    const field = (1000 * metal.saturation) / (MU0 * metal.permeability);
    const { re, im } = saturated(field, metal);
    const electric = Math.hypot(re, im) * field;
    const loss = (re * field ** 2) / 2;
    const step = electric ** 3 / (4 * OMEGA * metal.saturation * metal.resistivity);
    expect(Math.abs(loss / step - 1)).toBeLessThan(0.05);
  });

  it('is that of low field in weak fields, also in a thin sheet', () => {
    const effective = new EffectivePermeability();
    for (const thickness of [1e-5, 1e-3, 1]) {
      effective.at(1, FERRITIC, thickness, OMEGA);
      expect(Math.abs(effective.re / 800 - 1)).toBeLessThan(1e-3);
      expect(Math.abs(effective.im)).toBeLessThan(0.1);
    }
  });

  it('is the fundamental of B over H in a sheet too thin for currents', () => {
    const effective = new EffectivePermeability();
    const field = 4000;
    effective.at(field, FERRITIC, 1e-6, OMEGA);
    let sum = 0;
    const steps = 4000;
    const scale = (2 * FERRITIC.saturation) / Math.PI;
    for (let i = 0; i < steps; i++) {
      const sine = Math.sin((2 * Math.PI * (i + 0.5)) / steps);
      const h = field * sine;
      sum += (MU0 * h + scale * Math.atan((MU0 * 799 * h) / scale)) * sine * (2 / steps);
    }
    expect(effective.re / (sum / (MU0 * field))).toBeCloseTo(1, 2);
    expect(Math.abs(effective.im / effective.re)).toBeLessThan(0.01);
  });
});
