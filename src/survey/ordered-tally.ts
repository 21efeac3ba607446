import { Q } from '../model/quantities.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { metalBeside } from '../model/varied-metals.ts';
import type { Bins } from './level-bins.ts';

/** How lift-off and height go with one ordered input, all other inputs taking all their values. SI, NaN where no design. */
export interface OrderedEffect {
  /** Index into the study's `vary`. */
  readonly input: number;
  /** Likewise, the metal that has a line a level; null where none is varied. */
  readonly metal: number | null;
  readonly bins: Bins;
  readonly lines: readonly OrderedLine[];
}

export interface OrderedLine {
  /** The metal; empty where none is varied. */
  readonly label: string;
  /** Per bin: the least lift-off current of any design. */
  readonly liftoff: Float64Array;
  /** Per bin: the greatest height of any design at its own drive. */
  readonly height: Float64Array;
}

export interface OrderedTally {
  /** `binOf[v][row]`: the bin of input v. */
  add(batch: RowBatch, binOf: readonly Uint16Array[]): void;
  effects(): readonly OrderedEffect[];
}

/** Thickness first, since plates are asked about first; drives are what lift curves show. */
export function createOrderedTally(study: Pick<Study, 'vary'>, bins: readonly Bins[]): OrderedTally {
  const effects = orderedInputs(study.vary).map((input): OrderedEffect => {
    const metal = metalBeside(study.vary, input);
    const labels = metal === null ? [''] : bins[metal]!.labels;
    const empty = () => new Float64Array(bins[input]!.labels.length).fill(Number.NaN);
    const lines = labels.map((label) => ({ label, liftoff: empty(), height: empty() }));
    return { input, metal, bins: bins[input]!, lines };
  });
  return {
    add(batch, binOf) {
      const liftoff = column(batch, batch.quantities, Q.liftoff_current);
      const height = column(batch, batch.quantities, Q.height);
      for (const { input, metal, lines } of effects) {
        const at = binOf[input]!;
        const lineOf = metal === null ? null : binOf[metal]!;
        for (let row = 0; row < batch.count; row++) {
          const line = lines[lineOf === null ? 0 : lineOf[row]!]!;
          const bin = at[row]!;
          if (!(liftoff[row]! >= line.liftoff[bin]!) && Number.isFinite(liftoff[row]!)) {
            line.liftoff[bin] = liftoff[row]!;
          }
          if (!(height[row]! <= line.height[bin]!) && Number.isFinite(height[row]!)) {
            line.height[bin] = height[row]!;
          }
        }
      }
    },
    effects: () => effects,
  };
}

function orderedInputs(vary: Study['vary']): number[] {
  const numbers = [...vary.keys()].filter(
    (v) => vary[v]!.kind === 'number' && !vary[v]!.path.startsWith('drive.'),
  );
  const isThickness = (v: number) => vary[v]!.path.endsWith('thickness');
  return [...numbers.filter(isThickness), ...numbers.filter((v) => !isThickness(v))];
}
