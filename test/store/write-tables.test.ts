import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { parquetMetadata } from 'hyparquet';
import { describe, expect, it } from 'vitest';
import { QUANTITIES, type QuantityName } from '../../src/model/quantities.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { REASONS, STATUSES } from '../../src/model/status.ts';
import { tableColumns } from '../../src/model/table-columns.ts';
import { FolderError } from '../../src/store/folder-error.ts';
import { markFront } from '../../src/store/front-rows.ts';
import { CHUNK_ROWS, CHUNKS_A_GROUP } from '../../src/store/table-cuts.ts';
import { batchesOf, batchOf, type Row, workshopStudy } from '../support/batches.ts';
import { bytesOf, csvCells, expectedCells, parquetCells, readCsv, readParquet } from './tables-back.ts';
import { temporaryFolder } from './temporary-folder.ts';
import { writeRows } from './write-rows.ts';

const study = workshopStudy();
const columns = tableColumns(study);

const cell = fc.oneof(fc.double(), fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, 0, -0));
const rowArbitrary: fc.Arbitrary<Row> = fc.record({
  values: fc
    .tuple(fc.nat(1), fc.constantFrom(320, 440), fc.constantFrom(0.0011, 0.000123))
    .map((values) => [...values]),
  status: fc.constantFrom(...STATUSES),
  reason: fc.nat(REASONS.length - 1),
  feasible: fc.boolean(),
  quantities: fc
    .tuple(...QUANTITIES.map(({ words }) => (words.length > 0 ? fc.nat(words.length - 1) : cell)))
    .map(
      (cells) =>
        Object.fromEntries(QUANTITIES.map(({ name }, i) => [name, cells[i]])) as Record<QuantityName, number>,
    ),
  derived: fc.tuple(cell).map((cells) => [...cells]),
  objectives: fc.constant([]),
});

/** Past 300 lines: what is written is read back from the same few tables, as CSV and as Parquet. */

/** Many rows, some empty, most repeating, enough for several row groups. */
function manyRows(count: number): Row[] {
  return Array.from({ length: count }, (_, i) => ({
    values: [i % 2, 320, 0.0011],
    quantities: { height: i % 3 ? i / 1e6 : Number.NaN, coil_mass: Math.floor(i / 100) },
    objectives: [i, i],
  }));
}

