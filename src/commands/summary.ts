import { extremeRows, kneeRow } from '../front/landmarks.ts';
import { column, type TableRows } from '../model/rows.ts';
import { STATUSES, type Status } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { sayDuration } from '../run/duration.ts';
import type { RunCounts } from '../store/run-record.ts';
import { describeFront } from '../table/describe-front.ts';
import { frontTable } from '../table/front-table.ts';
import { superlative } from '../table/objective-words.ts';
import { count } from './describe.ts';
import { frontCautions } from './front-cautions.ts';
import { wrap } from './listing.ts';

/** Rows of the front that the terminal shows. */
const SHOWN = 10;

/** Shorter times, s, are told to a tenth. */
const TENTHS_BELOW = 9.95;

const VERBS: Readonly<Record<Status, readonly [one: string, more: string]>> = {
  lifts: ['lifts', 'lift'],
  rests: ['rests', 'rest'],
  clamped: ['is clamped', 'are clamped'],
  impossible: ['is impossible', 'are impossible'],
  failed: ['failed', 'failed'],
};

/** `264 designs in 0.9 s: 210 lift, 54 rest; 120 feasible, 14 on the front.` */
export function sayCounts({ designs, statuses, feasible, front }: RunCounts, seconds: number): string {
  const parts = STATUSES.filter((status) => statuses[status] > 0).map((status) => {
    const n = statuses[status];
    return `${n.toLocaleString('en')} ${VERBS[status][n === 1 ? 0 : 1]}`;
  });
  const judged = `${feasible.toLocaleString('en')} feasible, ${front.toLocaleString('en')} on the front`;
  return `${count(designs, 'design')} in ${saySpent(seconds)}: ${parts.join(', ')}; ${judged}.`;
}

/** `0.9 s`, `2 min 10 s`. */
export function saySpent(seconds: number): string {
  return seconds < TENTHS_BELOW ? `${seconds.toFixed(1)} s` : sayDuration(seconds);
}

/**
 * The best of a front as a table, then its extremes and its knee in words, and the cautions that go with them. The front
 * has one row at least.
 */
export function sayFindings(study: Study, front: TableRows, width: number, file?: string): string {
  const senses = study.objectives.map(({ sense }) => sense);
  const columns = study.objectives.map((_, i) => column(front, front.objectives, i));
  const landmarks = { extremes: extremeRows(columns, senses), knee: kneeRow(columns, senses) };
  const words = describeFront(study, front, landmarks)
    .split('\n')
    .map((line) => wrap(line, width).join('\n  '));
  const which =
    front.count > SHOWN
      ? `The best ${SHOWN} of ${front.count} designs`
      : `The ${count(front.count, 'design')}`;
  return [
    `${which} on the front, ${superlative(study.objectives[0]!)} first:`,
    '',
    frontTable(study, front, { width, count: SHOWN, ...(file === undefined ? {} : { file }) }),
    '',
    ...words,
    '',
    ...frontCautions(study, front, landmarks).map((line) => wrap(line, width).join('\n  ')),
  ].join('\n');
}
