import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createThinning } from '../../src/survey/thin-sample.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';

const study = workshopStudy();
const rowsOf = (count: number): Row[] =>
  Array.from({ length: count }, (_, i) => ({ objectives: [i, -i], feasible: i % 3 > 0 }));

function sampleOf(rows: readonly Row[], sizes: readonly number[], size: number) {
  const thinning = createThinning(size, 2);
  for (const batch of batchesOf(study, rows, sizes)) thinning.add(batch, true);
  return thinning.sample();
}

describe('createThinning', () => {
  it('keeps all wanted rows when they are few, in design order, with their objectives', () => {
    const { designs, objectives, of } = sampleOf(rowsOf(10), [4], 100);
    expect(designs).toEqual([1, 2, 4, 5, 7, 8]);
    expect(objectives.map((values) => [...values])).toEqual(designs.map((id) => [id, -id]));
    expect(of).toBe(6);
  });

  it('keeps the same designs however rows come in batches', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 1, maxLength: 5 }), (sizes) => {
        expect(sampleOf(rowsOf(300), sizes, 20)).toEqual(sampleOf(rowsOf(300), [300], 20));
      }),
      { numRuns: 30 },
    );
  });

  it('spreads over all designs and meets every remainder of a step', () => {
    const { designs, of } = sampleOf(rowsOf(30_000), [4096], 500);
    expect([designs.length, of]).toEqual([500, 20_000]);
    // 500 of 20,000 leave every tenth part 50 on average, with a standard deviation of 6.6: 5 of them
    const tenths = Array.from(
      { length: 10 },
      (_, t) => designs.filter((id) => Math.floor(id / 3000) === t).length,
    );
    for (const count of tenths) expect(Math.abs(count - 50)).toBeLessThan(33);
    expect(new Set(designs.map((id) => id % 10)).size).toBe(10);
  });

  it('passes over rows without a finite value in every objective', () => {
    const rows: Row[] = [
      { objectives: [1, Number.NaN] },
      { objectives: [Number.POSITIVE_INFINITY, 1] },
      { objectives: [1, 2] },
    ];
    expect(sampleOf(rows, [3], 9)).toMatchObject({ designs: [2], of: 1 });
  });
});
