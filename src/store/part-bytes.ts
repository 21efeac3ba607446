import { type Column, columnFromArray, tableFromColumns, tableFromIPC, tableToIPC } from '@uwdata/flechette';
import { QUANTITIES, quantityColumns } from '../model/quantities.ts';
import { joinBatches } from '../model/row-batches.ts';
import type { RowBatch } from '../model/rows.ts';
import { type PartShape, rowsByName } from './part-by-name.ts';
import { FORMAT_2_CODES, PART_CODES, readPartCodes } from './part-codes.ts';
import type { PartName } from './part-name.ts';

/**
 * Rows as an Arrow IPC file and back: one column a varied input, verdict, quantity, derived quantity and objective,
 * all SI, NaN for an empty cell. It holds every quantity that was computed, also those that the
 * study's tables leave out. The layout is that of RESULT_FORMAT.
 *
 * What stands before and after the cells follows from the shape, the number of rows and the metadata alone. That frame
 * is made once; a part is then written by copying cells into it, and read, where the frame fits to the byte, by looking
 * at them where they are.
 */
export interface PartFormat {
  /** Batches that follow one another, with a row at least. */
  toBytes(batches: readonly FinishedBatch[]): Uint8Array;
  /** A batch of so many rows, one at least, as a part of its own. `place` gives memory of so many bytes, whatever it holds. */
  begin(count: number, place: (length: number) => Uint8Array): PartRoom;
  /**
   * Null when the bytes are no part of this stamp, shape and number of rows, as this version writes it. The rows look
   * into the bytes, save for `values`.
   */
  fromBytes(bytes: Uint8Array, name: Pick<PartName, 'first' | 'count'>): Part | null;
  /** Likewise for a part that a version with other quantities wrote: column by column, by their names. */
  fromOtherBytes(bytes: Uint8Array, name: Pick<PartName, 'first' | 'count'>): Part | null;
}

/** The bytes of a part that is to be filled. */
export interface PartRoom {
  readonly bytes: Uint8Array;
  /** Where whoever computes quantities may write them, one column after the other. */
  readonly quantities: Float64Array;
  /** Puts all rows in place, but for quantities that are there already; gives the rows as they lie there. */
  finish(rows: RowBatch): RowBatch;
}

/** A finished batch of a plan; `report` is what came back with its rows, plain data, null where nothing did. */
export interface FinishedBatch {
  readonly rows: RowBatch;
  readonly report: unknown;
}

export interface Part {
  readonly rows: RowBatch;
  /** How many rows each batch has, and what came back with them. */
  readonly batches: readonly (readonly [count: number, report: unknown])[];
  /** Quantities, by index, that the version which wrote the part did not know. */
  readonly missing?: readonly number[];
}

export type { PartShape } from './part-by-name.ts';

/** A batch of so many rows is a part of its own; fewer rows share one with others. */
export const WHOLE_PART = 2048;

/** Keys of the schema's metadata: whose the part is, how its rows fall into batches, and what its codes stand for. */
const STAMP = 'eddylift.stamp';
const BATCHES = 'eddylift.batches';
const CODES = 'eddylift.codes';

const CODES_TEXT = JSON.stringify(PART_CODES);

/** Columns between the varied inputs and the quantities. */
const FRAME = {
  status: Uint8Array,
  reason: Uint8Array,
  feasible: Uint8Array,
  unmet: Uint32Array,
  violation: Float64Array,
} as const;

/** The bytes of a part around its cells. */
interface Frame {
  readonly count: number;
  /** The metadata that holds how the rows fall into batches. */
  readonly batches: string;
  readonly head: Buffer;
  /** Bytes of the cells; every column begins at a multiple of 8. */
  readonly body: number;
  readonly tail: Buffer;
}

/** Frames to remember: that of whole parts, and that of the last. */
const FRAMES = 2;

/** `stamp`: the study, code and catalogue that the rows come from. */
export function createPartFormat(shape: PartShape, stamp: string): PartFormat {
  const names = columnNames(shape);
  const width = shape.vary.length;
  let frames: Frame[] = [];

  function frameOf(count: number, batches: string): Frame {
    const known = frames.find((frame) => frame.count === count && frame.batches === batches);
    if (known) return known;
    const frame = makeFrame(names, stamp, count, batches);
    frames = [frame, ...frames.slice(0, FRAMES - 1)];
    return frame;
  }

  function readFrame(bytes: Uint8Array, count: number): Frame | null {
    const known = frames.find((frame) => frame.count === count && fits(frame, bytes));
    if (known) return known;
    const metadata = metadataOf(bytes);
    const batches = metadata?.get(BATCHES);
    if (metadata?.get(STAMP) !== stamp || batches === undefined) return null;
    // its frame would not fit, and to make one takes a while
    if (metadata.get(CODES) !== CODES_TEXT) return null;
    const frame = frameOf(count, batches);
    return fits(frame, bytes) && readBatches(frame) ? frame : null;
  }

  function roomIn({ count, head, body, tail }: Frame, place: (length: number) => Uint8Array): PartRoom {
    const bytes = place(head.length + body + tail.length);
    const { vary, ...cells } = lookInto(bytes, head.length, width, shape, count);
    const { quantities } = cells;
    return {
      bytes,
      quantities,
      finish(rows) {
        bytes.set(head);
        // between columns stand zeros; from the quantities on nothing stands between them
        bytes.fill(0, head.length, quantities.byteOffset - bytes.byteOffset);
        bytes.set(tail, head.length + body);
        for (let v = 0; v < width; v++) {
          for (let i = 0; i < count; i++) vary[v * count + i] = rows.values[i * width + v]!;
        }
        for (const key of COPIED) if (rows[key] !== cells[key]) cells[key].set(rows[key]);
        return { first: rows.first, count, values: rows.values, ...cells };
      },
    };
  }

  return {
    toBytes(batches) {
      const rows = joinBatches(batches.map((batch) => batch.rows));
      const frame = frameOf(
        rows.count,
        batchesText(batches.map((batch) => [batch.rows.count, batch.report])),
      );
      const room = roomIn(frame, (length) => new Uint8Array(length));
      room.finish(rows);
      return room.bytes;
    },
    begin: (count, place) => roomIn(frameOf(count, batchesText([[count, null]])), place),
    fromBytes(bytes, { first, count }) {
      // the cells begin at a multiple of 8 from the first byte
      const aligned = bytes.byteOffset % 8 === 0 ? bytes : new Uint8Array(bytes);
      const frame = readFrame(aligned, count);
      if (frame === null) return null;
      const { vary, ...cells } = lookInto(aligned, frame.head.length, width, shape, count);
      const values = new Float64Array(width * count);
      for (let v = 0; v < width; v++) {
        for (let i = 0; i < count; i++) values[i * width + v] = vary[v * count + i]!;
      }
      return { rows: { first, count, values, ...cells }, batches: readBatches(frame)! };
    },
    fromOtherBytes(bytes, { first, count }) {
      const metadata = metadataOf(bytes);
      const text = metadata?.get(CODES);
      const codes = text === undefined ? FORMAT_2_CODES : readPartCodes(text);
      const batches = readBatches({ count, batches: metadata?.get(BATCHES) ?? '' });
      if (metadata?.get(STAMP) !== stamp || codes === null || batches === null) return null;
      const found = rowsByName(bytes, shape, codes);
      if (found?.rows.count !== count) return null;
      return { rows: { first, ...found.rows }, batches, missing: found.missing };
    },
  };
}

