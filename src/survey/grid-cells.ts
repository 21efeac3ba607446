import type { RowBatch } from '../model/rows.ts';
import { isEvaluated } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import type { Bins } from './level-bins.ts';
import { beats } from './main-effects.ts';

/** Two varied inputs that form a grid: every combination of their levels has designs. */
export interface GridCells {
  /** Indices into the study's `vary`: rows and columns of the map. */
  readonly inputs: readonly [row: number, column: number];
  readonly bins: readonly [row: Bins, column: Bins];
  /** Per objective, row after row, SI: the best value of a feasible design in the cell; NaN where none is feasible. */
  readonly best: readonly Float64Array[];
  /** The same over all designs with a finite value. */
  readonly bestOfAll: readonly Float64Array[];
  /** The limits that every design of the cell misses, as RowBatch.unmet holds them; of a cell without an answer none. */
  readonly missed: Uint32Array;
}

export interface GridTally {
  add(batch: RowBatch, binOf: readonly Uint16Array[]): void;
  grids(): GridCells[];
}

/** With more varied inputs than this, only pairs of the first ones are looked at. */
const MOST_INPUTS = 10;

export function createGridTally(study: Pick<Study, 'objectives'>, bins: readonly Bins[]): GridTally {
  const pairs = pairsOf(bins).map(([row, column]) => {
    const width = bins[column]!.labels.length;
    const size = bins[row]!.labels.length * width;
    const cells = () => study.objectives.map(() => new Float64Array(size).fill(Number.NaN));
    return {
      row,
      column,
      width,
      counts: new Float64Array(size),
      best: cells(),
      bestOfAll: cells(),
      met: new Uint32Array(size),
      answered: new Uint8Array(size),
    };
  });
  return {
    add(batch, binOf) {
      for (const { row: r, column: c, width, counts, best, bestOfAll, met, answered } of pairs) {
        const rowBin = binOf[r]!;
        const columnBin = binOf[c]!;
        for (let i = 0; i < batch.count; i++) {
          const cell = rowBin[i]! * width + columnBin[i]!;
          counts[cell]!++;
          if (!isEvaluated(batch.status[i]!)) continue;
          answered[cell] = 1;
          met[cell]! |= ~batch.unmet[i]!;
        }
        for (let o = 0; o < best.length; o++) {
          const { sense } = study.objectives[o]!;
          const among = best[o]!;
          const amongAll = bestOfAll[o]!;
          const start = o * batch.count;
          for (let i = 0; i < batch.count; i++) {
            const value = batch.objectives[start + i]!;
            if (!Number.isFinite(value)) continue;
            const cell = rowBin[i]! * width + columnBin[i]!;
            if (beats(value, amongAll[cell]!, sense)) amongAll[cell] = value;
            if (batch.feasible[i] && beats(value, among[cell]!, sense)) among[cell] = value;
          }
        }
      }
    },
    grids: () =>
      pairs
        .filter(({ counts }) => counts.every((count) => count > 0))
        .map(({ row, column, best, bestOfAll, met, answered }) => ({
          inputs: [row, column],
          bins: [bins[row]!, bins[column]!],
          best,
          bestOfAll,
          missed: met.map((bits, cell) => (answered[cell] ? ~bits : 0)),
        })),
  };
}

/** Pairs of inputs with levels; the one with more of them becomes the columns. */
function pairsOf(bins: readonly Bins[]): [row: number, column: number][] {
  const usable = [...bins.keys()]
    .filter((v) => bins[v]!.kind === 'levels' && bins[v]!.labels.length > 1)
    .slice(0, MOST_INPUTS);
  const levels = (v: number) => bins[v]!.labels.length;
  return usable.flatMap((a, i) =>
    usable.slice(i + 1).map((b): [number, number] => (levels(a) > levels(b) ? [b, a] : [a, b])),
  );
}
