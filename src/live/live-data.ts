import type { Study } from '../model/study.ts';

/** What the command writes into a live page, and all that the page knows besides the laws. */
export interface LiveData {
  readonly study: LiveStudy;
  /** The design that the page begins with. */
  readonly design: number;
  /** Its varied inputs. */
  readonly values: Float64Array;
  /** What the study holds besides its rig, drive, plan and what varies, as YAML: limits, objectives, tolerances. */
  readonly otherSections: string;
  /** Of this package. */
  readonly version: string;
  /** Designs of the study to choose from (see session/thinned); left out where a search that has not run would find them. */
  readonly designs?: {
    /** Of the whole plan. */
    readonly total: number;
    /** From each id to the next, the first from 0: most are alike, and take a byte each. */
    readonly steps: Float64Array;
    /** For each varied input one number a design: of a column with few numbers little room is taken. */
    readonly columns: readonly Float64Array[];
    /** Of the front of all of them, where others are left out. */
    readonly front: { readonly kept: number; readonly total: number };
  };
}

export type LiveStudy = Pick<
  Study,
  'title' | 'hash' | 'rig' | 'vary' | 'derive' | 'limits' | 'objectives' | 'tolerance' | 'requested'
>;

/** Columns as rows, design after design. */
export function rowsOf(columns: readonly Float64Array[]): Float64Array {
  const count = columns[0]?.length ?? 0;
  const rows = new Float64Array(count * columns.length);
  columns.forEach((column, c) => {
    column.forEach((value, row) => {
      rows[row * columns.length + c] = value;
    });
  });
  return rows;
}

/** Ascending ids as steps from one to the next. */
export function stepsOf(ids: readonly number[]): Float64Array {
  return Float64Array.from(ids, (id, i) => id - (ids[i - 1] ?? 0));
}

export function idsOf(steps: Float64Array): number[] {
  let id = 0;
  return Array.from(steps, (step) => {
    id += step;
    return id;
  });
}

/** JSON that also holds numbers that are not finite, and arrays of doubles to the last bit, in few bytes. */
export function pack(value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) return { [NUMBER]: String(value) };
  if (value instanceof Float64Array) return packDoubles(value);
  if (Array.isArray(value)) return value.map(pack);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, pack(inner)]));
}

export function unpack(packed: unknown): unknown {
  if (Array.isArray(packed)) return packed.map(unpack);
  if (typeof packed !== 'object' || packed === null) return packed;
  const object = packed as Record<string, unknown>;
  if (NUMBER in object) return Number(object[NUMBER]);
  if (PLACES in object) {
    const levels = doubles(object[ARRAY] as string);
    return Float64Array.from(bytesOf(object[PLACES] as string), (at) => levels[at]!);
  }
  if (ARRAY in object) return doubles(object[ARRAY] as string);
  return Object.fromEntries(Object.entries(object).map(([key, inner]) => [key, unpack(inner)]));
}

const NUMBER = '$number';
const ARRAY = '$doubles';
const PLACES = '$places';
const BYTES = 8;
/** Numbers that a byte can tell apart. */
const MOST_LEVELS = 256;

/** Many of few numbers as places in their list: a grid's designs. */
function packDoubles(values: Float64Array): unknown {
  const places = new Map<number, number>();
  for (const value of values) if (!places.has(value)) places.set(value, places.size);
  const isShorter = places.size <= MOST_LEVELS && values.length > 2 * places.size;
  // a map holds 0 and -0 as one
  if (!isShorter || values.some((value) => Object.is(value, -0))) return { [ARRAY]: doublesText(values) };
  return {
    [ARRAY]: doublesText(Float64Array.from(places.keys())),
    [PLACES]: base64(Uint8Array.from(values, (value) => places.get(value)!)),
  };
}

/** Least significant byte first. */
function doublesText(values: Float64Array): string {
  const view = new DataView(new ArrayBuffer(values.length * BYTES));
  values.forEach((value, i) => {
    view.setFloat64(i * BYTES, value, true);
  });
  return base64(new Uint8Array(view.buffer));
}

function doubles(text: string): Float64Array {
  const bytes = bytesOf(text);
  const view = new DataView(bytes.buffer);
  return Float64Array.from({ length: bytes.length / BYTES }, (_, i) => view.getFloat64(i * BYTES, true));
}

function base64(bytes: Uint8Array): string {
  return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
}

function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}