const COPIED = [
  ...(Object.keys(FRAME) as (keyof typeof FRAME)[]),
  'quantities',
  'derived',
  'objectives',
] as const;

/** The cells of a part whose body begins at `offset`: `vary` column after column, the rest as in a RowBatch. */
function lookInto(bytes: Uint8Array, offset: number, width: number, shape: PartShape, count: number) {
  let at = bytes.byteOffset + offset;
  const take = <T>(
    Kind: new (buffer: ArrayBuffer, at: number, length: number) => T,
    cells: number,
    size: number,
  ) => {
    const view = new Kind(bytes.buffer as ArrayBuffer, at, cells);
    at += padded(cells * size);
    return view;
  };
  const numbers = (columns: number) => take(Float64Array, columns * count, 8);
  const flags = () => take(Uint8Array, count, 1);
  return {
    vary: numbers(width),
    status: flags(),
    reason: flags(),
    feasible: flags(),
    unmet: take(Uint32Array, count, 4),
    violation: numbers(1),
    quantities: numbers(quantityColumns(shape.requested)),
    derived: numbers(shape.derive.length),
    objectives: numbers(shape.objectives.length),
  };
}

function batchesText(batches: Part['batches']): string {
  return JSON.stringify(batches);
}

function padded(length: number): number {
  return Math.ceil(length / 8) * 8;
}

function makeFrame(names: readonly string[], stamp: string, count: number, batches: string): Frame {
  const cells = (name: string) => new (FRAME[name as keyof typeof FRAME] ?? Float64Array)(count);
  const columns = names.map((name): [string, Column<unknown>] => [name, columnFromArray(cells(name))]);
  const table = tableFromColumns(columns);
  table.schema.metadata = new Map([
    [STAMP, stamp],
    [BATCHES, batches],
    [CODES, CODES_TEXT],
  ]);
  const bytes = Buffer.from(tableToIPC(table, { format: 'file' })!);
  const written = tableFromIPC(bytes);
  const cellsOf = (column: number) => written.getChildAt(column).data[0]!.values as Float64Array;
  const last = cellsOf(names.length - 1);
  const start = cellsOf(0).byteOffset - bytes.byteOffset;
  const end = last.byteOffset - bytes.byteOffset + padded(last.byteLength);
  return {
    count,
    batches,
    // copies, so that the cells do not stay with them
    head: Buffer.from(bytes.subarray(0, start)),
    body: end - start,
    tail: Buffer.from(bytes.subarray(end)),
  };
}

/** Null where they do not add up to the rows. */
function readBatches({ count, batches }: Pick<Frame, 'count' | 'batches'>): Part['batches'] | null {
  let found: unknown;
  try {
    found = JSON.parse(batches);
  } catch {
    return null;
  }
  if (!Array.isArray(found)) return null;
  let sum = 0;
  for (const batch of found) {
    if (!Array.isArray(batch) || batch.length !== 2 || !Number.isInteger(batch[0]) || batch[0] < 0)
      return null;
    sum += batch[0];
  }
  return sum === count ? found : null;
}

function fits({ head, body, tail }: Frame, bytes: Uint8Array): boolean {
  return (
    bytes.length === head.length + body + tail.length &&
    head.equals(bytes.subarray(0, head.length)) &&
    tail.equals(bytes.subarray(head.length + body))
  );
}

function columnNames({ vary, derive, objectives, requested }: PartShape): string[] {
  return [
    ...vary.map(({ name }) => `vary.${name}`),
    ...Object.keys(FRAME),
    ...QUANTITIES.slice(0, quantityColumns(requested)).map(({ name }) => name),
    ...derive.map(({ name }) => `derive.${name}`),
    ...objectives.map((_, i) => `objective.${i}`),
  ];
}

function metadataOf(bytes: Uint8Array): ReadonlyMap<string, string> | null {
  try {
    return tableFromIPC(bytes).schema.metadata ?? null;
  } catch {
    return null;
  }
}
