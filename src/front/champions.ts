import type { Sense } from './senses.ts';

/**
 * A few rows that dominate many. Asked first, they spare most rows the sort that finds a front (7 in 10 feasible ones of the
 * bench's 100,000 designs); which rows they are changes how long it takes and nothing else.
 */
export interface Champions {
  /** Whether a champion dominates the row, or the row has a NaN: it is on no front that the champion's own row is in. */
  beat(columns: readonly Float64Array[], row: number): boolean;
  /** Offers rows that dominate none of one another and whose front is wanted. */
  offer(columns: readonly Float64Array[], rows: Uint32Array): void;
}

const MOST = 16;
/** Champions that one front may replace, taken evenly over its rows. */
const NEW = 4;

export function createChampions(senses: readonly Sense[]): Champions {
  const width = senses.length;
  const signs = Float64Array.from(senses, (sense) => (sense === 'maximise' ? -1 : 1));
  /** Champion after champion; less is better. */
  const costs = new Float64Array(MOST * width);
  const row = new Float64Array(width);
  let count = 0;

  /** Reads a row's costs; false when one is NaN. */
  function read(columns: readonly Float64Array[], at: number): boolean {
    for (let k = 0; k < width; k++) {
      row[k] = signs[k]! * columns[k]![at]!;
      if (Number.isNaN(row[k]!)) return false;
    }
    return true;
  }

  function dominates(champion: number): boolean {
    let better = false;
    for (let k = 0; k < width; k++) {
      const cost = costs[champion * width + k]!;
      if (cost > row[k]!) return false;
      if (cost < row[k]!) better = true;
    }
    return better;
  }

  function swap(a: number, b: number): void {
    for (let k = 0; k < width; k++) {
      const cost = costs[a * width + k]!;
      costs[a * width + k] = costs[b * width + k]!;
      costs[b * width + k] = cost;
    }
  }

  return {
    beat(columns, at) {
      if (!read(columns, at)) return true;
      for (let champion = 0; champion < count; champion++) {
        if (!dominates(champion)) continue;
        // one that has won moves ahead: it is likely to win again
        swap(champion, champion >> 1);
        return true;
      }
      return false;
    },
    offer(columns, rows) {
      const news = Math.min(NEW, rows.length);
      for (let n = 0; n < news; n++) {
        if (!read(columns, rows[Math.floor(((n + 0.5) * rows.length) / news)]!)) continue;
        // those that have not won stand last
        const place = count < MOST ? count++ : MOST - 1 - n;
        costs.set(row, place * width);
      }
    },
  };
}
