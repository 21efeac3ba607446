import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFrontArchive } from '../../src/front/front-archive.ts';
import { paretoFront } from '../../src/front/pareto-front.ts';
import { frontCases } from './brute-force.ts';

/** Cuts [0, count) at the given places. */
function pieces(count: number, cuts: readonly number[]): [number, number][] {
  const edges = [0, ...cuts.map((cut) => cut % (count + 1)), count].sort((a, b) => a - b);
  return edges.slice(1).map((end, i) => [edges[i]!, end]);
}

describe('createFrontArchive', () => {
  it('ends with the front of all rows at once, however they are cut and whichever piece comes first', () => {
    fc.assert(
      fc.property(frontCases, fc.array(fc.nat()), fc.boolean(), ({ columns, senses }, cuts, reversed) => {
        const archive = createFrontArchive(senses);
        const parts = pieces(columns[0]!.length, cuts);
        for (const [start, end] of reversed ? parts.reverse() : parts) {
          archive.add(
            start,
            columns.map((column) => column.subarray(start, end)),
          );
        }
        const rows = paretoFront(columns, senses);
        const front = archive.front();
        expect([...front.ids]).toEqual([...rows]);
        front.columns.forEach((column, k) => {
          expect([...column]).toEqual([...rows].map((row) => columns[k]![row]));
        });
      }),
      { numRuns: 1000 },
    );
  });

  it('leaves masked rows out, however good they are', () => {
    const archive = createFrontArchive(['minimise']);
    archive.add(10, [Float64Array.of(1, 2, 2, 3)], Uint8Array.of(0, 1, 1, 1));
    expect([...archive.front().ids]).toEqual([11, 12]);
  });

  it('is right when merges happen on the way, with fronts larger than one merge', () => {
    const archive = createFrontArchive(['minimise', 'minimise']);
    const count = 30_000;
    const x = Float64Array.from({ length: count }, (_, i) => (i * 7919) % count);
    // Every row is on the front of x + y = const, but odd ones are pushed behind it.
    const y = x.map((value, i) => count - value + (i % 2 ? 1.5 : 0));
    for (let start = 0; start < count; start += 1000) {
      archive.add(start, [x.subarray(start, start + 1000), y.subarray(start, start + 1000)]);
    }
    expect(archive.front().ids).toEqual(Float64Array.from(paretoFront([x, y], ['minimise', 'minimise'])));
  });

  it('refuses columns that are not one a sense and equally long', () => {
    const archive = createFrontArchive(['maximise', 'minimise']);
    const two = Float64Array.of(1, 2);
    expect(() => archive.add(0, [two])).toThrow(RangeError);
    expect(() => archive.add(0, [two, Float64Array.of(1)])).toThrow(RangeError);
    expect(() => archive.add(0, [])).toThrow(RangeError);
  });

  it('does not hold on to the columns it was given', () => {
    const archive = createFrontArchive(['maximise']);
    const column = Float64Array.of(5);
    archive.add(0, [column]);
    column[0] = 0;
    expect(archive.front().columns[0]).toEqual(Float64Array.of(5));
  });

  it('may be asked before anything came and again after more came', () => {
    const archive = createFrontArchive(['maximise', 'minimise']);
    expect(archive.front().ids).toHaveLength(0);
    archive.add(0, [Float64Array.of(1), Float64Array.of(1)]);
    expect([...archive.front().ids]).toEqual([0]);
    archive.add(1, [Float64Array.of(2), Float64Array.of(0)]);
    expect([...archive.front().ids]).toEqual([1]);
  });
});
