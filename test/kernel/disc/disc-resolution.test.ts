import { describe, expect, it } from 'vitest';
import { discKey, resolveDisc } from '../../../src/kernel/disc/disc-resolution.ts';
import { computeDisc, type DiscCase, discSpec, winding } from '../../support/disc.ts';

/** Disc, coil [inner, outer, height], gap: the corners of the domain, each a kind of rig that once needed care. */
const RIGS: [DiscCase, [number, number, number], number][] = [
  // plate and pancake of one size, mains
  [{ radius: 0.166, layers: [[0.012, 2.9e-8]], frequency: 50 }, [0.05, 0.166, 0.017], 2e-3],
  // three times the coil, thin pancake, half a millimetre
  [{ radius: 0.3, layers: [[0.004, 3e-8]], frequency: 60 }, [0.03, 0.1, 0.002], 5e-4],
  // a fifth of the coil, as thick as it is wide
  [{ radius: 0.02, layers: [[0.02, 2e-8]], frequency: 400 }, [0.04, 0.1, 0.03], 2e-3],
  // foil
  [{ radius: 0.08, layers: [[1e-5, 3e-8]], frequency: 50 }, [0.03, 0.1, 0.01], 1e-3],
  [{ radius: 0.08, layers: [[1e-5, 3e-8]], frequency: 1e5 }, [0.03, 0.1, 0.01], 1e-3],
  // rim losses: ten skin depths thick, smaller than the coil
  [{ radius: 0.05, layers: [[0.005, 3e-8]], frequency: 3e4 }, [0.03, 0.1, 0.02], 3e-3],
  // hoop over the rim
  [{ radius: 0.1, layers: [[0.01, 3e-8]], frequency: 2000 }, [0.095, 0.105, 0.01], 1e-3],
  // washers
  [{ radius: 0.09, innerRadius: 0.03, layers: [[0.004, 3e-8]], frequency: 300 }, [0.03, 0.1, 0.01], 4e-3],
  [{ radius: 0.09, innerRadius: 0.02, layers: [[0.004, 3e-8]], frequency: 2e4 }, [0.03, 0.1, 0.01], 4e-3],
  // clad plates
  [
    {
      radius: 0.12,
      layers: [
        [0.001, 7e-7],
        [0.006, 2.9e-8],
      ],
      frequency: 50,
    },
    [0.03, 0.1, 0.01],
    4e-3,
  ],
  [
    {
      radius: 0.12,
      layers: [
        [0.0005, 1.8e-8],
        [0.003, 2.9e-8],
        [0.001, 7e-7],
      ],
      frequency: 2e4,
    },
    [0.02, 0.1, 0.004],
    5e-3,
  ],
];

describe('resolveDisc', () => {
  it('cuts thick layers of several eight skin depths below either face, and spends little on what is between', () => {
    const spec = discSpec({
      radius: 0.1,
      layers: [
        [0.15, 2.9e-8],
        [0.15, 2.9e-8],
      ],
      frequency: 50,
    });
    const depth = Math.sqrt((2 * 2.9e-8) / (2 * Math.PI * 50 * 4e-7 * Math.PI));
    const { parts, axial } = resolveDisc(spec, [winding(0.03, 0.1, 0.01, 100)], 4e-3);
    const thicknesses = [8 * depth, 0.15 - 8 * depth, 0.15 - 8 * depth, 8 * depth];
    expect(parts.length).toBe(4);
    // mu0 is 4e-7 pi to 5e-10
    for (const [i, { thickness }] of parts.entries()) expect(thickness / thicknesses[i]!).toBeCloseTo(1, 6);
    expect(axial[1]).toBeLessThan(axial[0]!);
    expect(axial[2]).toBe(axial[1]);
  });

  it('holds the accuracy claimed in every corner of the domain', () => {
    for (const [disc, [inner, outer, height], gap] of RIGS) {
      const coil = [winding(inner, outer, height, 100)];
      const usual = computeDisc(disc, coil, gap);
      const fine = computeDisc(disc, coil, gap, 1e-4);
      expect(usual.plate.resolution.adequate).toBe(true);
      expect(fine.plate.unknowns).toBeGreaterThan(usual.plate.unknowns);
      for (const name of ['inductanceRe', 'inductanceIm', 'slopeRe'] as const) {
        const error = Math.abs(usual.coupling[name] / fine.coupling[name] - 1);
        expect(error, `${name} of ${JSON.stringify(disc)}`).toBeLessThan(5e-3);
      }
      // stiffness is a derivative further: three times the error
      expect(Math.abs(usual.coupling.curvatureRe / fine.coupling.curvatureRe - 1)).toBeLessThan(1.5e-2);
    }
  });

  it('comes closer when more accuracy is asked for', () => {
    const [disc, [inner, outer, height], gap] = RIGS[5]!;
    const coil = [winding(inner, outer, height, 100)];
    const reference = computeDisc(disc, coil, gap, 2e-5).coupling.inductanceIm;
    const errors = [5e-3, 5e-4].map((accuracy) =>
      Math.abs(computeDisc(disc, coil, gap, accuracy).coupling.inductanceIm / reference - 1),
    );
    expect(errors[1]!).toBeLessThan(errors[0]! / 2);
    expect(errors[1]!).toBeLessThan(1e-3);
  });

  it('names equal plates alike for coils of about one size, and unequal ones apart', () => {
    const disc = discSpec({ radius: 0.15, layers: [[0.01, 3e-8]], frequency: 50 });
    const key = (outer: number, radius = 0.15, gap = 2e-3) => {
      const spec = { ...disc, radius };
      return discKey(spec, resolveDisc(spec, [winding(0.05, outer, 0.02, 100)], gap));
    };
    expect(key(0.15)).toBe(key(0.155));
    expect(key(0.15)).not.toBe(key(0.3));
    expect(key(0.15)).not.toBe(key(0.15, 0.16));
    expect(key(0.15)).not.toBe(key(0.15, 0.15, 1e-4));
  });

  it('says so when the accuracy is out of reach', () => {
    const spec = discSpec({ radius: 1, layers: [[0.01, 1.7e-8]], frequency: 1e5 });
    // a fine coil close over a disc fifty times its size
    expect(resolveDisc(spec, [winding(0.01, 0.02, 5e-4, 10)], 1e-4).adequate).toBe(false);
    // a rim layer of 1e-6 of the radius
    const perfect = discSpec({ radius: 0.1, layers: [[0.01, 1e-15]], frequency: 1e4 });
    expect(resolveDisc(perfect, [winding(0.05, 0.1, 0.02, 10)], 5e-3).adequate).toBe(false);
  });
});
