import {
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { tableFromIPC } from '@uwdata/flechette';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
// Past 300 lines: every way in which a part is written, found, spoilt and read, over the same few batches.
import { createPartFormat, type FinishedBatch } from '../../src/store/part-bytes.ts';
import { checksum, digest } from '../../src/store/part-checksum.ts';
import { formatPartName, type PartName, parsePartName, placedChecksum } from '../../src/store/part-name.ts';
import { createPartWriter } from '../../src/store/part-writer.ts';
import { covering, openParts, type Parts, readRows } from '../../src/store/parts.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';
import { temporaryFolder } from './temporary-folder.ts';

const study = workshopStudy();
const STAMP = 'a study, a program';

interface Damage {
  readonly part: string;
  readonly what: string;
  readonly designs: number;
}

async function open(folder: string, stamp = STAMP): Promise<{ parts: Parts; damage: Damage[] }> {
  const damage: Damage[] = [];
  const onDamage = (part: string, what: string, designs: number) => void damage.push({ part, what, designs });
  return { parts: await openParts({ folder, format: createPartFormat(study, stamp), onDamage }), damage };
}

function rowsOf(count: number): Row[] {
  return Array.from({ length: count }, (_, i) => ({
    values: [i % 2, 320 + i, 0.0011],
    status: i % 3 ? 'lifts' : 'rests',
    unmet: i,
    quantities: { height: i / 7, coil_on_time: Number.POSITIVE_INFINITY },
    derived: [i % 5 ? i : Number.NaN],
    objectives: [i, -i],
  }));
}

function finished(rows: readonly Row[], sizes: readonly number[]): FinishedBatch[] {
  return batchesOf(study, rows, sizes).map((batch, i) => ({
    rows: batch,
    report: i % 2 ? { best: i, feasible: true, end: 'settled' } : null,
  }));
}

const files = (folder: string) => readdirSync(join(folder, 'parts')).sort();

describe('parts', () => {
  it('give back every batch with its report, however batches were gathered', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 12 }),
        fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 12, maxLength: 12 }),
        async (sizes, groups) => {
          const total = sizes.reduce((a, b) => a + b, 0);
          const batches = finished(rowsOf(total), sizes);
          const folder = temporaryFolder();
          const { parts } = await open(folder);
          for (let at = 0, g = 0; at < batches.length; g++) {
            const group = batches.slice(at, at + groups[g]!);
            await parts.write(at, group);
            at += group.length;
          }
          const again = await open(folder);
          expect(again.parts.list()).toEqual(parts.list());
          for (const [number, batch] of batches.entries()) {
            expect(await again.parts.read(number)).toEqual(batch);
          }
          expect(await again.parts.read(batches.length)).toBeNull();
          expect(again.damage).toEqual([]);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('are Arrow files that any reader opens, with what a row is in SI', async () => {
    const folder = temporaryFolder();
    const { parts } = await open(folder);
    await parts.write(0, finished(rowsOf(8), [8]));
    const table = tableFromIPC(readFileSync(join(folder, 'parts', files(folder)[0]!)));
    expect(table.numRows).toBe(8);
    expect([...table.getChild('height').toArray()]).toEqual(rowsOf(8).map((_, i) => i / 7));
    expect([...table.getChild('vary.coil_turns').toArray()]).toEqual(rowsOf(8).map((_, i) => 320 + i));
  });

  it.each<[string, (path: string) => void, string]>([
    ['truncated', (path) => truncateSync(path, 1000), 'its checksum does not fit'],
    ['emptied', (path) => truncateSync(path, 0), 'its checksum does not fit'],
    [
      'of another study, under a name of its own',
      (path) => rmSync(path),
      'it is of another study or version',
    ],
  ])('that are %s are named, removed and asked for again', async (kind, spoil, what) => {
    const folder = temporaryFolder();
    const batches = finished(rowsOf(12), [4]);
    const { parts } = await open(folder);
    for (const [number, batch] of batches.entries()) await parts.write(number, [batch]);
    const [, middle] = files(folder);
    spoil(join(folder, 'parts', middle!));
    if (kind.startsWith('of another')) {
      const foreign = await open(folder, 'another study');
      await foreign.parts.write(1, [batches[1]!]);
    }
    const again = await open(folder);
    expect(await again.parts.read(0)).toEqual(batches[0]);
    expect(await again.parts.read(1)).toBeNull();
    expect(await again.parts.read(2)).toEqual(batches[2]);
    expect(again.damage).toEqual([
      { part: expect.stringContaining('000000001-1-000000004-4-'), what, designs: 4 },
    ]);
    expect(files(folder)).toHaveLength(2);
    await again.parts.write(1, [batches[1]!]);
    expect(files(folder)).toContain(middle);
  });

  it('are written as they came where whoever evaluated the rows has made their bytes', async () => {
    const folder = temporaryFolder();
    const { parts } = await open(folder);
    const format = createPartFormat(study, STAMP);
    const batches = finished(rowsOf(12), [4]).map(({ rows }) => {
      const bytes = format.toBytes([{ rows, report: null }]);
      return { rows: { ...rows, packed: { bytes, checksum: checksum(bytes) } }, report: null };
    });
    const writer = createPartWriter(parts, () => 0);
    await writer.add(0, batches[0]!);
    await writer.add(1, batches[1]!);
    await writer.flush();
    expect(files(folder)).toHaveLength(2);
    for (const [i, file] of files(folder).entries()) {
      expect(readFileSync(join(folder, 'parts', file)).equals(batches[i]!.rows.packed.bytes)).toBe(true);
    }
    // with another in front of it that waits, nothing is lost, either
    const { packed, ...bare } = batches[1]!.rows;
    await writer.add(2, { rows: { ...bare, first: 8 }, report: null });
    await writer.add(3, { rows: { ...batches[2]!.rows, first: 12 }, report: null });
    await writer.flush();
    expect(files(folder).map((name) => name.slice(0, 21))).toEqual([
      '000000000-1-000000000',
      '000000001-1-000000004',
      '000000002-1-000000008',
      '000000003-1-000000012',
    ]);
  });

  it.each<[string, (name: PartName, ofBytes: string) => string]>([
    ['3, with a SHA-256 of the bytes', placedChecksum],
    ['2, with that of the bytes alone', (_, ofBytes) => ofBytes],
  ])('are read under the names of format %s', async (_format, checksumOf) => {
    const folder = temporaryFolder();
    const batches = finished(rowsOf(8), [4]);
    const { parts } = await open(folder);
    for (const [number, batch] of batches.entries()) await parts.write(number, [batch]);
    for (const file of files(folder)) {
      const name = parsePartName(file)!;
      const sum = checksumOf(name, digest(readFileSync(join(folder, 'parts', file))));
      expect(sum).not.toBe(name.checksum);
      renameSync(
        join(folder, 'parts', file),
        join(folder, 'parts', formatPartName({ ...name, checksum: sum })),
      );
    }
    const again = await open(folder);
    expect(await again.parts.read(0)).toEqual(batches[0]);
    expect(await again.parts.read(1)).toEqual(batches[1]);
    expect(again.damage).toEqual([]);
  });

  it('notice every flipped bit', async () => {
    const folder = temporaryFolder();
    const { parts } = await open(folder);
    const [batch] = finished(rowsOf(3), [3]);
    await parts.write(0, [batch!]);
    const path = join(folder, 'parts', files(folder)[0]!);
    const whole = readFileSync(path);
    await fc.assert(
      fc.asyncProperty(fc.nat(whole.length - 1), fc.nat(7), async (at, bit) => {
        const flipped = Buffer.from(whole);
        flipped[at]! ^= 1 << bit;
        writeFileSync(path, flipped);
        const { parts, damage } = await open(folder);
        expect(await parts.read(0)).toBeNull();
        expect(damage[0]!.what).toBe('its checksum does not fit');
      }),
      { numRuns: 50 },
    );
  });

  it('pass over what is no part, and clear away what a killed run left half-written', async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'parts'));
    for (const name of ['notes.txt', '.000000000.arrow.4194305-0.tmp']) {
      writeFileSync(join(folder, 'parts', name), 'x');
    }
    const { parts } = await open(folder);
    expect(parts.list()).toEqual([]);
    expect(files(folder)).toEqual(['notes.txt']);
  });

  it('give any run of rows, and say which part of them cannot be used', async () => {
    const folder = temporaryFolder();
    const batches = finished(rowsOf(20), [5]);
    const { parts } = await open(folder);
    await parts.write(0, batches.slice(0, 2));
    await parts.write(2, batches.slice(2));
    const [whole] = batchesOf(study, rowsOf(20), [20]);
    for (const [first, count] of [
      [0, 20],
      [3, 9],
      [10, 10],
    ] as const) {
      const names = covering(folder, parts.list(), first, count);
      const rows = await readRows(folder, names, createPartFormat(study, STAMP), first, count);
      expect(rows).toMatchObject({ first, count, unmet: whole!.unmet.slice(first, first + count) });
    }
    expect(() => covering(folder, parts.list(), 15, 6)).toThrow('has no part with design 20');
    truncateSync(join(folder, 'parts', files(folder)[1]!), 10);
    const rows = await readRows(folder, parts.list(), createPartFormat(study, STAMP), 0, 20);
    expect(rows).toEqual({ damaged: expect.stringMatching(/^000000002-2-.*: its checksum does not fit$/) });
  });
});

