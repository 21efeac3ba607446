import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { separateLabels } from '../../../src/report/drawing/separate-labels.ts';

const places = fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 8 });

describe('separateLabels', () => {
  it('leaves labels that have room where they are wanted', () => {
    expect(separateLabels([40, 0, 20], 16)).toEqual([40, 0, 20]);
  });

  it('sets labels that crowd evenly around where they are wanted', () => {
    expect(separateLabels([10, 12], 16)).toEqual([3, 19]);
    expect(separateLabels([5, 5, 5], 10)).toEqual([-5, 5, 15]);
  });

  it('keeps every two labels apart and in their order', () => {
    fc.assert(
      fc.property(places, (wanted) => {
        const set = separateLabels(wanted, 10);
        const order = [...wanted.keys()].sort((a, b) => wanted[a]! - wanted[b]!);
        order.slice(1).forEach((index, i) => {
          // a mean of doubles below 200 is off by less than 1e-12
          expect(set[index]! - set[order[i]!]!).toBeGreaterThan(10 - 1e-9);
        });
      }),
    );
  });

  it('keeps the middle of all labels where it was', () => {
    const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
    fc.assert(
      fc.property(
        places.filter((wanted) => wanted.length > 0),
        (wanted) => {
          expect(mean(separateLabels(wanted, 10))).toBeCloseTo(mean(wanted), 9);
        },
      ),
    );
  });
});
