import { describe, expect, it } from 'vitest';
import { createDiscPlate } from '../../../src/kernel/disc/disc-plate.ts';
import { resolveDisc } from '../../../src/kernel/disc/disc-resolution.ts';
import { RadialBasis } from '../../../src/kernel/disc/radial-basis.ts';
import { type SpatialNodes, spatialNodes, withBursts } from '../../../src/kernel/disc/spatial-nodes.ts';
import { besselJ1 } from '../../../src/math/bessel-j1.ts';
import { besselSequence } from '../../../src/math/bessel-sequence.ts';
import { gaussLegendre } from '../../../src/math/gauss-legendre.ts';
import { discSpec, winding } from '../../support/disc.ts';

const rule = gaussLegendre(24);

/** int phi_n r J1(kr) dr by panels short enough for both, graded toward the rims. */
function dense(basis: RadialBasis, radius: number, hole: number, k: number): Float64Array {
  const width = radius - hole;
  const edges = [0];
  for (let b = 1e-4; b < 0.4; b *= 2) edges.push(b, 1 - b);
  edges.push(1);
  edges.sort((a, b) => a - b);
  const sum = new Float64Array(basis.count);
  const profile = new Float64Array(basis.count);
  const bessel = new Float64Array(2);
  for (let e = 0; e + 1 < edges.length; e++) {
    const pieces = Math.ceil((k * width * (edges[e + 1]! - edges[e]!)) / 10);
    const length = (width * (edges[e + 1]! - edges[e]!)) / pieces;
    for (let piece = 0; piece < pieces; piece++) {
      rule.nodes.forEach((node, i) => {
        const r = hole + width * edges[e]! + length * (piece + node);
        basis.evaluate(r, profile);
        besselSequence(k * r, 2, bessel);
        for (let n = 0; n < basis.count; n++) {
          sum[n] = sum[n]! + length * rule.weights[i]! * profile[n]! * r * bessel[1]!;
        }
      });
    }
  }
  return sum;
}

describe('a disc with a hole at high spatial frequencies', () => {
  it.each([
    [0.611, 0.122, 24],
    [0.09, 0.03, 10],
    [0.3, 0.002, 40],
  ])(
    'radius %d m, hole %d m, %d polynomials: transforms as dense quadrature does',
    (radius, hole, smooth) => {
      const usual = (10 * smooth + 40) / (radius - hole);
      // the widest that polynomials do not follow, and a fifth of it
      const first = (3 * (radius - hole)) / smooth ** 2;
      const scales = [0.2 * first, first];
      const basis = new RadialBasis(radius, hole, smooth, scales, usual, 10 * usual);
      for (const k of [1.001 * usual, 3.3 * usual, 9.9 * usual]) {
        basis.transform(k);
        const expected = dense(basis, radius, hole, k);
        // of the largest; J1 in the edge layers is good to 1e-7 and what polynomials leave of these is small
        const largest = expected.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
        expected.forEach((value, n) => {
          expect(Math.abs(basis.hankel[n]! - value) / largest, `profile ${n} at ${k}`).toBeLessThan(1e-4);
        });
      }
    },
  );

  it('bursts integrate products of two rims as even nodes do', () => {
    // what two edge layers couple by: slow functions of k times J1(kR), J1(ka) and their product
    for (const [radius, hole] of [
      [0.6, 0.12],
      [0.1, 0.09],
      [0.2, 0.002],
    ] as const) {
      const from = 140 / (radius - hole);
      const to = 16 * from;
      // from nothing, so that where bursts begin leaves no ripple of its own
      const begin = (k: number) => {
        const x = Math.min(1, Math.log2(k / from));
        return x * x * x * (10 - x * (15 - 6 * x));
      };
      const integrand = (k: number) =>
        (begin(k) * (radius * besselJ1(k * radius) + 0.7 * hole * besselJ1(k * hole)) ** 2) /
        (1 + (k / (3 * from)) ** 4);
      const integral = ({ k, weight }: SpatialNodes) =>
        k.reduce((sum, kq, q) => (kq > from ? sum + weight[q]! * integrand(kq) : sum), 0);
      const even = spatialNodes(to, 2 * radius, radius);
      const none = { count: 0, k: new Float64Array(0), weight: new Float64Array(0) };
      const few = withBursts(none, from, to, radius, hole);
      expect(few.count).toBeLessThan(1300);
      const expected = integral(even);
      // seen: 4e-3, of the steep rise within the first octave; in dL and lift of discs 3e-5, in the loss 4e-4
      expect(Math.abs(integral(few) / expected - 1)).toBeLessThan(6e-3);
    }
  });

  it('takes work of the order that the plain disc takes', () => {
    const coil = [winding(0.22, 0.5, 0.02, 899)];
    const work = (innerRadius: number) => {
      const disc = discSpec({
        radius: 0.611,
        innerRadius,
        layers: [[0.018, 2.82e-8]],
        frequency: 99.7e3,
      });
      return createDiscPlate(disc, resolveDisc(disc, coil, 2e-3)).work;
    };
    // nodes up to what the hole's edge layers need made it thirty times as much
    expect(work(0.122)).toBeLessThan(3 * work(0));
  });
});