describe('createPartWriter', () => {
  /** What was written, as [number of the first batch, rows of each]. */
  async function written(
    batches: readonly (readonly [number: number, rows: number])[],
    step = 0,
  ): Promise<[number, number[]][]> {
    const writes: [number, number[]][] = [];
    let now = 0;
    const write = async (number: number, of: readonly FinishedBatch[]) => {
      writes.push([number, of.map(({ rows }) => rows.count)]);
    };
    const writer = createPartWriter({ write }, () => now);
    for (const [number, count] of batches) {
      await writer.add(number, { rows: { count } as FinishedBatch['rows'], report: null });
      now += step;
    }
    await writer.flush();
    return writes;
  }

  it('gathers batches until they are some thousand rows', async () => {
    const batches = Array.from({ length: 10 }, (_, i) => [i, 1024] as const);
    expect(await written(batches)).toEqual([
      [0, [1024, 1024, 1024, 1024]],
      [4, [1024, 1024, 1024, 1024]],
      [8, [1024, 1024]],
    ]);
  });

  it('lets no finished batch wait long for others', async () => {
    const batches = [0, 1, 2, 3].map((i) => [i, 16] as const);
    expect(await written(batches, 600)).toEqual([
      [0, [16, 16, 16]],
      [3, [16]],
    ]);
  });

  it('cuts where batches between are on disk already', async () => {
    expect(
      await written([
        [0, 5],
        [1, 5],
        [7, 5],
      ]),
    ).toEqual([
      [0, [5, 5]],
      [7, [5]],
    ]);
  });

  it('writes no part without rows', async () => {
    expect(
      await written([
        [0, 0],
        [1, 3],
        [2, 0],
      ]),
    ).toEqual([[0, [0, 3, 0]]]);
    expect(await written([[0, 0]])).toEqual([]);
  });

  it('says that a batch is done with once it is on disk, and not before', async () => {
    const done: number[] = [];
    const writes: (() => void)[] = [];
    const write = () => new Promise<void>((resolve) => void writes.push(resolve));
    const writer = createPartWriter(
      { write },
      () => 0,
      ({ rows }) => void done.push(rows.count),
    );
    await writer.add(0, { rows: { count: 5000 } as FinishedBatch['rows'], report: null });
    expect(writes).toHaveLength(1);
    expect(done).toEqual([]);
    writes[0]!();
    await writer.flush();
    expect(done).toEqual([5000]);
  });

  it('throws what an earlier write threw', async () => {
    const writer = createPartWriter({ write: () => Promise.reject(new Error('the disk is full')) }, () => 0);
    await writer.add(0, { rows: { count: 5000 } as FinishedBatch['rows'], report: null });
    await expect(writer.flush()).rejects.toThrow('the disk is full');
  });
});
