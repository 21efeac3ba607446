import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paretoFront } from '../../src/front/pareto-front.ts';
import { bruteForceFront, frontCases } from './brute-force.ts';

describe('paretoFront', () => {
  it('finds what the definition finds, for one to five objectives', () => {
    fc.assert(
      fc.property(frontCases, ({ columns, senses }) => {
        expect([...paretoFront(columns, senses)]).toEqual(bruteForceFront(columns, senses));
      }),
      { numRuns: 2000 },
    );
  });

  it('finds the same rows in whatever order they stand', () => {
    const shuffled = frontCases.chain((given) =>
      fc.tuple(
        fc.constant(given),
        fc.shuffledSubarray([...given.columns[0]!.keys()], {
          minLength: given.columns[0]!.length,
        }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([{ columns, senses }, order]) => {
        const permuted = columns.map((column) => Float64Array.from(order, (row) => column[row]!));
        const found = [...paretoFront(permuted, senses)].map((row) => order[row]!);
        expect(found.sort((a, b) => a - b)).toEqual([...paretoFront(columns, senses)]);
      }),
    );
  });

  it('keeps every copy of a front row when all rows are doubled', () => {
    fc.assert(
      fc.property(frontCases, ({ columns, senses }) => {
        const count = columns[0]!.length;
        const doubled = columns.map((column) => Float64Array.of(...column, ...column));
        const once = [...paretoFront(columns, senses)];
        expect([...paretoFront(doubled, senses)]).toEqual([...once, ...once.map((row) => row + count)]);
      }),
    );
  });

  it('keeps exact ties, drops a row that is equal in one objective and worse in another', () => {
    const height = Float64Array.of(12, 12, 12, 8);
    const mass = Float64Array.of(2, 2, 3, 2);
    expect([...paretoFront([height, mass], ['maximise', 'minimise'])]).toEqual([0, 1]);
  });

  it('takes -0 for 0', () => {
    expect([
      ...paretoFront([Float64Array.of(0, -0), Float64Array.of(-0, 0)], ['minimise', 'maximise']),
    ]).toEqual([0, 1]);
  });

  it('is empty when every row has an empty objective', () => {
    expect([
      ...paretoFront([Float64Array.of(Number.NaN), Float64Array.of(1)], ['minimise', 'minimise']),
    ]).toEqual([]);
  });

  it('refuses columns that do not match the senses', () => {
    expect(() => paretoFront([], [])).toThrow(RangeError);
    expect(() => paretoFront([Float64Array.of(1)], ['minimise', 'minimise'])).toThrow(RangeError);
    expect(() => paretoFront([Float64Array.of(1), Float64Array.of()], ['minimise', 'minimise'])).toThrow(
      RangeError,
    );
  });
});
