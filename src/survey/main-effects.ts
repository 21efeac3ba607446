import type { RowBatch } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { Bins } from './level-bins.ts';

/** What one varied input does to one objective, all other inputs taking all their values. SI, NaN where no design. */
export interface MainEffect {
  /** Index into the study's `vary`. */
  readonly input: number;
  readonly objective: number;
  readonly bins: Bins;
  /** Per bin: the mean over all designs with a finite value. */
  readonly means: Float64Array;
  /** Per bin: the best value of a feasible design. */
  readonly best: Float64Array;
  /** Per bin: how many designs the mean is of. */
  readonly counts: Float64Array;
}

export interface EffectTally {
  /** `binOf[v][row]`: the bin of input v. */
  add(batch: RowBatch, binOf: readonly Uint16Array[]): void;
  effects(): MainEffect[];
}

export function createEffectTally(study: Pick<Study, 'objectives'>, bins: readonly Bins[]): EffectTally {
  const effects = bins.flatMap((each, input) =>
    study.objectives.map((_, objective): MainEffect & { sums: Float64Array } => {
      const size = each.labels.length;
      return {
        input,
        objective,
        bins: each,
        means: new Float64Array(size),
        best: new Float64Array(size).fill(Number.NaN),
        counts: new Float64Array(size),
        sums: new Float64Array(size),
      };
    }),
  );
  return {
    add(batch, binOf) {
      for (const { input, objective, sums, counts, best } of effects) {
        const { sense } = study.objectives[objective]!;
        const at = binOf[input]!;
        const start = objective * batch.count;
        for (let row = 0; row < batch.count; row++) {
          const value = batch.objectives[start + row]!;
          if (!Number.isFinite(value)) continue;
          const bin = at[row]!;
          sums[bin]! += value;
          counts[bin]!++;
          if (batch.feasible[row] && beats(value, best[bin]!, sense)) best[bin] = value;
        }
      }
    },
    effects: () =>
      effects.map(({ sums, ...effect }) => {
        sums.forEach((sum, bin) => {
          effect.means[bin] = sum / effect.counts[bin]!;
        });
        return effect;
      }),
  };
}

/** Whether a value beats another, which may be NaN: nothing yet. */
export function beats(value: number, other: number, sense: 'maximise' | 'minimise'): boolean {
  return sense === 'maximise' ? !(value <= other) : !(value >= other);
}
