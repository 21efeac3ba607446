import { describe, expect, it } from 'vitest';
import type { GapCoupling } from '../../src/kernel/gap-coupling.ts';
import { lagrangeOf, NearCoupling, nodes } from '../../src/kernel/near-coupling.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { FOYER, slotsOf } from '../support/design.ts';

/** The foyer coil over its plate. */
function foyer(): GapCoupling {
  const laws = createLaws(1);
  laws.evaluate(slotsOf(FOYER));
  return laws.coupling!;
}

function near(exact: GapCoupling, from: number, to: number, gaps: number): NearCoupling {
  const coupling = new NearCoupling();
  coupling.span(from, to, gaps);
  expect(coupling.describe(exact, coupling.coefficients, 0)).toBe(true);
  return coupling;
}

const QUANTITIES = ['inductanceRe', 'inductanceIm', 'slopeRe', 'slopeIm', 'curvatureRe', 'jerkRe'] as const;

/** Largest relative errors between the gaps, in the order of QUANTITIES. */
function errors(from: number, to: number, gaps: number): number[] {
  const exact = foyer();
  const coupling = near(exact, from, to, gaps);
  const most = QUANTITIES.map(() => 0);
  for (let i = 0; i <= 40; i++) {
    const gap = from * (to / from) ** (i / 40);
    exact.evaluate(gap);
    coupling.evaluate(gap);
    QUANTITIES.forEach((name, q) => {
      most[q] = Math.max(most[q]!, Math.abs(coupling[name] / exact[name] - 1));
    });
  }
  return most;
}

describe('NearCoupling', () => {
  it('has the values and slopes that it was made from', () => {
    const exact = foyer();
    const coupling = near(exact, 2e-3, 20e-3, 4);
    for (const gap of coupling.gaps) {
      exact.evaluate(gap);
      coupling.evaluate(gap);
      for (const name of QUANTITIES.slice(0, 4)) expect(coupling[name] / exact[name]).toBeCloseTo(1, 10);
    }
    expect([coupling.gaps[0], coupling.gaps.at(-1)].map((gap) => gap!.toPrecision(12))).toEqual([
      '0.00200000000000',
      '0.0200000000000',
    ]);
  });

  it('meets the exact coupling between them: better with more gaps, worse with each derivative', () => {
    const [few, more, most] = [3, 4, 5].map((gaps) => errors(2e-3, 20e-3, gaps));
    // measured: 2e-7 in dL, 3e-5 in the slope, 1e-3 in the curvature with four gaps
    [1e-6, 1e-6, 1e-4, 1e-4, 5e-3, 0.1].forEach((bound, q) => {
      expect(more![q]).toBeLessThan(bound);
      expect(most![q]).toBeLessThan(few![q]! / 30);
    });
  });

  it('evaluates the lift alone to the same bits', () => {
    const coupling = near(foyer(), 2e-3, 20e-3, 4);
    coupling.evaluate(7e-3);
    const { slopeRe, curvatureRe, jerkRe } = coupling;
    coupling.evaluateLift(7e-3);
    expect([coupling.slopeRe, coupling.curvatureRe, coupling.jerkRe]).toEqual([slopeRe, curvatureRe, jerkRe]);
  });

  it('refuses a plate that attracts', () => {
    const laws = createLaws(1);
    laws.evaluate(slotsOf({ ...FOYER, 'plate.layers.0.metal.relative_permeability': 1000 }));
    const coupling = new NearCoupling();
    coupling.span(2e-3, 4e-3, 3);
    expect(coupling.describe(laws.coupling!, coupling.coefficients, 0)).toBe(false);
  });
});

describe('lagrangeOf', () => {
  it('turns values at the nodes into the polynomial through them', () => {
    const at = nodes(4);
    const matrix = lagrangeOf(at);
    const cubic = [0.3, -1, 2, 5];
    const value = (s: number) => cubic.reduceRight((sum, c) => sum * s + c, 0);
    cubic.forEach((c, k) => {
      const found = at.reduce((sum, s, j) => sum + matrix[k * 4 + j]! * value(s), 0);
      expect(found).toBeCloseTo(c, 12);
    });
  });
});
