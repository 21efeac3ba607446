import { describe, expect, it } from 'vitest';
import { coilSource } from '../../../src/kernel/disc/coil-source.ts';
import { loopField } from '../../../src/kernel/loops.ts';
import { MovingSource, ShiftedAmplitude } from '../../../src/kernel/sideways/moving-source.ts';
import { besselSequence } from '../../../src/math/bessel-sequence.ts';
import { gaussLegendre } from '../../../src/math/gauss-legendre.ts';
import { relative, winding } from '../../support/disc.ts';

const COIL = [winding(0.05, 0.12, 0.017, 300), winding(0.14, 0.16, 0.03, 120, { sense: -1, offset: 0.004 })];

describe('the source of a coil that is turned', () => {
  it('has the derivatives that differences give', () => {
    const above = 0.012;
    const out = new MovingSource();
    for (const k of [0.5, 4, 25, 60, 180, 700]) {
      const step = 1e-4 * Math.max(k, 5);
      // a(k) e^{ks}, times e^{-ks} of the middle
      const at = (x: number) => coilSource(COIL, x) * Math.exp((x - k) * above);
      out.evaluate(COIL, k, above);
      expect(relative(out.value, at(k))).toBeLessThan(1e-12);
      // what the terms are worth that make a derivative: the coil's size stands for d/dk. J1 from its table is good to
      // 4e-7, the differences to 1e-11 / step^2
      const scale = (Math.abs(at(k)) + Math.abs(out.slope) / 0.1 + Math.abs(out.curvature) / 0.01) * 0.1;
      const slope = (at(k + step) - at(k - step)) / (2 * step);
      const curvature = (at(k + step) - 2 * at(k) + at(k - step)) / step ** 2;
      expect(Math.abs(out.slope - slope)).toBeLessThan(1e-5 * scale);
      expect(Math.abs(out.curvature - curvature)).toBeLessThan(2e-3 * scale * 0.1);
    }
  });
});

describe("Graf's theorem", () => {
  it('gives the field of a circle beside the axis that elliptic integrals give', () => {
    const [radius, level, d] = [0.1, 0.03, 0.04];
    const rule = gaussLegendre(400);
    const cutoff = 25 / level;
    const orders = 24;
    const bessel = new Float64Array(orders + 1);
    const share = new ShiftedAmplitude();
    const source = new Float64Array(2);
    const field = { radial: 0, axial: 0 };
    for (const [r, phi] of [
      [0.02, 0.4],
      [0.09, 0],
      [0.13, 2],
      [0.07, Math.PI],
    ] as const) {
      // B_z = mu0/2 int sum_m alpha_m J_m(kr) cos(m phi) k e^{-k level} dk, a(k) = radius J1(k radius)
      let sum = 0;
      rule.nodes.forEach((x, i) => {
        const k = cutoff * x;
        besselSequence(k * r, orders + 1, bessel);
        besselSequence(k * radius, 2, source);
        let angular = 0;
        for (let m = 0; m < orders; m++) {
          share.evaluate(m, k, d);
          angular += share.value * bessel[m]! * Math.cos(m * phi);
        }
        sum += rule.weights[i]! * cutoff * angular * radius * source[1]! * k * Math.exp(-k * level);
      });
      loopField(radius, Math.hypot(r * Math.cos(phi) - d, r * Math.sin(phi)), level, field);
      // e^{-25} is cut off, and 24 orders follow kd up to 10 or so: five digits
      expect(relative(2e-7 * Math.PI * sum, field.axial)).toBeLessThan(1e-5);
    }
  });

  it('has the derivative that differences give', () => {
    const share = new ShiftedAmplitude();
    for (const m of [0, 1, 2, 7]) {
      const at = (d: number) => {
        share.evaluate(m, 60, d);
        return share.value;
      };
      const difference = (at(0.0301) - at(0.0299)) / 2e-4;
      share.evaluate(m, 60, 0.03);
      expect(Math.abs(share.slope - difference)).toBeLessThan(1e-3 * 60);
      expect(Math.abs(share.slope)).toBeGreaterThan(1e-3);
    }
  });
});
