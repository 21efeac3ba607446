import fc from 'fast-check';
import type { Sense } from '../../src/front/senses.ts';

/** The definition, row against row. */
export function bruteForceFront(columns: readonly Float64Array[], senses: readonly Sense[]): number[] {
  const count = columns[0]!.length;
  const better = (sense: Sense, a: number, b: number) => (sense === 'maximise' ? a > b : a < b);
  const hasNan = (row: number) => columns.some((column) => Number.isNaN(column[row]!));
  const dominates = (a: number, b: number) =>
    senses.every((sense, k) => !better(sense, columns[k]![b]!, columns[k]![a]!)) &&
    senses.some((sense, k) => better(sense, columns[k]![a]!, columns[k]![b]!));
  const rows = Array.from({ length: count }, (_, row) => row).filter((row) => !hasNan(row));
  return rows.filter((row) => !rows.some((other) => dominates(other, row)));
}

/** Few distinct values, so that ties, duplicates and equal coordinates are common; all the odd doubles. */
const cost = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: -3, max: 3 }) },
  { weight: 2, arbitrary: fc.double() },
  {
    weight: 1,
    arbitrary: fc.constantFrom(0, -0, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
  },
);

export interface FrontCase {
  senses: Sense[];
  columns: Float64Array[];
}

export const frontCases: fc.Arbitrary<FrontCase> = fc.integer({ min: 1, max: 5 }).chain((objectives) =>
  fc.record({
    senses: fc.array(fc.constantFrom<Sense>('maximise', 'minimise'), {
      minLength: objectives,
      maxLength: objectives,
    }),
    columns: fc
      .array(fc.array(cost, { minLength: objectives, maxLength: objectives }), { maxLength: 40 })
      .map((rows) => Array.from({ length: objectives }, (_, k) => Float64Array.from(rows, (row) => row[k]!))),
  }),
);
