import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hypervolume } from '../../src/math/hypervolume.ts';

/** Rows to columns. */
function columns(rows: readonly (readonly number[])[], width: number): number[][] {
  return Array.from({ length: width }, (_, c) => rows.map((row) => row[c]!));
}

/** Counts the unit cells of a whole-number grid that some point dominates. */
function countCells(rows: readonly (readonly number[])[], reference: readonly number[]): number {
  let cells = [[]] as number[][];
  for (const end of reference) {
    cells = cells.flatMap((cell) => Array.from({ length: end }, (_, x) => [...cell, x]));
  }
  return cells.filter((cell) => rows.some((row) => row.every((x, c) => x <= cell[c]!))).length;
}

const rowsOf = (width: number) =>
  fc.array(fc.array(fc.integer({ min: 0, max: 9 }), { minLength: width, maxLength: width }), {
    maxLength: 30,
  });

describe('hypervolume', () => {
  it.each([1, 2, 3])('is what counting cells gives, in %i columns', (width) => {
    const reference = new Array<number>(width).fill(8);
    fc.assert(
      fc.property(rowsOf(width), (rows) => {
        expect(hypervolume(columns(rows, width), reference)).toBe(countCells(rows, reference));
      }),
    );
  });

  it('does not hang on the order of the points', () => {
    const permuted = rowsOf(3).chain((rows) =>
      fc.tuple(
        fc.constant(rows),
        fc.shuffledSubarray(rows, { minLength: rows.length, maxLength: rows.length }),
      ),
    );
    fc.assert(
      fc.property(permuted, ([rows, shuffled]) => {
        const reference = [7, 8, 9];
        expect(hypervolume(columns(shuffled, 3), reference)).toBe(hypervolume(columns(rows, 3), reference));
      }),
    );
  });

  it('is nothing for no points and for points on the reference', () => {
    expect(hypervolume([[], []], [1, 1])).toBe(0);
    expect(
      hypervolume(
        [
          [1, 0],
          [0, 1],
        ],
        [1, 1],
      ),
    ).toBe(0);
  });

  it('approaches the area under the fronts of ZDT1 and ZDT2 as points fill them', () => {
    const n = 20_000;
    const f1 = Array.from({ length: n + 1 }, (_, i) => i / n);
    const zdt1 = f1.map((x) => 1 - Math.sqrt(x));
    const zdt2 = f1.map((x) => 1 - x * x);
    // 2/3 and 1/3 by integration; a staircase of n steps misses half a step's height on average,
    // that is 1/(2n), and a little more at the steep end of ZDT1
    expect(Math.abs(hypervolume([f1, zdt1], [1, 1]) - 2 / 3)).toBeLessThan(0.55 / n);
    expect(Math.abs(hypervolume([f1, zdt2], [1, 1]) - 1 / 3)).toBeLessThan(0.55 / n);
  });

  it('approaches the volume outside a sphere', () => {
    const n = 100;
    const rows: number[][] = [];
    for (let i = 0; i <= n; i++) {
      for (let j = 0; j <= n; j++) {
        const [a, b] = [(i / n) * (Math.PI / 2), (j / n) * (Math.PI / 2)];
        rows.push([Math.cos(a) * Math.cos(b), Math.cos(a) * Math.sin(b), Math.sin(a)]);
      }
    }
    const exact = 1 - Math.PI / 6;
    const found = hypervolume(columns(rows, 3), [1, 1, 1]);
    expect(found).toBeLessThan(exact);
    // steps of pi/200 leave cells open over the octant's area pi/2, on average about a step deep
    expect(exact - found).toBeLessThan((Math.PI / 2) * (Math.PI / 200));
  });

  it('refuses more columns than it is exact for, and a reference of another width', () => {
    expect(() => hypervolume([], [])).toThrow(RangeError);
    expect(() => hypervolume([[0], [0], [0], [0]], [1, 1, 1, 1])).toThrow(RangeError);
    expect(() => hypervolume([[0], [0]], [1])).toThrow(RangeError);
  });
});
