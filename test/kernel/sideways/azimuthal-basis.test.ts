import { describe, expect, it } from 'vitest';
import { AzimuthalBasis } from '../../../src/kernel/sideways/azimuthal-basis.ts';
import { besselSequence } from '../../../src/math/bessel-sequence.ts';
import { gaussLegendre } from '../../../src/math/gauss-legendre.ts';
import { relative } from '../../support/disc.ts';

const RULE = gaussLegendre(80);

/** k int psi J_m(kr) r dr over [0, R]. */
function transform(psi: (r: number) => number, m: number, k: number, radius: number): number {
  const bessel = new Float64Array(m + 1);
  let sum = 0;
  RULE.nodes.forEach((x, i) => {
    const r = radius * x;
    besselSequence(k * r, m + 1, bessel);
    sum += RULE.weights[i]! * radius * psi(r) * bessel[m]! * r;
  });
  return k * sum;
}

/** sum over n of (int psi_n r^m r dr)^2, by transforms at a small k: J_m(kr) tends to (kr/2)^m / m!. */
function energy(basis: AzimuthalBasis, m: number): number {
  const k = 1e-3;
  basis.transform(k);
  let factorial = 1;
  for (let i = 2; i <= m; i++) factorial *= i;
  const scale = (2 ** m * factorial) / k ** (m + 1);
  return basis.hankel.reduce((sum, f) => sum + (f * scale) ** 2, 0);
}

describe('current patterns over a disc', () => {
  it('have the transforms that quadrature gives', () => {
    const radius = 0.2;
    for (const m of [0, 1, 2, 5]) {
      const basis = new AzimuthalBasis(m, radius, 0, 4, 400);
      // r^m (1 - r^2) P_n^(1,m)(2r^2 - 1) but for a factor, P_1^(1,m)(x) = 2 + (m + 3)(x - 1) / 2 (DLMF 18.5.7)
      const psi = [0, 1].map((n) => (r: number) => {
        const u = (r / radius) ** 2;
        return (r / radius) ** m * (1 - u) * (n === 0 ? 1 : 2 + (m + 3) * (u - 1));
      });
      psi.forEach((pattern, n) => {
        const ratios = [3, 20, 90].map((k) => {
          basis.transform(k);
          return basis.hankel[n]! / transform(pattern, m, k, radius);
        });
        // 80 Gauss points are exact here but for rounding
        expect(relative(ratios[1]!, ratios[0]!)).toBeLessThan(1e-9);
        expect(relative(ratios[2]!, ratios[0]!)).toBeLessThan(1e-9);
      });
    }
  });

  it('span what a field that grows as r^m induces in a resistive disc', () => {
    // laplacian psi = -r^m cos(m phi), psi(R) = 0: psi = r^m (R^2 - r^2) / (4 (m + 1)), so that
    // int psi r^m r dr = R^(2m + 4) / (8 (m + 1)^2 (m + 2)); one pattern holds it all
    for (const m of [0, 1, 3]) {
      const basis = new AzimuthalBasis(m, 1, 0, 6, 100);
      expect(relative(energy(basis, m), 1 / (8 * (m + 1) ** 2 * (m + 2)))).toBeLessThan(1e-6);
    }
  });

  it('do so over a ring, too', () => {
    const [a, R] = [0.4, 1];
    // m = 0: a ring carries K = psi' with K = r/2 everywhere, and the hole's flux counts: int K^2 r dr = (R^4 - a^4) / 16
    expect(relative(energy(new AzimuthalBasis(0, R, a, 8, 100), 0), (R ** 4 - a ** 4) / 16)).toBeLessThan(
      1e-6,
    );
    // m = 1: psi = A r + B / r - r^3 / 8, zero at both rims
    const A = (R ** 4 - a ** 4) / (8 * (R ** 2 - a ** 2));
    const B = a ** 4 / 8 - A * a * a;
    const exact = (A * (R ** 4 - a ** 4)) / 4 + (B * (R ** 2 - a ** 2)) / 2 - (R ** 6 - a ** 6) / 48;
    // polynomials follow 1/r over this ring to six digits with twelve of them
    expect(relative(energy(new AzimuthalBasis(1, R, a, 12, 100), 1), exact)).toBeLessThan(1e-6);
  });

  it('of a disc with a pinhole are those of a disc: currents of one direction run round it', () => {
    const pierced = energy(new AzimuthalBasis(1, 1, 1e-3, 12, 100), 1);
    expect(relative(pierced, 1 / 96)).toBeLessThan(1e-3);
  });
});
