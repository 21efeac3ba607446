import { columnFromArray, tableFromColumns, tableFromIPC, tableToIPC } from '@uwdata/flechette';
import { describe, expect, it } from 'vitest';
import { Q, QUANTITIES } from '../../src/model/quantities.ts';
import { REASON, STATUS } from '../../src/model/status.ts';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { PART_CODES } from '../../src/store/part-codes.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';

const study = workshopStudy();
const STAMP = 'a study, a program';
const format = createPartFormat(study, STAMP);
const rows: Row[] = [
  { values: [0, 320, 0.0011], status: 'lifts', quantities: { height: 0.01, coil_mass: 1, first_limit: 2 } },
  { values: [1, 321, 0.0012], status: 'rests', reason: REASON.weak, quantities: { coil_mass: 2 } },
  { values: [1, 322, 0.0013], status: 'failed', reason: REASON.threw, feasible: false, unmet: 3 },
];
const name = { first: 0, count: rows.length };
const part = () => format.toBytes([{ rows: batchesOf(study, rows, [3])[0]!, report: null }]);

/** The part as a version with other columns, or other codes, would have written it. */
function rewritten(
  change: (columns: Map<string, ArrayLike<number>>) => void,
  codes: Record<string, readonly string[]> | null = PART_CODES,
): Uint8Array {
  const table = tableFromIPC(part());
  const columns = new Map(table.schema.fields.map((f) => [f.name, table.getChild(f.name).toArray()]));
  change(columns);
  const other = tableFromColumns(
    [...columns].map(([key, cells]) => [key, columnFromArray(cells as Float64Array)]),
  );
  const metadata = new Map(table.schema.metadata);
  if (codes === null) metadata.delete('eddylift.codes');
  else metadata.set('eddylift.codes', JSON.stringify(codes));
  other.schema.metadata = metadata;
  return new Uint8Array(tableToIPC(other, { format: 'file' })!);
}

const whole = format.fromBytes(part(), name)!;

describe('a part of a version with other quantities', () => {
  it('gives all that it has, the rest empty, wherever its columns stand', () => {
    const bytes = rewritten((columns) => {
      columns.delete('coil_mass');
      const made = Float64Array.from(rows, (_, i) => i);
      const before = [...columns];
      columns.clear();
      columns.set('made_up', made);
      for (const [key, cells] of before.reverse()) columns.set(key, cells);
    });
    expect(format.fromBytes(bytes, name)).toBeNull();
    const read = format.fromOtherBytes(bytes, name)!;
    expect(read.missing).toEqual([Q.coil_mass]);
    const { quantities, ...others } = read.rows;
    const { quantities: all, ...same } = whole.rows;
    expect(others).toEqual(same);
    expect(read.batches).toEqual(whole.batches);
    for (const { index } of QUANTITIES) {
      const cells = (from: Float64Array) => from.subarray(index * 3, (index + 1) * 3);
      const expected = index === Q.coil_mass ? [Number.NaN, Number.NaN, Number.NaN] : cells(all);
      expect(cells(quantities)).toEqual(Float64Array.from(expected));
    }
  });

  it('is read also with nothing but what makes a row', () => {
    const bytes = rewritten((columns) => {
      for (const { name: quantity } of QUANTITIES) columns.delete(quantity);
      columns.delete('derive.height_per_ampere');
    });
    const read = format.fromOtherBytes(bytes, name)!;
    // those on request were not requested, so they are not missed
    expect(read.missing).toHaveLength(QUANTITIES.filter(({ effort }) => effort === 0).length);
    expect(read.rows.values).toEqual(whole.rows.values);
    expect([...read.rows.quantities, ...read.rows.derived].every(Number.isNaN)).toBe(true);
  });

  it('has its codes translated by the names that it carries', () => {
    const codes = {
      ...PART_CODES,
      status: ['gone', ...PART_CODES.status!],
      reason: [...PART_CODES.reason!].reverse(),
      first_limit: ['none', 'fuse', 'current', 'voltage'],
    };
    const last = codes.reason.length - 1;
    const bytes = rewritten((columns) => {
      columns.set(
        'status',
        Uint8Array.from(columns.get('status')!, (code) => code + 1),
      );
      columns.set(
        'reason',
        Uint8Array.from(columns.get('reason')!, (code) => last - code),
      );
      columns.set('first_limit', Float64Array.of(1, Number.NaN, 3));
    }, codes);
    const { rows: read } = format.fromOtherBytes(bytes, name)!;
    expect([...read.status]).toEqual([STATUS.lifts, STATUS.rests, STATUS.failed]);
    expect([...read.reason]).toEqual([REASON.none, REASON.weak, REASON.threw]);
    const at = Q.first_limit * 3;
    expect([...read.quantities.subarray(at, at + 3)]).toEqual([3, Number.NaN, 1]);
  });

  it('is taken for one of format 2 where it carries no names of codes', () => {
    const bytes = rewritten((columns) => columns.set('reason', Uint8Array.of(0, 1, 14)), null);
    expect([...format.fromOtherBytes(bytes, name)!.rows.reason]).toEqual([0, REASON.weak, REASON.threw]);
  });

  it.each([
    ['an input', (columns: Map<string, ArrayLike<number>>) => columns.delete('vary.coil_turns')],
    ['a verdict', (columns: Map<string, ArrayLike<number>>) => columns.delete('feasible')],
    ['an objective', (columns: Map<string, ArrayLike<number>>) => columns.delete('objective.1')],
    [
      'a reason that is known',
      (columns: Map<string, ArrayLike<number>>) => columns.set('reason', Uint8Array.of(0, 250, 0)),
    ],
  ])('is refused without %s', (_, change) => {
    expect(format.fromOtherBytes(rewritten(change), name)).toBeNull();
  });

  it('is refused with another stamp, number of rows or torn', () => {
    const bytes = rewritten((columns) => columns.delete('height'));
    expect(createPartFormat(study, 'another').fromOtherBytes(bytes, name)).toBeNull();
    expect(format.fromOtherBytes(bytes, { first: 0, count: 4 })).toBeNull();
    for (const length of [0, 8, 100, bytes.length >> 1, bytes.length - 1]) {
      expect(format.fromOtherBytes(bytes.slice(0, length), name)).toBeNull();
    }
  });
});
