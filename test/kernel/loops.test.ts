import { describe, expect, it } from 'vitest';
import { loopField, loopMutual } from '../../src/kernel/loops.ts';

const MU0 = 4e-7 * Math.PI;
const mutual = { value: 0, slope: 0, curvature: 0 };
const field = { radial: 0, axial: 0 };

function relative(value: number, expected: number): number {
  return Math.abs(value / expected - 1);
}

describe('loopMutual', () => {
  it("gives Maxwell's values for two equal circles of 25 cm", () => {
    // distance cm, nH; recomputed from Maxwell's formula (Treatise, art. 701, from memory), printed to 7 digits.
    // The first is the case of Rosa & Grover 1912, Bull. Bureau of Standards 8 (1036.66..., from memory).
    const rows = [
      [1, 1036.6648],
      [2, 820.0481],
      [5, 538.464],
      [10, 337.6847],
      [16, 216.9654],
      [20, 167.0858],
      [25, 123.5196],
      [50, 35.465],
    ] as const;
    for (const [h, nH] of rows) {
      loopMutual(0.25, 0.25, h / 100, mutual);
      // half a unit of the last printed digit
      expect(Math.abs(mutual.value * 1e9 - nH)).toBeLessThan(6e-5);
    }
  });

  it('and its two derivatives agree with multiprecision differentiation of the formula', () => {
    // a, b, z, M, M', M'': mpmath, 40 digits, numerical differentiation
    const rows = [
      [0.25, 0.2, 0.1, 2.487873590421893e-7, -1.850904716241333e-6, 1.565728996779868e-5],
      [0.1, 0.101, 0.0005, 5.78177943446303e-7, -5.050271650030822e-5, -0.0605934232363386],
      [0.05, 2, 0.3, 2.386895424395183e-9, -5.256979624411178e-10, -1.559241967922332e-9],
    ] as const;
    for (const [a, b, z, value, slope, curvature] of rows) {
      loopMutual(a, b, z, mutual);
      // the roundings of m1 and of two differences of order one
      expect(relative(mutual.value, value)).toBeLessThan(2e-14);
      expect(relative(mutual.slope, slope)).toBeLessThan(1e-13);
      expect(relative(mutual.curvature, curvature)).toBeLessThan(1e-12);
    }
  });

  it('is the same both ways, even in the distance, and zero for a loop shrunk to a point', () => {
    loopMutual(0.03, 0.07, 0.02, mutual);
    const { value, slope, curvature } = mutual;
    loopMutual(0.07, 0.03, -0.02, mutual);
    expect(mutual.value).toBe(value);
    expect(mutual.slope).toBe(-slope);
    expect(mutual.curvature).toBe(curvature);
    loopMutual(0, 0.07, 0.02, mutual);
    expect(mutual).toEqual({ value: 0, slope: 0, curvature: 0 });
  });

  it('falls to that of two dipoles far apart', () => {
    const a = 1e-3;
    const z = 10;
    loopMutual(a, a, z, mutual);
    const dipoles = (MU0 * Math.PI * a ** 4) / (2 * z ** 3);
    // the next term is of order (a/z)^2 = 1e-8
    expect(relative(mutual.value, dipoles)).toBeLessThan(1e-7);
    expect(relative(mutual.slope, (-3 * dipoles) / z)).toBeLessThan(1e-7);
    expect(relative(mutual.curvature, (12 * dipoles) / z ** 2)).toBeLessThan(1e-7);
  });
});

describe('loopField', () => {
  it('on the axis is that of the closed form', () => {
    for (const z of [0, 0.01, -0.3]) {
      loopField(0.05, 0, z, field);
      expect(field.radial).toBe(0);
      expect(relative(field.axial, (MU0 * 0.05 ** 2) / (2 * (0.05 ** 2 + z * z) ** 1.5))).toBeLessThan(1e-14);
    }
  });

  it('threads a second loop with the flux that their mutual inductance says', () => {
    // d M / d b = 2 pi b B_z and d M / d z = -2 pi b B_r; central differences with step 1e-5 b: 1e-9
    const [a, b, z] = [0.05, 0.08, 0.03];
    const step = 1e-5 * b;
    loopField(a, b, z, field);
    loopMutual(a, b + step, z, mutual);
    const above = mutual.value;
    loopMutual(a, b - step, z, mutual);
    expect(relative((above - mutual.value) / (2 * step), 2 * Math.PI * b * field.axial)).toBeLessThan(1e-8);
    loopMutual(a, b, z, mutual);
    expect(relative(mutual.slope, -2 * Math.PI * b * field.radial)).toBeLessThan(1e-12);
  });

  it('falls to that of a dipole far away, in the plane and near the axis', () => {
    const a = 1e-3;
    loopField(a, 1, 0, field);
    // the next term is of order (a/r)^2 = 1e-6
    expect(relative(field.axial, (-MU0 * a * a) / 4)).toBeLessThan(3e-6);
    loopField(a, 1e-4, 1, field);
    expect(relative(field.radial, (MU0 * a * a * 3 * 1e-4) / 4)).toBeLessThan(3e-6);
  });
});
