import { describe, expect, it } from 'vitest';
import { MU0 } from '../../../src/kernel/constants.ts';
import type { CoupledModes } from '../../../src/kernel/motion/coupled-modes.ts';
import { type CoilSpectrum, createWideModes } from '../../../src/kernel/motion/wide-modes.ts';
import type { PlateLayer } from '../../../src/kernel/plate-reflection.ts';
import { WideResponse } from '../../../src/kernel/wide-response.ts';

const OMEGA = 2 * Math.PI * 50;
const NEAREST = 2e-3;
const RADIUS = 0.166;

function plate(...layers: readonly [thickness: number, resistivity: number][]) {
  const made: PlateLayer[] = layers.map(([thickness, resistivity]) => ({
    thickness,
    resistivity,
    relativePermeability: 1,
  }));
  return { layers: made, layerCount: made.length, omega: OMEGA };
}

/** All of the field at one spatial frequency, 1/m. */
function single(k: number): CoilSpectrum {
  return { count: 1, k: Float64Array.of(k), q: Float64Array.of(1e-3) };
}

/** Some coil: a spectrum that rises from nothing and falls off. */
const COIL: CoilSpectrum = {
  count: 120,
  k: Float64Array.from({ length: 120 }, (_, i) => 2.5 * (i + 0.5)),
  q: Float64Array.from({ length: 120 }, (_, i) => {
    const x = 2.5 * (i + 0.5) * RADIUS;
    return (1e-3 * x ** 2) / (1 + x ** 5);
  }),
};

/** D, its slope and its mixed derivative at a gap and p, as WideResponse has them. */
function answer(modes: CoupledModes, gap: number, pRe: number, pIm: number): number[] {
  modes.evaluate(gap);
  const sums = [0, 0, 0, 0, 0, 0];
  for (let n = 0; n < modes.count; n++) {
    const re = pRe + modes.rates[n]!;
    const d = 1 / (re * re + pIm * pIm);
    const parts = [-(pRe * re + pIm * pIm) * d, -pIm * modes.rates[n]! * d];
    const s = modes.coupling[n]!;
    const t = modes.slope[n]!;
    [s * s, s * t, t * t].forEach((product, i) => {
      sums[2 * i]! += product * parts[0]!;
      sums[2 * i + 1]! += product * parts[1]!;
    });
  }
  return sums;
}

describe('the modes of a wide plate', () => {
  it('are one for each spatial frequency in a thin sheet, fading at 2 k rho / (mu0 t)', () => {
    const [k, t, rho] = [20, 1e-5, 2.8e-8];
    const modes = createWideModes(single(k), plate([t, rho]), RADIUS, NEAREST, 1);
    modes.evaluate(NEAREST);
    // k t / 2 is what is left of it being thin
    expect(Math.abs(modes.rates[0]! / ((2 * k * rho) / (MU0 * t)) - 1)).toBeLessThan(k * t);
    expect(Math.abs(modes.coupling[0]! ** 2 / (1e-3 * Math.exp(-2 * k * NEAREST)) - 1)).toBeLessThan(k * t);
    expect(modes.slope[0]).toBeCloseTo(-k * modes.coupling[0]!, 12);
  });

  it('throw back all of what is fast, as a perfect conductor does', () => {
    const modes = createWideModes(single(20), plate([12e-3, 2.8e-8]), RADIUS, NEAREST, 1);
    modes.evaluate(NEAREST);
    const all = modes.coupling.reduce((sum, s) => sum + s * s, 0);
    // currents on the face alone, as polynomials over the thickness follow them
    expect(all / (1e-3 * Math.exp(-2 * 20 * NEAREST))).toBeGreaterThan(0.97);
    expect(all / (1e-3 * Math.exp(-2 * 20 * NEAREST))).toBeLessThan(1 + 1e-9);
  });

  it.each([
    ['of 1 mm', plate([1e-3, 2.8e-8])],
    ['of 12 mm', plate([12e-3, 2.8e-8])],
    ['of 80 mm', plate([80e-3, 1.7e-8])],
    ['without end', plate([Number.POSITIVE_INFINITY, 2.8e-8])],
    ['in layers', plate([2e-3, 1.7e-8], [0.1e-3, 1.1e-6], [30e-3, 2.8e-8])],
  ])('answer as the sums over all spatial frequencies do: %s', (_, stack) => {
    const modes = createWideModes(COIL, stack, RADIUS, NEAREST, 1);
    expect(modes.count).toBeLessThan(100);
    const exact = new WideResponse();
    for (const gap of [NEAREST, 0.01, 0.04, RADIUS]) {
      exact.at(COIL, stack.layers, stack.layerCount, gap);
      for (const [re, im] of [
        [0, OMEGA],
        [2, 1.1 * OMEGA],
        [0, 0.8 * OMEGA],
      ] as const) {
        exact.evaluate(re, im);
        const found = answer(modes, gap, re, im);
        const wanted = [
          exact.valueRe,
          exact.valueIm,
          exact.slopeRe,
          exact.slopeIm,
          exact.mixedRe,
          exact.mixedIm,
        ];
        for (const i of [0, 2, 4]) {
          const error = Math.hypot(found[i]! - wanted[i]!, found[i + 1]! - wanted[i + 1]!);
          // random rigs had 1e-3 in one of a hundred
          expect(error / Math.hypot(wanted[i]!, wanted[i + 1]!)).toBeLessThan(1e-3);
        }
      }
    }
  });
});
