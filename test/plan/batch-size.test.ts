import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { batchSize } from '../../src/plan/batch-size.ts';

describe('batchSize', () => {
  it('leaves work for several threads in a small study and stays bounded in a large one', () => {
    expect(batchSize(1)).toBe(16);
    expect(batchSize(264)).toBe(16);
    expect(batchSize(6400)).toBe(100);
    expect(batchSize(100_000)).toBe(1563);
    expect(batchSize(1e12)).toBe(4000);
  });

  it('never shrinks as the study grows', () => {
    fc.assert(
      fc.property(fc.nat(1e9), fc.nat(1e9), (a, b) => {
        expect(batchSize(Math.min(a, b))).toBeLessThanOrEqual(batchSize(Math.max(a, b)));
      }),
    );
  });
});
