import { describe, expect, it } from 'vitest';
import { enamelBreakdown } from '../../src/model/enamel-breakdown.ts';

/** From the rms voltage of a twisted pair to the peak of one film. */
const film = (pair: number) => (Math.SQRT2 * pair) / 2;

describe('enamelBreakdown', () => {
  it("halves the pair and takes the peak of IS 13730 / IS 13778's test voltages (a maker's reproduction)", () => {
    for (const [mm, one, two] of [
      [0.102, 1300, 2700],
      [0.254, 2200, 4000],
      [0.508, 2500, 4600],
      [0.711, 2600, 4900],
      [0.813, 2700, 5000],
      [2, 2700, 5000],
      [2.337, 2700, 5000],
    ] as const) {
      expect(enamelBreakdown(mm * 1e-3, 1)).toBeCloseTo(film(one), 9);
      expect(enamelBreakdown(mm * 1e-3, 2)).toBeCloseTo(film(two), 9);
    }
  });

  it('tests thicker wires in foil, through one film', () => {
    expect(enamelBreakdown(2.642e-3, 1)).toBeCloseTo(1300 * Math.SQRT2, 9);
    expect(enamelBreakdown(2.946e-3, 2)).toBeCloseTo(2500 * Math.SQRT2, 9);
  });

  it('takes the lower value between two sizes, and grade 2 for grade 3', () => {
    expect(enamelBreakdown(0.4e-3, 1)).toBeCloseTo(film(2200), 9);
    expect(enamelBreakdown(1e-3, 3)).toBe(enamelBreakdown(1e-3, 2));
  });

  it('says nothing of wires and grades that the standard does not have', () => {
    for (const [d, grade] of [
      [0.1e-3, 1],
      [5.1e-3, 1],
      [1e-3, 4],
      [1e-3, Number.NaN],
      [Number.NaN, 1],
    ] as const)
      expect(enamelBreakdown(d, grade)).toBeNaN();
  });
});
