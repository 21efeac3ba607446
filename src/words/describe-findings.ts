import { extremeRows, kneeRow } from '../front/landmarks.ts';
import { column, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { wrap } from '../text/listing.ts';
import { describeFront } from './describe-front.ts';
import { count } from './describe-plan.ts';
import { frontCautions } from './front-cautions.ts';
import { frontTable } from './front-table.ts';
import { superlative } from './objective-words.ts';

/** Rows of the front that the terminal shows. */
const SHOWN = 10;

/**
 * The best of a front as a table, then its extremes and its knee in words, and the cautions that go with them. The front
 * has one row at least.
 */
export function describeFindings(study: Study, front: TableRows, width: number, file?: string): string {
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
