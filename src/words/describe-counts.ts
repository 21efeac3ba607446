import { STATUSES, type Status } from '../model/status.ts';
import type { RunCounts } from '../store/run-record.ts';
import { formatDuration } from '../text/duration.ts';
import { grouped } from '../text/grouped.ts';
import { count } from './describe-plan.ts';

/** Shorter times, s, are given to a tenth. */
const TENTHS_BELOW = 9.95;

const VERBS: Readonly<Record<Status, readonly [one: string, more: string]>> = {
  lifts: ['lifts', 'lift'],
  rests: ['rests', 'rest'],
  clamped: ['is clamped', 'are clamped'],
  impossible: ['is impossible', 'are impossible'],
  failed: ['failed', 'failed'],
};

/** `264 designs in 0.9 s: 210 lift, 54 rest; 120 feasible, 14 on the front.` */
export function describeCounts(
  { designs, statuses, feasible, front }: RunCounts,
  seconds: number,
  { objectives }: { readonly objectives: readonly unknown[] },
): string {
  const parts = STATUSES.filter((status) => statuses[status] > 0).map((status) => {
    const n = statuses[status];
    return `${grouped(n)} ${VERBS[status][n === 1 ? 0 : 1]}`;
  });
  const onFront = objectives.length === 0 ? '' : `, ${grouped(front)} on the Pareto front`;
  const judged = `${grouped(feasible)} feasible${onFront}`;
  return `${count(designs, 'design')} in ${formatSeconds(seconds)}: ${parts.join(', ')}; ${judged}.`;
}

/** `0.9 s`, `2 min 10 s`. */
export function formatSeconds(seconds: number): string {
  return seconds < TENTHS_BELOW ? `${seconds.toFixed(1)} s` : formatDuration(seconds);
}
