import { describe, expect, it } from 'vitest';
import { ComplexReflection } from '../../src/kernel/complex-reflection.ts';
import { MU0 } from '../../src/kernel/constants.ts';
import { type PlateLayer, PlateReflection } from '../../src/kernel/plate-reflection.ts';

const K = Float64Array.of(0.3, 2, 10, 40, 300, 4000);
const ALUMINIUM: PlateLayer = { resistivity: 2.82e-8, relativePermeability: 1, thickness: 3e-3 };
const STEEL: PlateLayer = { resistivity: 6e-7, relativePermeability: 800, thickness: 1e-3 };
const THICK: PlateLayer = {
  resistivity: 1.7e-8,
  relativePermeability: 1,
  thickness: Number.POSITIVE_INFINITY,
};

function reflect(layers: readonly PlateLayer[], pRe: number, pIm: number) {
  const reflection = new ComplexReflection();
  reflection.fill(layers, layers.length, pRe, pIm, K, K.length);
  return { re: reflection.re.slice(0, K.length), im: reflection.im.slice(0, K.length) };
}

describe('reflection at complex p', () => {
  it('is that of the steady state at p = jw, for any stack', () => {
    const steady = new PlateReflection();
    for (const layers of [[ALUMINIUM], [STEEL], [THICK], [ALUMINIUM, STEEL], [STEEL, ALUMINIUM, THICK]]) {
      steady.fill(layers, layers.length, 2 * Math.PI * 50, K, K.length);
      const { re, im } = reflect(layers, 0, 2 * Math.PI * 50);
      for (let i = 0; i < K.length; i++) {
        const size = Math.hypot(steady.re[i]!, steady.im[i]!);
        // both claim 1e-10
        expect(Math.abs(re[i]! - steady.re[i]!) / size).toBeLessThan(2e-10);
        expect(Math.abs(im[i]! - steady.im[i]!) / size).toBeLessThan(2e-10);
      }
    }
  });

  it('obeys the equations of a function that is real in time and analytic', () => {
    for (const [re, im] of [
      [3, 300],
      [-20, 330],
      [40, 10],
    ] as const) {
      const one = reflect([ALUMINIUM, STEEL], re, im);
      const mirrored = reflect([ALUMINIUM, STEEL], re, -im);
      expect(mirrored.re).toEqual(one.re);
      expect(mirrored.im).toEqual(one.im.map((x) => -x));
      // Cauchy and Riemann, by differences
      const h = 1e-3;
      const right = reflect([ALUMINIUM, STEEL], re + h, im);
      const up = reflect([ALUMINIUM, STEEL], re, im + h);
      for (let i = 0; i < K.length; i++) {
        const scale = Math.hypot(right.re[i]! - one.re[i]!, right.im[i]! - one.im[i]!);
        expect(Math.abs(right.re[i]! - one.re[i]! - (up.im[i]! - one.im[i]!)) / scale).toBeLessThan(1e-3);
        expect(Math.abs(right.im[i]! - one.im[i]! + (up.re[i]! - one.re[i]!)) / scale).toBeLessThan(1e-3);
      }
    }
  });

  it('of a thin sheet is -p tau / (1 + p tau), tau = mu0 t / (2 rho k)', () => {
    const sheet = { ...ALUMINIUM, thickness: 1e-6 };
    const { re, im } = reflect([sheet], -5, 200);
    for (let i = 0; i < 4; i++) {
      const tau = (MU0 * sheet.thickness) / (2 * sheet.resistivity * K[i]!);
      const [a, b] = [1 - 5 * tau, 200 * tau];
      const d = a * a + b * b;
      // -p tau (a - jb) / d; what is left is k t
      expect(re[i]! / (-(-5 * tau * a + 200 * tau * b) / d)).toBeCloseTo(1, 3);
      expect(im[i]! / (-(200 * tau * a + 5 * tau * b) / d)).toBeCloseTo(1, 3);
    }
  });
});
