import { columnFromArray, tableFromColumns, tableFromIPC, tableToIPC } from '@uwdata/flechette';
import { describe, expect, it } from 'vitest';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';

const study = workshopStudy();
const STAMP = 'a study, a program';

function rowsOf(count: number): Row[] {
  return Array.from({ length: count }, (_, i) => ({
    values: [i % 2, 320 + i, 0.0011],
    status: i % 3 ? 'lifts' : 'rests',
    unmet: i,
    quantities: { height: i / 7 },
    derived: [i % 5 ? i : Number.NaN],
    objectives: [i, -i],
  }));
}

/** The bytes of 11 rows, a number that leaves columns unaligned, in two batches. */
function part(): Uint8Array {
  const batches = batchesOf(study, rowsOf(11), [4, 7]).map((rows) => ({ rows, report: null }));
  return createPartFormat(study, STAMP).toBytes(batches);
}

const elevenRows = { first: 90, count: 11 };

describe('the bytes of a part', () => {
  it('are what the Arrow package itself makes of the same columns', () => {
    const bytes = part();
    const table = tableFromIPC(bytes);
    const rebuilt = tableFromColumns(
      table.names.map((name) => [
        String(name),
        columnFromArray(table.getChild(String(name)).toArray() as Float64Array),
      ]),
    );
    rebuilt.schema.metadata = table.schema.metadata ?? null;
    expect(Buffer.from(tableToIPC(rebuilt, { format: 'file' })!).equals(bytes)).toBe(true);
    expect([...table.getChild('height').toArray()]).toEqual(rowsOf(11).map((_, i) => i / 7));
  });

  it('are the same in memory that held something else, and where quantities are computed in place', () => {
    const [rows] = batchesOf(study, rowsOf(11), [11]);
    const used = (length: number) =>
      new Uint8Array(new SharedArrayBuffer(length + 100), 0, length).fill(0xff);
    const expected = createPartFormat(study, STAMP).toBytes([{ rows: rows!, report: null }]);
    for (const isInPlace of [true, false]) {
      const room = createPartFormat(study, STAMP).begin(11, used);
      if (isInPlace) room.quantities.set(rows!.quantities);
      const lying = room.finish(isInPlace ? { ...rows!, quantities: room.quantities } : rows!);
      expect(room.bytes.buffer).toBeInstanceOf(SharedArrayBuffer);
      expect(Buffer.from(room.bytes).equals(expected)).toBe(true);
      expect(Buffer.from(room.bytes).equals(expected)).toBe(true);
      expect(lying).toEqual(rows);
      for (const key of ['status', 'unmet', 'quantities', 'objectives'] as const) {
        expect(lying[key].buffer).toBe(room.bytes.buffer);
      }
      expect(createPartFormat(study, STAMP).fromBytes(room.bytes, rows!)!.rows).toEqual(rows);
    }
  });

  it('read the same wherever they lie, by whoever has or has not written their like before', () => {
    const bytes = part();
    const apart = new Uint8Array(bytes.length + 3);
    apart.set(bytes, 3);
    const seasoned = createPartFormat(study, STAMP);
    const read = seasoned.fromBytes(bytes, elevenRows)!;
    expect(read.rows).toMatchObject({ first: 90, count: 11 });
    expect(read.batches).toEqual([
      [4, null],
      [7, null],
    ]);
    expect(seasoned.fromBytes(bytes, elevenRows)).toEqual(read);
    expect(seasoned.fromBytes(apart.subarray(3), elevenRows)).toEqual(read);
    expect(createPartFormat(study, STAMP).fromBytes(Buffer.from(apart).subarray(3), elevenRows)).toEqual(
      read,
    );
  });

  it('are refused with another stamp, number of rows, shape or a byte too many', () => {
    const bytes = part();
    const other = workshopStudy({ derive: [] });
    expect(createPartFormat(study, 'another study').fromBytes(bytes, elevenRows)).toBeNull();
    expect(createPartFormat(study, STAMP).fromBytes(bytes, { first: 90, count: 12 })).toBeNull();
    expect(createPartFormat(other, STAMP).fromBytes(bytes, elevenRows)).toBeNull();
    expect(createPartFormat(study, STAMP).fromBytes(new Uint8Array([...bytes, 0]), elevenRows)).toBeNull();
    expect(createPartFormat(study, STAMP).fromBytes(new Uint8Array(0), elevenRows)).toBeNull();
  });

  it.each([
    ['no JSON', 'toString()'],
    ['no list', '{"length":1}'],
    ['batches that do not add up', '[[4,null],[6,null]]'],
    ['a batch of less than nothing', '[[12,null],[-1,null]]'],
    ['a batch that is no pair', '[[11]]'],
  ])('are refused when their metadata is %s', (_, batches) => {
    const table = tableFromIPC(part());
    const metadata = new Map(table.schema.metadata);
    metadata.set('eddylift.batches', batches);
    table.schema.metadata = metadata;
    const bytes = tableToIPC(table, { format: 'file' })!;
    expect(createPartFormat(study, STAMP).fromBytes(bytes, elevenRows)).toBeNull();
  });
});