describe('writeTables', () => {
  it('writes CSV and Parquet that read back cell by cell as the rows', async () => {
    // without objectives no front is written, which would take most of the time
    const study = workshopStudy({ objectives: [] });
    await fc.assert(
      fc.asyncProperty(
        fc.array(rowArbitrary, { maxLength: 12 }),
        fc.integer({ min: 1, max: 5 }),
        async (rows, size) => {
          const folder = temporaryFolder();
          const front = rows.flatMap((_, i) => (i % 3 === 0 ? [i] : []));
          await writeRows(folder, { study, batches: batchesOf(study, rows, [size]), front, csv: true });
          const expected = expectedCells(columns, markFront(batchOf(study, rows), front));
          const [header, ...records] = readCsv(join(folder, 'designs.csv'));
          expect(header).toEqual(columns.map(({ name }) => name));
          expect(csvCells(columns, records)).toEqual(expected);
          const objects = await readParquet(join(folder, 'designs.parquet'));
          expect(parquetCells(columns, objects)).toEqual(expected);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('writes the same bytes however the rows are batched', async () => {
    const rows = manyRows(45_000);
    const folders = [];
    for (const sizes of [[45_000], [1, CHUNK_ROWS - 1, 1, CHUNK_ROWS + 1], [4096]]) {
      const folder = temporaryFolder();
      await writeRows(folder, {
        study,
        batches: batchesOf(study, rows, sizes),
        front: [7, 44_997],
        csv: true,
      });
      folders.push(folder);
    }
    for (const name of [
      'designs.csv',
      'designs.parquet',
      'front.csv',
      'front.xlsx',
      'designs.csv-metadata.json',
      'front.csv-metadata.json',
    ]) {
      const [first, ...others] = folders.map((folder) => bytesOf(folder, name));
      for (const other of others) expect(first!.equals(other)).toBe(true);
    }
    const objects = await readParquet(join(folders[0]!, 'designs.parquet'));
    expect(objects).toHaveLength(45_000);
    expect(objects[44_997]).toMatchObject({ design: 44_997, height_mm: null, on_front: true });
    expect(objects[20_000]).toMatchObject({
      design: 20_000,
      height_mm: 20,
      coil_metal: 'aluminium',
      reason: null,
    });
  });

  it('writes the front best in the first objective first, equals by design id, and returns it', async () => {
    const heights = [5, 9, 1, 9];
    const rows: Row[] = heights.map((height) => ({ quantities: { height }, objectives: [height, height] }));
    const folder = temporaryFolder();
    const request = { study, batches: batchesOf(study, rows, [1]), front: [0, 1, 3], csv: true };
    const { front } = await writeRows(folder, request);
    const [header, ...records] = readCsv(join(folder, 'front.csv'));
    expect(header).toEqual(columns.map(({ name }) => name));
    expect(records.map((record) => record[0])).toEqual(['1', '3', '0']);
    expect(records.every((record) => record.at(-1) === 'true')).toBe(true);
    expect([...front.designs]).toEqual([1, 3, 0]);
    expect(csvCells(columns, records)).toEqual(expectedCells(columns, front));

    const lightest = workshopStudy({ objectives: [study.objectives[1]!, study.objectives[0]!] });
    await writeRows(folder, { ...request, study: lightest, batches: batchesOf(lightest, rows, [4]) });
    expect(
      readCsv(join(folder, 'front.csv'))
        .slice(1)
        .map((record) => record[0]),
    ).toEqual(['0', '1', '3']);
  });

  it('counts designs, statuses, feasible ones and the front', async () => {
    const rows: Row[] = [
      { status: 'lifts' },
      { status: 'rests', feasible: false },
      { status: 'impossible', feasible: false },
      { status: 'rests' },
    ];
    const { counts } = await writeRows(temporaryFolder(), {
      study,
      batches: batchesOf(study, rows, [3]),
      front: [3],
      csv: false,
    });
    expect(counts).toEqual({
      designs: 4,
      statuses: { lifts: 1, rests: 2, clamped: 0, impossible: 1, failed: 0 },
      feasible: 2,
      front: 1,
    });
  });

  it('writes tables of no rows that can be read', async () => {
    const folder = temporaryFolder();
    await writeRows(folder, { study, batches: [], front: [], csv: true });
    expect(readCsv(join(folder, 'designs.csv'))).toHaveLength(1);
    expect(await readParquet(join(folder, 'designs.parquet'))).toEqual([]);
  });

  it('leaves the CSV and its metadata out when they are not asked for', async () => {
    const folder = temporaryFolder();
    await writeRows(folder, { study, batches: batchesOf(study, manyRows(3), [3]), front: [], csv: false });
    expect(readdirSync(folder).sort()).toEqual([
      'designs.parquet',
      'front.csv',
      'front.csv-metadata.json',
      'front.xlsx',
    ]);
  });

  it('makes a hostile metal name harmless in the CSV and leaves it as it is in Parquet', async () => {
    const name = '=cmd|"/c calc"!A1, "metal"';
    const metal = { ...study.vary[0]!, levels: [{ label: name, settings: [] }] } as (typeof study.vary)[0];
    const hostile = workshopStudy({ vary: [metal] });
    const folder = temporaryFolder();
    await writeRows(folder, { study: hostile, batches: [batchOf(hostile, [{}])], front: [], csv: true });
    expect(readCsv(join(folder, 'designs.csv'))[1]![1]).toBe(`'${name}`);
    expect((await readParquet(join(folder, 'designs.parquet')))[0]!.coil_metal).toBe(name);
  });

  it('leaves nothing behind when the rows break off', async () => {
    function* broken(): Generator<RowBatch> {
      yield batchOf(study, manyRows(3));
      throw new Error('the worker is gone');
    }
    const folder = temporaryFolder();
    await expect(writeRows(folder, { study, batches: broken(), front: [], csv: true })).rejects.toThrow(
      'the worker is gone',
    );
    expect(readdirSync(folder)).toEqual([]);
  });

  it('refuses rows out of order and a front whose rows do not come', async () => {
    const late = [batchOf(study, manyRows(2), 2)];
    await expect(
      writeRows(temporaryFolder(), { study, batches: late, front: [], csv: true }),
    ).rejects.toThrow('design 2 came where 0 was due');
    await expect(
      writeRows(temporaryFolder(), {
        study,
        batches: batchesOf(study, manyRows(2), [2]),
        front: [5],
        csv: true,
      }),
    ).rejects.toThrow('the front has 1 rows, but 0 of them came');
  });

  it('says so when the folder vanishes under it', async () => {
    const folder = temporaryFolder();
    function* vanishing(): Generator<RowBatch> {
      rmSync(folder, { recursive: true });
      yield batchOf(study, manyRows(1));
    }
    const writing = writeRows(folder, { study, batches: vanishing(), front: [], csv: true });
    await expect(writing).rejects.toThrow(FolderError);
    await expect(writing).rejects.toMatchObject({ code: 'ENOENT', folder });
  });
});

describe('designs.parquet', () => {
  const infinite = Number.POSITIVE_INFINITY;
  const heights = [0.002, Number.NaN, 0.0005, infinite, 0.001];

  async function metadata() {
    const folder = temporaryFolder();
    const rows = heights.map((height, i): Row => ({ values: [0, 320 + i, 0.0011], quantities: { height } }));
    await writeRows(folder, { study, batches: [batchOf(study, rows)], front: [], csv: false });
    const bytes = readFileSync(join(folder, 'designs.parquet'));
    return parquetMetadata(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  }

  it('says which study it is of, and what each column means in which unit', async () => {
    const { key_value_metadata: pairs } = await metadata();
    const said = Object.fromEntries(pairs!.map(({ key, value }) => [key, value]));
    expect(said['eddylift.title']).toBe(study.title);
    expect(said['eddylift.study']).toBe(study.hash);
    const described = JSON.parse(said['eddylift.columns']!);
    expect(described.map(({ name }: { name: string }) => name)).toEqual(columns.map(({ name }) => name));
    expect(described).toContainEqual({
      name: 'height_mm',
      label: 'height',
      unit: 'mm',
      meaning: 'gap minus standoff; 0 at rest',
    });
  });

  it('is compressed with Zstandard and holds bounds by which readers skip row groups', async () => {
    const { row_groups: groups } = await metadata();
    const chunks = groups[0]!.columns.map(({ meta_data }) => meta_data!);
    expect(new Set(chunks.map(({ codec }) => codec))).toEqual(new Set(['ZSTD']));
    const boundsOf = (name: string) => chunks.find((chunk) => chunk.path_in_schema[0] === name)!.statistics;
    expect(boundsOf('height_mm')).toMatchObject({ min_value: 0.5, max_value: infinite, null_count: 1n });
    expect(boundsOf('coil_turns')).toMatchObject({ min_value: 320, max_value: 324, null_count: 0n });
    // rows of the test have no other quantity
    expect(boundsOf('coil_mass_kg')).toMatchObject({ null_count: BigInt(heights.length) });
    expect(boundsOf('coil_mass_kg')!.min_value).toBeUndefined();
  });
});

describe('row groups of designs.parquet', () => {
  it('hold several chunks, with the bounds of all of them', async () => {
    const folder = temporaryFolder();
    const count = CHUNK_ROWS * CHUNKS_A_GROUP + 5;
    const labels = ['zinc', 'Ä', '\ud83e\udea8', '\uffe6'];
    const metal = {
      ...study.vary[0]!,
      levels: labels.map((label) => ({ label, settings: [] })),
    } as (typeof study.vary)[0];
    const own = workshopStudy({ vary: [metal], keep: ['height'], derive: [] });
    const rows = Array.from(
      { length: count },
      (_, i): Row => ({
        values: [Math.floor(i / CHUNK_ROWS) % labels.length],
        quantities: { height: i === 3 ? Number.NaN : (count - i) / 1e3 },
      }),
    );
    await writeRows(folder, { study: own, batches: batchesOf(own, rows, [50_000]), front: [], csv: false });
    const bytes = readFileSync(join(folder, 'designs.parquet'));
    const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
    const { row_groups: groups } = parquetMetadata(file);
    expect(groups.map(({ num_rows }) => Number(num_rows))).toEqual([count - 5, 5]);
    const boundsOf = (name: string) =>
      groups[0]!.columns.find(({ meta_data }) => meta_data!.path_in_schema[0] === name)!.meta_data!
        .statistics;
    expect(boundsOf('height_mm')).toMatchObject({ min_value: 6, max_value: count, null_count: 1n });
    // by the bytes of UTF-8 the sign of the won comes before the stone, by JavaScript's characters after it
    expect(boundsOf('coil_metal')).toMatchObject({ min_value: 'zinc', max_value: '\ud83e\udea8' });
    const objects = await readParquet(join(folder, 'designs.parquet'));
    expect(objects).toHaveLength(count);
    for (const i of [0, 3, CHUNK_ROWS, count - 6, count - 1]) {
      expect(objects[i]).toMatchObject({
        design: i,
        coil_metal: labels[rows[i]!.values![0]!],
        height_mm: i === 3 ? null : count - i,
      });
    }
  });
});

describe('front.csv-metadata.json', () => {
  it('describes front.csv as designs.csv is described, in its own order', async () => {
    const folder = temporaryFolder();
    await writeRows(folder, { study, batches: batchesOf(study, manyRows(3), [3]), front: [1], csv: true });
    const read = (name: string) => JSON.parse(readFileSync(join(folder, name), 'utf8'));
    const front = read('front.csv-metadata.json');
    expect(front.url).toBe('front.csv');
    expect(front.tableSchema).toEqual(read('designs.csv-metadata.json').tableSchema);
    expect(front['dc:description']).toContain('best in the first objective first');
    for (const { text } of study.objectives) expect(front['dc:description']).toContain(text);
  });
});

describe('designs.csv-metadata.json', () => {
  it('describes the CSV by what the recommendation requires, column for column', async () => {
    const folder = temporaryFolder();
    await writeRows(folder, { study, batches: batchesOf(study, manyRows(1), [1]), front: [], csv: true });
    const metadata = JSON.parse(readFileSync(join(folder, 'designs.csv-metadata.json'), 'utf8'));
    expect(metadata['@context'][0]).toBe('http://www.w3.org/ns/csvw');
    expect(metadata.url).toBe('designs.csv');
    expect(metadata.null).toBe('');
    expect(metadata.dialect.lineTerminators).toEqual(['\n']);
    const described = metadata.tableSchema.columns;
    const header = readCsv(join(folder, 'designs.csv'))[0];
    expect(described.map(({ titles }: { titles: string }) => titles)).toEqual(header);
    for (const column of described) {
      // A name must be a URI template variable and must not begin with an underscore.
      expect(column.name).toMatch(/^[A-Za-z0-9][A-Za-z0-9_]*$/);
      expect(['integer', 'double', 'string', 'boolean']).toContain(column.datatype.base ?? column.datatype);
      expect(column['dc:description']).not.toBe('');
    }
    const byName = new Map(described.map((column: { name: string }) => [column.name, column]));
    expect(byName.get('liftoff_current_A')).toEqual({
      name: 'liftoff_current_A',
      titles: 'liftoff_current_A',
      datatype: 'double',
      required: false,
      'rdfs:label': 'lift-off current',
      'dc:description': 'rms current at which the average force equals the weight at the standoff',
      'schema:unitText': 'A',
    });
    expect(byName.get('on_front')).toMatchObject({
      datatype: { base: 'boolean', format: 'true|false' },
      required: true,
    });
    expect(byName.get('reason')).toMatchObject({ datatype: 'string', required: false });
    expect(byName.get('design')).toMatchObject({ datatype: 'integer', required: true });
  });

  it('gives costs the currency of the stock file, and no unit without one', async () => {
    const unitsOf = async (stock: typeof study.stock) => {
      const folder = temporaryFolder();
      const own = stock ? { ...study, stock } : study;
      await writeRows(folder, {
        study: own,
        batches: batchesOf(own, manyRows(1), [1]),
        front: [],
        csv: true,
      });
      const { tableSchema } = JSON.parse(readFileSync(join(folder, 'designs.csv-metadata.json'), 'utf8'));
      const units = tableSchema.columns.map((one: { name: string }) => [
        one.name,
        Reflect.get(one, 'schema:unitText'),
      ]);
      return Object.fromEntries(units);
    };
    const priced = await unitsOf({ file: 'rack.yaml', currency: 'CHF', unpriced: [] });
    expect([priced.rig_cost, priced.wire_cost, priced.height_mm]).toEqual(['CHF', 'CHF', 'mm']);
    const { rig_cost } = await unitsOf(undefined);
    expect(rig_cost).toBeUndefined();
  });
});
