import { QUANTITIES } from '../model/quantities.ts';
import type { DesignBatch } from '../model/rows.ts';
import type { PlanSettings, Study, Varied, VariedNumber } from '../model/study.ts';
import { tableColumns } from '../model/table-columns.ts';
import { inputToUnit } from '../model/units.ts';
import { createPlan } from '../plan/create-plan.ts';
import type { Share } from '../plan/share.ts';
import type { Trial } from '../run/time-per-design.ts';
import { durationRange, formatDuration } from '../text/duration.ts';
import { grouped } from '../text/grouped.ts';

/** Cells of a table that one thread writes in a second, CSV and Parquet together: 70 million took two threads 9.8 s. */
const CELLS_PER_SECOND = 3.6e6;
/** Designs that are tried to see how long one takes. */
const SAMPLE = 48;

export function count(n: number, noun: string): string {
  return `${grouped(n)} ${noun}${n === 1 ? '' : 's'}`;
}

/** Fewer designs are tried out where they are slow. */
function sampleSize({ requested = [] }: Study): number {
  const effort = Math.max(0, ...requested.map((index) => QUANTITIES[index]!.effort));
  return Math.ceil(SAMPLE / (1 + effort / 4));
}

/** What a run of a study takes. */
export interface Estimate {
  /** Of a search that may end early, the most that there can be. */
  readonly designs: number;
  readonly mayBeFewer: boolean;
  /** To evaluate a design and to write its row to the tables, s, with all threads at work. */
  readonly evaluating: number;
  readonly writing: number;
  /** By how much longer than the processor worked it took to try them: others want the processor, too. */
  readonly slowdown: number;
  /** Whether evaluating may take longer: designs were too slow to be tried to the end. */
  readonly atLeast: boolean;
}

/** Tries out some designs of a study that has so many. */
export type TimeDesigns = (sample: DesignBatch, designs: number) => Promise<Trial>;

/** What a run takes, by what a few designs take. A share ends without tables. */
export async function estimateOf(
  study: Study,
  { threads, share }: { readonly threads: number; readonly share: Share | null },
  time: TimeDesigns,
): Promise<Estimate> {
  const plan = createPlan(study);
  const { seconds, slowdown, atLeast } = await time(plan.sample(sampleSize(study)), plan.atMost);
  return {
    designs: Math.ceil(plan.atMost / (share?.of ?? 1)),
    mayBeFewer: plan.total === null,
    evaluating: seconds / threads,
    writing: share ? 0 : tableColumns(study).length / CELLS_PER_SECOND / threads,
    slowdown,
    atLeast,
  };
}

/**
 * By how much more than its forecast a run may take on a machine that is left to it: threads share caches and memory, and the
 * front and the report are made beside the designs. Compared: see docs/decisions/running.md.
 */
const UNCERTAINTY = 2;
/** What a run takes however few designs it has, s: its threads start, figures and report are made. */
const BESIDE = 0.5;

/** What designs take, s: with all threads at work, and where things go as slowly as while they were tried. */
export interface Effort extends Pick<Estimate, 'designs' | 'mayBeFewer' | 'atLeast'> {
  readonly least: number;
  readonly most: number;
}

/** What `designs` of an estimate take, when so many of them are there already. */
export function effortOf(estimate: Estimate, kept = 0): Effort {
  const { designs, mayBeFewer, evaluating, writing, slowdown, atLeast } = estimate;
  const least = Math.max(0, designs - kept) * evaluating + designs * writing;
  return { designs, mayBeFewer, atLeast, least, most: (BESIDE + least * UNCERTAINTY) * slowdown };
}

/** `264 designs, 4 to 8 s on 2 threads`; of a search that may end early, the most that there can be. */
export function describeEffort(
  { designs, mayBeFewer, atLeast, least, most }: Effort,
  threads: number,
): string {
  const time = atLeast ? moreThan(least) : durationRange(least, most);
  return `${mayBeFewer ? 'at most ' : ''}${count(designs, 'design')}, ${time} on ${count(threads, 'thread')}`;
}

function moreThan(seconds: number): string {
  const duration = formatDuration(seconds);
  return /^\d/.test(duration) ? `more than ${duration}` : duration;
}

/** What a run of a study with this estimate takes, in words. */
export function describeEstimate(estimate: Estimate, threads: number): string {
  return describeEffort(effortOf(estimate), threads);
}

/** What a plan does, in a line. */
export function describePlan(plan: PlanSettings): string {
  switch (plan.kind) {
    case 'grid':
      return 'grid: every combination';
    case 'sobol':
      return `Sobol' sequence: ${count(plan.points, 'point')}, seed ${plan.seed}`;
    case 'nelder_mead':
      return `Nelder-Mead: ${count(plan.starts, 'start')} a run, ${count(plan.levels, 'level')}, seed ${plan.seed}`;
    case 'genetic':
      return `genetic search: ${count(plan.generations, 'generation')} of ${plan.population}, seed ${plan.seed}`;
  }
}

/** Most levels that are listed one by one. */
const LISTED = 6;

/** What varies and how: `coil.turns` and `320 to 520, 11 values`. */
export function describeVaried(varied: Varied): [path: string, text: string] {
  // as a plate of one layer is written
  const path = varied.path.replace('plate.layers.0.', 'plate.');
  return [
    path,
    varied.kind === 'choice' ? varied.levels.map(({ label }) => label).join(', ') : formatLevels(varied),
  ];
}

function formatLevels({ levels, unit, between, integer }: VariedNumber): string {
  const format = (si: number) => {
    if (si === Number.POSITIVE_INFINITY) return 'thick';
    return `${Number(inputToUnit(si, unit).toPrecision(6))}${unit.symbol === '' ? '' : ` ${unit.symbol}`}`;
  };
  if (between !== undefined) {
    const which = integer ? 'every whole number' : 'any value';
    const scale = between === 'log' ? ', on a log scale' : '';
    return `${format(levels[0]!)} to ${format(levels[1]!)}, ${which}${scale}`;
  }
  if (levels.length <= LISTED) return Array.from(levels, format).join(', ');
  return `${format(levels[0]!)} to ${format(levels.at(-1)!)}, ${count(levels.length, 'value')}`;
}
