import { describe, expect, it } from 'vitest';
import { coilSource } from '../../../src/kernel/disc/coil-source.ts';
import { loopField, loopMutual } from '../../../src/kernel/loops.ts';
import { besselSequence } from '../../../src/math/bessel-sequence.ts';
import { gaussLegendre } from '../../../src/math/gauss-legendre.ts';
import { winding } from '../../support/disc.ts';

const MU0 = 4e-7 * Math.PI;

describe('coilSource', () => {
  it('has the field of the filaments that make up the winding', () => {
    const coil = winding(0.03, 0.1, 0.02, 100, { offset: 0.004, sense: -1 });
    const [r, z] = [0.07, 0.015];
    // flux through a loop below the coil: spectrum against elliptic integrals, both ways of naming the pair
    const mutual = { value: 0, slope: 0, curvature: 0 };
    const rule = gaussLegendre(20);
    let filaments = 0;
    rule.nodes.forEach((x, i) => {
      rule.nodes.forEach((y, j) => {
        loopMutual(r, 0.03 + 0.07 * x, z + 0.004 + 0.02 * y, mutual);
        filaments -= 100 * rule.weights[i]! * rule.weights[j]! * mutual.value;
      });
    });
    const bessel = new Float64Array(2);
    const panel = gaussLegendre(8);
    let spectrum = 0;
    for (let p = 0; p < 200; p++) {
      panel.nodes.forEach((x, i) => {
        const k = 10 * (p + x);
        besselSequence(k * r, 2, bessel);
        spectrum +=
          10 * panel.weights[i]! * Math.PI * MU0 * r * bessel[1]! * coilSource([coil], k) * Math.exp(-k * z);
      });
    }
    // what the Gauss rules leave
    expect(Math.abs(spectrum / filaments - 1)).toBeLessThan(1e-7);
  });

  it('is a dipole at small k: area turns k / 2', () => {
    const k = 1e-3;
    const field = { radial: 0, axial: 0 };
    loopField(0.05, 0, 10, field);
    const source = coilSource([winding(0.0499, 0.0501, 1e-4, 1)], k);
    expect(source / ((0.05 ** 2 * k) / 2) - 1).toBeCloseTo(0, 5);
    // whose field far up the axis is mu0 times its area / (2 pi z^3)
    expect(field.axial / ((MU0 * 0.05 ** 2) / (2 * 10 ** 3)) - 1).toBeCloseTo(0, 4);
  });
});
