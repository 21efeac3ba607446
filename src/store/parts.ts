import { open, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { joinBatches, sliceBatch } from '../model/row-batches.ts';
import type { PackedRows, RowBatch, Stretch } from '../model/rows.ts';
import { writeAtomically } from './atomic-file.ts';
import { type Attempt, asFolderError, FolderError } from './folder-error.ts';
import { makeOwnFolder } from './make-folder.ts';
import type { FinishedBatch, Part, PartFormat } from './part-bytes.ts';
import { checksum, digest } from './part-checksum.ts';
import { formatPartName, type PartName, parsePartName, placedChecksum } from './part-name.ts';
import { PARTS_FOLDER } from './result-files.ts';

/**
 * The finished batches of a result: files of consecutive batches below `parts/`, each written under a temporary name,
 * put on disk and renamed. Where parts are cut does not matter to the tables: those follow from the rows alone.
 */
export interface Parts {
  /** Those on disk, in row order; no two hold the same batch. */
  list(): readonly PartName[];
  /**
   * Batch `number` of the plan, or null where no part holds it. A damaged part is reported, taken off the list and its
   * file removed.
   */
  read(number: number): Promise<FinishedBatch | null>;
  /** Puts the batches from `number` on, one at least, on disk; when it resolves they survive a power cut. */
  write(number: number, batches: readonly FinishedBatch[]): Promise<void>;
}

export interface PartsRequest {
  /** The result folder. */
  readonly folder: string;
  readonly format: PartFormat;
  /** Hears of each part that cannot be used, before its designs are computed again. */
  readonly onDamage: (part: string, what: string, designs: number) => void;
}

/** Opens `parts/`, and makes it where it is missing. Everything throws FolderError when the file system refuses. */
export async function openParts({ folder, format, onDamage }: PartsRequest): Promise<Parts> {
  const place = join(folder, PARTS_FOLDER);
  let parts = await worded(folder, async () => {
    await makeOwnFolder(folder, PARTS_FOLDER);
    return withoutOverlap(await clean(place));
  });
  /** The part read last: its batches are read one after the other. */
  let last: { readonly name: PartName; readonly part: Promise<Part | null> } | null = null;

  async function load(name: PartName): Promise<Part | null> {
    const read = await readPart(folder, name, format);
    if (typeof read !== 'string') return read;
    parts = parts.filter((part) => part !== name);
    const file = formatPartName(name);
    onDamage(file, read, name.count);
    await worded(folder, () => rm(join(place, file), { force: true }));
    return null;
  }

  return {
    list: () => parts,
    async read(number) {
      const name = parts[lastUpTo(parts, number, (part) => part.batch)];
      if (!name || number >= name.batch + name.batches) return null;
      if (last?.name !== name) last = { name, part: load(name) };
      const part = await last.part;
      return part && batchOf(part, number - name.batch);
    },
    async write(number, batches) {
      const packed = packedAlone(batches) ?? pack(format, batches);
      const where = {
        batch: number,
        batches: batches.length,
        first: batches[0]!.rows.first,
        count: batches.reduce((sum, { rows }) => sum + rows.count, 0),
      };
      const name = { ...where, checksum: placedChecksum(where, packed.checksum) };
      await writeAtomically(folder, `${PARTS_FOLDER}/${formatPartName(name)}`, packed.bytes);
      const last = parts.at(-1);
      // the usual case, and the only one that must not look at all that is there
      if (last && number >= last.batch + last.batches) parts.push(name);
      else parts = withoutOverlap([...parts, name]);
    },
  };
}

/** What whoever evaluated a batch has made of it already. */
function packedAlone([batch, ...others]: readonly FinishedBatch[]): PackedRows | undefined {
  return others.length === 0 && batch!.report === null ? batch!.rows.packed : undefined;
}

function pack(format: PartFormat, batches: readonly FinishedBatch[]): PackedRows {
  const bytes = format.toBytes(batches);
  return { bytes, checksum: checksum(bytes) };
}

function batchOf({ rows, batches }: Part, index: number): FinishedBatch {
  const [count, report] = batches[index]!;
  const from = batches.slice(0, index).reduce((sum, [before]) => sum + before, 0);
  return { rows: count === rows.count ? rows : sliceBatch(rows, from, from + count), report };
}

/** Memory that parts are read into, one after the other: fresh memory for each costs more than reading it. */
export interface ReadBuffer {
  bytes: Uint8Array;
}

export function createReadBuffer(): ReadBuffer {
  return { bytes: new Uint8Array(0) };
}

/**
 * A part, or what is wrong with its file. Throws FolderError when it cannot be read. Its rows are good until something
 * else is read into the buffer.
 */
export async function readPart(
  folder: string,
  name: PartName,
  format: PartFormat,
  buffer = createReadBuffer(),
): Promise<Part | string> {
  let bytes: Uint8Array;
  try {
    bytes = await readWhole(join(folder, PARTS_FOLDER, formatPartName(name)), buffer);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return 'it is gone';
    throw asFolderError(error, folder, 'read the result in');
  }
  if (name.checksum !== placedChecksum(name, checksum(bytes)) && !fitsAsBefore(name, bytes)) {
    return 'its checksum does not fit';
  }
  return (
    format.fromBytes(bytes, name) ?? format.fromOtherBytes(bytes, name) ?? 'it is of another study or version'
  );
}

/** In format 3 the checksum was another, in format 2 names held that of the bytes alone. */
function fitsAsBefore(name: PartName, bytes: Uint8Array): boolean {
  const found = digest(bytes);
  return name.checksum === placedChecksum(name, found) || name.checksum === found;
}

/**
 * The rows [first, first + count) of the parts that hold them, or which part cannot be used and why. They are good until
 * something else is read into the buffers, one a part; missing ones are added.
 */
export async function readRows(
  folder: string,
  parts: readonly PartName[],
  format: PartFormat,
  first: number,
  count: number,
  buffers: ReadBuffer[] = [],
): Promise<RowBatch | { readonly damaged: string }> {
  const read = await readStretches(folder, parts, format, first, count, buffers);
  if ('damaged' in read) return read;
  return joinBatches(
    read.map(({ rows, from, to }) => (from === 0 && to === rows.count ? rows : sliceBatch(rows, from, to))),
  );
}

/** Likewise, where they lie: the stretch that each part has of them. */
export async function readStretches(
  folder: string,
  parts: readonly PartName[],
  format: PartFormat,
  first: number,
  count: number,
  buffers: ReadBuffer[],
): Promise<readonly Stretch<RowBatch>[] | { readonly damaged: string }> {
  const stretches: Stretch<RowBatch>[] = [];
  for (const [i, name] of parts.entries()) {
    buffers[i] ??= createReadBuffer();
    const part = await readPart(folder, name, format, buffers[i]);
    if (typeof part === 'string') return { damaged: `${formatPartName(name)}: ${part}` };
    const from = Math.max(0, first - name.first);
    const to = Math.min(name.count, first + count - name.first);
    stretches.push({ rows: part.rows, from, to });
  }
  return stretches;
}

/** Parts that together hold the rows [first, first + count) in order; throws FolderError when some are missing. */
export function covering(
  folder: string,
  parts: readonly PartName[],
  first: number,
  count: number,
): readonly PartName[] {
  const from = Math.max(
    0,
    lastUpTo(parts, first, (part) => part.first),
  );
  const found: PartName[] = [];
  let due = first;
  for (let i = from; i < parts.length && due < first + count; i++) {
    const part = parts[i]!;
    if (part.first > due) break;
    found.push(part);
    due = part.first + part.count;
  }
  if (due < first + count) {
    throw new FolderError('PART_MISSING', folder, `${folder} has no part with design ${due}`);
  }
  return found;
}

/** Quantities of today, by index, that the parts of a result do not have; a part that cannot be used does not count. */
export async function missingQuantities(
  folder: string,
  [part]: readonly PartName[],
  format: PartFormat,
): Promise<readonly number[]> {
  const read = part === undefined ? null : await readPart(folder, part, format);
  return read === null || typeof read === 'string' ? [] : (read.missing ?? []);
}

/** Lists the parts of a folder without touching any. */
export async function listParts(folder: string): Promise<readonly PartName[]> {
  return worded(
    folder,
    async () => {
      const names = await readdir(join(folder, PARTS_FOLDER));
      return withoutOverlap(names.flatMap((name) => parsePartName(name) ?? []));
    },
    'read the result in',
  );
}

/** Index of the last part whose key is at most `bound`; -1 when there is none. */
function lastUpTo(parts: readonly PartName[], bound: number, key: (part: PartName) => number): number {
  let low = 0;
  let high = parts.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (key(parts[middle]!) <= bound) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

function withoutOverlap(parts: PartName[]): PartName[] {
  let due = 0;
  return parts
    .sort((a, b) => a.batch - b.batch || b.batches - a.batches)
    .filter(({ batch, batches }) => {
      if (batch < due) return false;
      due = batch + batches;
      return true;
    });
}

/** The parts of a folder; what a killed run left half-written is removed. The caller holds the folder's lock. */
async function clean(place: string): Promise<PartName[]> {
  const names = await readdir(place);
  for (const name of names) {
    if (name.startsWith('.') && name.endsWith('.tmp')) await rm(join(place, name), { force: true });
  }
  return names.flatMap((name) => parsePartName(name) ?? []);
}

/** The file at the head of the buffer, aligned so that its columns need not be copied to be looked at. */
async function readWhole(path: string, buffer: ReadBuffer): Promise<Uint8Array> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    if (buffer.bytes.length < size) buffer.bytes = new Uint8Array(size);
    const { bytes } = buffer;
    let at = 0;
    while (at < size) {
      const { bytesRead } = await file.read(bytes, at, size - at, at);
      if (bytesRead === 0) break;
      at += bytesRead;
    }
    return bytes.subarray(0, at);
  } finally {
    await file.close();
  }
}

async function worded<T>(folder: string, act: () => Promise<T>, attempt?: Attempt): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw asFolderError(error, folder, attempt);
  }
}
