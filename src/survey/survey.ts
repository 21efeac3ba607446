import type { FrontArchive } from '../front/front-archive.ts';
import type { RowBatch } from '../model/rows.ts';
import { REASONS, STATUSES, type Status } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { createGridTally, type GridCells } from './grid-cells.ts';
import { binsOf } from './level-bins.ts';
import { createLimitTally, type LimitEffect, type LimitMisses } from './limit-tally.ts';
import { createEffectTally, type MainEffect } from './main-effects.ts';
import { createOrderedTally, type OrderedEffect } from './ordered-tally.ts';
import { createThinning, type ThinSample } from './thin-sample.ts';

/** What a report shows of all designs of a study, gathered in memory that does not grow with their number. */
export interface Survey {
  readonly designs: number;
  readonly feasible: number;
  /** Thinned for display. */
  readonly feasibleSample: ThinSample;
  readonly otherSample: ThinSample;
  readonly effects: readonly MainEffect[];
  readonly grids: readonly GridCells[];
  /** Lift-off and height against each ordered input. */
  readonly ordered: readonly OrderedEffect[];
  readonly limits: readonly LimitEffect[];
  /** Designs by status and reason, most first; only what occurs. */
  readonly fates: readonly Fate[];
}

export interface Fate {
  readonly status: Status;
  /** Empty where a status needs none. */
  readonly reason: string;
  readonly count: number;
}

export interface SurveyTally {
  /** Batches come in design order. */
  add(batch: RowBatch): void;
  /** Of each limit. */
  misses(): LimitMisses[];
  /** `front`: one column an objective of the designs on the front. */
  survey(front: readonly Float64Array[]): Survey;
}

/** Designs of each kind that a chart shows besides the front. */
const SAMPLE = 500;

/** `newArchive` makes an empty archive for the study's objectives. */
export function createSurvey(
  study: Pick<Study, 'vary' | 'limits' | 'objectives' | 'derive'>,
  newArchive: () => Pick<FrontArchive, 'add' | 'front'>,
): SurveyTally {
  const bins = study.vary.map(binsOf);
  const effects = createEffectTally(study, bins);
  const grids = createGridTally(study, bins);
  const ordered = createOrderedTally(study, bins);
  const limits = createLimitTally(study, newArchive);
  const feasibleSample = createThinning(SAMPLE, study.objectives.length);
  const otherSample = createThinning(SAMPLE, study.objectives.length);
  const fates = new Float64Array(STATUSES.length * REASONS.length);
  let designs = 0;
  let feasible = 0;

  return {
    add(batch) {
      designs += batch.count;
      feasible += countFates(batch, fates);
      const binOf = bins.map(({ of }, v) => binned(batch, v, bins.length, of));
      effects.add(batch, binOf);
      grids.add(batch, binOf);
      ordered.add(batch, binOf);
      limits.add(batch);
      feasibleSample.add(batch, true);
      otherSample.add(batch, false);
    },
    misses: limits.misses,
    survey: (front) => ({
      designs,
      feasible,
      feasibleSample: feasibleSample.sample(),
      otherSample: otherSample.sample(),
      effects: effects.effects(),
      grids: grids.grids(),
      ordered: ordered.effects(),
      limits: limits.effects(front),
      fates: STATUSES.flatMap((status, s) =>
        REASONS.map(({ text }, r) => ({ status, reason: text, count: fates[s * REASONS.length + r]! })),
      )
        .filter(({ count }) => count > 0)
        .sort((a, b) => b.count - a.count),
    }),
  };
}

/** Neighbouring designs mostly share a value: it is looked up when it changes. */
function binned(batch: RowBatch, v: number, width: number, of: (value: number) => number): Uint16Array {
  const bins = new Uint16Array(batch.count);
  let last = Number.NaN;
  let bin = 0;
  for (let row = 0; row < batch.count; row++) {
    const value = batch.values[row * width + v]!;
    if (value !== last) {
      last = value;
      bin = of(value);
    }
    bins[row] = bin;
  }
  return bins;
}

/** Counts the rows by status and reason, and returns how many are feasible. */
function countFates({ count, status, reason, feasible }: RowBatch, fates: Float64Array): number {
  let found = 0;
  for (let row = 0; row < count; row++) {
    found += feasible[row]!;
    fates[status[row]! * REASONS.length + reason[row]!]!++;
  }
  return found;
}
