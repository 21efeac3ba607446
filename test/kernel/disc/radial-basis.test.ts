import { describe, expect, it } from 'vitest';
import { RadialBasis } from '../../../src/kernel/disc/radial-basis.ts';
import { besselSequence } from '../../../src/math/bessel-sequence.ts';
import { gaussLegendre } from '../../../src/math/gauss-legendre.ts';

const RADIUS = 2;
const RULE = gaussLegendre(48);
/** Panel edges as shares of the width, fine at both rims. */
const EDGES = [0, 0.002, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.998, 1];

function integrate(hole: number, visit: (r: number, weight: number) => void): void {
  for (let e = 0; e + 1 < EDGES.length; e++) {
    const from = hole + (RADIUS - hole) * EDGES[e]!;
    const length = (RADIUS - hole) * (EDGES[e + 1]! - EDGES[e]!);
    RULE.nodes.forEach((x, i) => {
      visit(from + length * x, RULE.weights[i]! * length);
    });
  }
}

const CASES: [string, number, number, number[]][] = [
  ['a disc', 0, 10, []],
  ['a disc with edge layers', 0, 8, [0.06, 0.02, 0.006]],
  ['a washer with edge layers', 0.5, 8, [0.06, 0.02, 0.006]],
];

describe.each(CASES)('RadialBasis of %s', (_, hole, smooth, scales) => {
  const basis = new RadialBasis(RADIUS, hole, smooth, scales, 20, 200);
  const out = new Float64Array(basis.count);

  it('is orthonormal', () => {
    const gram = new Float64Array(basis.count ** 2);
    integrate(hole, (r, weight) => {
      basis.evaluate(r, out);
      for (let n = 0; n < basis.count; n++) {
        for (let m = 0; m < basis.count; m++) gram[n * basis.count + m]! += weight * r * out[n]! * out[m]!;
      }
    });
    for (let n = 0; n < basis.count; n++) {
      for (let m = 0; m < basis.count; m++) {
        // edge layers are what is left of nearly dependent functions: 1e-16 times 1e6
        expect(Math.abs(gram[n * basis.count + m]! - (n === m ? 1 : 0))).toBeLessThan(1e-8);
      }
    }
  });

  it('knows its Hankel transforms', () => {
    const bessel = new Float64Array(2);
    for (const k of [0.01, 3, 19, 40, 190]) {
      const expected = new Float64Array(basis.count);
      integrate(hole, (r, weight) => {
        basis.evaluate(r, out);
        besselSequence(k * r, 2, bessel);
        for (let n = 0; n < basis.count; n++) expected[n]! += weight * r * out[n]! * bessel[1]!;
      });
      basis.transform(k);
      // the fits of J1 are good to 1e-7
      for (let n = 0; n < basis.count; n++)
        expect(Math.abs(basis.hankel[n]! - expected[n]!)).toBeLessThan(3e-7);
    }
  });
});
