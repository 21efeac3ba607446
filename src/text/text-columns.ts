import { wrapWords } from './listing.ts';

/** A column as text, one entry a row. */
export interface TextColumn {
  readonly label: string;
  /** Empty where there is none. */
  readonly unit: string;
  readonly kind: 'integer' | 'number' | 'text' | 'boolean';
  readonly cells: readonly string[];
}

const BETWEEN = '  ';
/** A name longer than this is cut: one odd metal must not push everything else off the screen. */
const WIDEST = 24;

/**
 * Lines of an aligned table: labels (wrapped), units, a rule, the rows. Numbers stand with their decimal
 * points one below the other.
 */
export function layOut(columns: readonly TextColumn[]): string[] {
  const blocks = columns.map(block);
  const height = Math.max(...blocks.map(({ heading }) => heading.length));
  const hasUnits = columns.some(({ unit }) => unit !== '');
  const rows = columns[0]?.cells.length ?? 0;
  const line = (pick: (each: Block) => string) =>
    blocks
      .map((each) => (each.isText ? pick(each).padEnd(each.width) : pick(each).padStart(each.width)))
      .join(BETWEEN)
      .trimEnd();
  return [
    // Labels end at the bottom, next to what they name.
    ...Array.from({ length: height }, (_, i) =>
      line(({ heading }) => heading[heading.length - height + i] ?? ''),
    ),
    ...(hasUnits ? [line(({ unit }) => unit)] : []),
    line(({ width }) => '-'.repeat(width)),
    ...Array.from({ length: rows }, (_, row) => line(({ cells }) => cells[row]!)),
  ];
}

export function totalWidth(columns: readonly TextColumn[]): number {
  return columns.reduce((sum, column) => sum + block(column).width + BETWEEN.length, -BETWEEN.length);
}

interface Block {
  readonly heading: readonly string[];
  readonly unit: string;
  readonly cells: readonly string[];
  readonly width: number;
  readonly isText: boolean;
}

function block({ label, unit, kind, cells }: TextColumn): Block {
  const isText = kind === 'text';
  const aligned = isText ? cells.map((cell) => cut(cell)) : pointsAligned(cells);
  // An operator stays with what follows it.
  const words = label.split(/(?<![-+*/^]) /).map((word) => cut(word));
  const width = Math.max(...[...aligned, ...words, unit].map(({ length }) => length));
  return { heading: wrapWords(words, width), unit, cells: aligned, width, isText };
}

function cut(text: string): string {
  return text.length > WIDEST ? `${text.slice(0, WIDEST - 1)}…` : text;
}

/** Pads numbers on the right so that, set flush right, their points agree; an exponent hangs over. */
function pointsAligned(cells: readonly string[]): string[] {
  const tails = cells.map((cell) => cell.length - wholeLength(cell));
  const longest = Math.max(0, ...tails);
  return cells.map((cell, row) => cell + ' '.repeat(longest - tails[row]!));
}

function wholeLength(cell: string): number {
  const end = cell.search(/[.e]/);
  return end === -1 || /^-?[a-z]/.test(cell) ? cell.length : end;
}
