import { CSV_LINES_WASM } from './csv-lines-wasm.ts';
import { Instance, Memory, Module, WASM_PAGE, type WasmMemory } from './webassembly.ts';

/** What assembly/csv-lines.ts exports; places are bytes of its memory. */
interface Program {
  powers(): number;
  free(): number;
  stride(): number;
  lines(cells: number, rows: number, width: number, words: number, places: number, end: number): number;
}

/** Lines of a table as bytes, a stride of rows at a time. */
export interface CsvLines {
  /** Rows that are written at once. */
  readonly stride: number;
  /** Starts anew: above the next row stands nothing. */
  begin(): void;
  /**
   * The cells of a column: first that above the next rows, then theirs, which are to be filled: numbers, or codes of its texts;
   * NaN is empty. Good until the next `write`.
   */
  cells(column: number): Float64Array;
  /** Writes the next rows. */
  write(rows: number): void;
  /** All lines since `begin`; good until the next `begin`. */
  bytes(): Uint8Array;
}

/** Bytes of the longest number, -0.0000012345678901234567: from 1e-6 on zeros are written out. */
const LONGEST = 25;
/** Words are copied whole: so many bytes more may be read and written over. */
const SLACK = 64;

/** @param words of each column, its texts by code, ready for a CSV field; null for numbers */
export function createCsvLines(words: readonly (readonly string[] | null)[]): CsvLines {
  const width = words.length;
  const memory = new Memory({ initial: 4 });
  const { exports } = new Instance(new Module(Buffer.from(CSV_LINES_WASM, 'base64')), { env: { memory } });
  const program = exports as Program;
  fillPowers(memory, program.powers());
  const stride = program.stride();
  const texts = words.map((each) => each?.map((text) => Buffer.from(text)) ?? null);

  const wordsAt = program.free();
  const placesAt = wordsAt + padded(4 * width);
  const tablesAt = placesAt + padded(8 * width);
  const cellsAt = tablesAt + texts.reduce((sum, each) => sum + tableSize(each), 0);
  const column = 8 * (stride + 1);
  const linesAt = cellsAt + width * column;
  const longest = texts.reduce((sum, each) => sum + 1 + longestOf(each), 0);
  let end = linesAt;
  /** Of the columns, in the memory as it is now, with what stands above. */
  let views: Float64Array[] = [];

  makeRoom(linesAt + SLACK);
  let at = tablesAt;
  texts.forEach((each, index) => {
    new DataView(memory.buffer).setUint32(wordsAt + 4 * index, each === null ? 0 : at, true);
    if (each !== null) storeTexts(memory, at, each);
    at += tableSize(each);
  });

  function makeRoom(bytes: number): void {
    const missing = bytes - memory.buffer.byteLength;
    if (missing > 0) memory.grow(Math.ceil(Math.max(missing, memory.buffer.byteLength / 2) / WASM_PAGE));
    if (views[0]?.buffer === memory.buffer) return;
    views = words.map((_, index) => new Float64Array(memory.buffer, cellsAt + index * column, stride + 1));
  }

  return {
    stride,
    begin() {
      end = linesAt;
      for (const cells of views) cells[0] = Number.NaN;
    },
    cells: (index) => views[index]!,
    write(rows) {
      makeRoom(end + rows * longest + SLACK);
      end = program.lines(cellsAt, rows, width, wordsAt, placesAt, end);
      // the last row is above the next ones
      for (const cells of views) cells[0] = cells[rows]!;
    },
    bytes: () => new Uint8Array(memory.buffer, linesAt, end - linesAt),
  };
}

/** The table of assembly/csv-lines.ts: 10^n from n = -292 on, 128 bits, the highest set, rounded up. */
function fillPowers(memory: WasmMemory, at: number): void {
  const view = new DataView(memory.buffer);
  for (let n = LEAST_POWER; n <= MOST_POWER; n++) {
    const digits = 10n ** BigInt(Math.abs(n));
    // so many places has the power before its binary point, beyond 128
    const shift = BigInt(127 - Math.floor(n * Math.log2(10)));
    const power =
      n < 0 ? roundedUp(1n << shift, digits) : shift > 0n ? digits << shift : roundedUp(digits, 1n << -shift);
    const place = at + 16 * (n - LEAST_POWER);
    view.setBigUint64(place, power >> 64n, true);
    view.setBigUint64(place + 8, power & LOW, true);
  }
}

const LEAST_POWER = -292;
const MOST_POWER = 324;
const LOW = 2n ** 64n - 1n;

function roundedUp(of: bigint, by: bigint): bigint {
  return (of + by - 1n) / by;
}

/** A table of lengths and places, and the texts. */
function tableSize(texts: readonly Buffer[] | null): number {
  if (texts === null) return 0;
  return padded(8 * texts.length + texts.reduce((sum, { length }) => sum + length, 0) + SLACK);
}

function storeTexts(memory: WasmMemory, at: number, texts: readonly Buffer[]): void {
  const view = new DataView(memory.buffer);
  const bytes = new Uint8Array(memory.buffer);
  let place = at + 8 * texts.length;
  texts.forEach((text, code) => {
    view.setUint32(at + 8 * code, text.length, true);
    view.setUint32(at + 8 * code + 4, place, true);
    bytes.set(text, place);
    place += text.length;
  });
}

function longestOf(texts: readonly Buffer[] | null): number {
  return texts === null ? LONGEST : Math.max(0, ...texts.map(({ length }) => length));
}

function padded(bytes: number): number {
  return Math.ceil(bytes / 8) * 8;
}
