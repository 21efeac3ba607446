import { type Champions, createChampions } from './champions.ts';
import { paretoFront } from './pareto-front.ts';
import { requireColumns, type Sense } from './senses.ts';

/**
 * The front of rows that arrive batch after batch. What it holds at the end is what `paretoFront` finds
 * among all rows at once, in whatever order they came; memory is bounded by a few times the front and one
 * batch.
 */
export interface FrontArchive {
  /**
   * Adds rows `first`, `first + 1`, ... with one column an objective. Where `mask` is given, only rows whose
   * entry is not 0 are candidates. Copies what it keeps.
   */
  add(first: number, columns: readonly Float64Array[], mask?: Uint8Array): void;
  /** Adds the front of other rows, as another archive gives it. Keeps its arrays. */
  merge(front: FrontSoFar): void;
  /** The front so far, ids ascending, one column an objective. */
  front(): FrontSoFar;
}

export interface FrontSoFar {
  readonly ids: Float64Array;
  readonly columns: readonly Float64Array[];
}

/** Below this many waiting rows a merge costs more than it saves. */
const FEWEST_WAITING = 4096;

/** Without an objective no design is better than another, and there is no front. */
const NO_FRONT: FrontArchive = Object.freeze({
  add: () => {},
  merge: () => {},
  front: () => emptyRows(0),
});

export function createFrontArchive(senses: readonly Sense[]): FrontArchive {
  if (senses.length === 0) return NO_FRONT;
  const champions = createChampions(senses);
  let kept = emptyRows(senses.length);
  let waiting: FrontSoFar[] = [];
  let waitingCount = 0;

  function settle(): void {
    if (waitingCount === 0) return;
    const all = join([kept, ...waiting], senses.length);
    kept = take(all, paretoFront(all.columns, senses));
    waiting = [];
    waitingCount = 0;
  }

  function wait(rows: FrontSoFar): void {
    if (rows.ids.length === 0) return;
    waiting.push(rows);
    waitingCount += rows.ids.length;
    if (waitingCount >= Math.max(FEWEST_WAITING, kept.ids.length)) settle();
  }

  return {
    add(first, columns, mask) {
      requireColumns(columns, senses);
      const rows = candidates(columns, mask, champions);
      const among = columns.map((column) => gather(column, rows));
      const found = paretoFront(among, senses);
      champions.offer(among, found);
      const ids = new Float64Array(found.length);
      for (let i = 0; i < found.length; i++) ids[i] = first + rows[found[i]!]!;
      wait({ ids, columns: among.map((column) => gather(column, found)) });
    },
    merge: wait,
    front() {
      settle();
      const order = Uint32Array.from(kept.ids.keys()).sort((a, b) => kept.ids[a]! - kept.ids[b]!);
      return take(kept, order);
    },
  };
}

function emptyRows(objectives: number): FrontSoFar {
  return {
    ids: new Float64Array(0),
    columns: Array.from({ length: objectives }, () => new Float64Array(0)),
  };
}

/** Rows that may be on the front. */
function candidates(
  columns: readonly Float64Array[],
  mask: Uint8Array | undefined,
  champions: Champions,
): Uint32Array {
  const count = columns[0]!.length;
  const rows = new Uint32Array(count);
  let found = 0;
  for (let row = 0; row < count; row++) {
    if ((!mask || mask[row]) && !champions.beat(columns, row)) rows[found++] = row;
  }
  return rows.subarray(0, found);
}

function gather(column: Float64Array, rows: Uint32Array): Float64Array {
  const values = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) values[i] = column[rows[i]!]!;
  return values;
}

function take({ ids, columns }: FrontSoFar, rows: Uint32Array): FrontSoFar {
  return { ids: gather(ids, rows), columns: columns.map((column) => gather(column, rows)) };
}

function join(parts: readonly FrontSoFar[], objectives: number): FrontSoFar {
  const count = parts.reduce((sum, { ids }) => sum + ids.length, 0);
  const all = {
    ids: new Float64Array(count),
    columns: Array.from({ length: objectives }, () => new Float64Array(count)),
  };
  let at = 0;
  for (const { ids, columns } of parts) {
    all.ids.set(ids, at);
    columns.forEach((column, objective) => {
      all.columns[objective]!.set(column, at);
    });
    at += ids.length;
  }
  return all;
}
