import { describe, expect, it } from 'vitest';
import { AxialBasis } from '../../../src/kernel/disc/axial-basis.ts';
import { gaussLegendre } from '../../../src/math/gauss-legendre.ts';

const RULE = gaussLegendre(30);

function legendre(n: number, x: number): number {
  let before = 0;
  let here = 1;
  for (let j = 1; j <= n; j++) [before, here] = [here, ((2 * j - 1) * x * here - (j - 1) * before) / j];
  return here;
}

/** Profiles as functions of depth, zero outside their layer. */
function profiles(thicknesses: number[], orders: number[]) {
  let top = 0;
  return thicknesses.flatMap((t, l) => {
    const from = top;
    top += t;
    return Array.from({ length: orders[l]! }, (_, c) => ({
      from,
      t,
      at: (z: number) => Math.sqrt((2 * c + 1) / t) * legendre(c, (2 * (z - from)) / t - 1),
    }));
  });
}

describe('AxialBasis', () => {
  const thicknesses = [0.5, 1, 0.25];
  const orders = [4, 6, 3];
  const basis = new AxialBasis(thicknesses, orders);
  const functions = profiles(thicknesses, orders);

  it('gives the moments of its profiles with a decaying exponential', () => {
    for (const k of [1e-4, 0.3, 5, 40]) {
      basis.transform(k);
      functions.forEach(({ from, t, at }, i) => {
        let sum = 0;
        // panels that halve toward the coil-side face, where the exponential lives
        for (let p = 0, end = 1; p < 8; p++, end /= 2) {
          const start = p === 7 ? 0 : end / 2;
          RULE.nodes.forEach((x, j) => {
            const z = from + t * (start + (end - start) * x);
            sum += RULE.weights[j]! * t * (end - start) * at(z) * Math.exp(-k * z);
          });
        }
        // rounding of the quadrature
        expect(Math.abs(basis.moment[i]! - sum)).toBeLessThan(1e-13);
      });
    }
  });

  it("gives their mutual integrals with e^{-k|z - z'|}", () => {
    for (const k of [1e-4, 0.3, 5, 40]) {
      basis.interact(k);
      functions.forEach((a, i) => {
        functions.forEach((b, j) => {
          let sum = 0;
          RULE.nodes.forEach((x, m) => {
            // the outer integral, halved panels at both faces; the inner one split where the kernel has its kink
            for (const [from, to] of [
              [0, 0.05],
              [0.05, 0.5],
              [0.5, 0.95],
              [0.95, 1],
            ] as const) {
              const z = a.from + a.t * (from + (to - from) * x);
              const outer = RULE.weights[m]! * a.t * (to - from) * a.at(z);
              const split = Math.min(Math.max(z, b.from), b.from + b.t);
              const near = 3 / k;
              const cuts = [b.from, split - near, split, split + near, b.from + b.t].map((cut) =>
                Math.min(Math.max(cut, b.from), b.from + b.t),
              );
              for (let c = 0; c < 4; c++) {
                const length = cuts[c + 1]! - cuts[c]!;
                if (length <= 0) continue;
                RULE.nodes.forEach((y, n) => {
                  const other = cuts[c]! + length * y;
                  sum += outer * RULE.weights[n]! * length * b.at(other) * Math.exp(-k * Math.abs(z - other));
                });
              }
            }
          });
          // quadrature of the brute-force side
          expect(Math.abs(basis.coupling[i * basis.count + j]! - sum)).toBeLessThan(1e-10);
        });
      });
    }
  });
});
