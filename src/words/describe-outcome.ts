import { extremeRows, kneeRow } from '../front/landmarks.ts';
import { column, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { SearchOutcome } from '../plan/plan.ts';
import { createDesignReader } from '../rig/design.ts';
import type { FrontRecord } from '../store/run-record.ts';
import { significant } from '../text/significant.ts';
import { atBounds, describeSearch } from './describe-search.ts';
import { limitStandings } from './limit-standing.ts';
import { studyNotes } from './study-notes.ts';

/** A limit with less left than this share binds. */
const BINDS = 0.01;

/**
 * How good an answer is, a line each: how a search found it, what holds its best compromise back, where the winners stand
 * at an end of what the study allows, and what a reader must know of the study.
 */
export function describeOutcome(
  study: Study,
  outcome: SearchOutcome | null,
  front: TableRows,
  quality: FrontRecord | null,
): string[] {
  const lines = outcome === null ? [] : describeSearch(study, outcome);
  // nothing was chosen between
  const isChoice = front.count > 0 && study.objectives.length > 0 && study.vary.length > 0;
  if (!isChoice) return [...lines, ...studyNotes(study)];
  if (quality !== null && quality.hypervolume !== null && study.plan.kind !== 'grid') {
    const even = quality.spread === null ? '' : `, unevenness ${significant(quality.spread)} (0 is even)`;
    lines.push(
      `Front: dominates ${significant(100 * quality.hypervolume)} % of the box that it spans${even}.`,
    );
  }
  const senses = study.objectives.map(({ sense }) => sense);
  const columns = study.objectives.map((_, i) => column(front, front.objectives, i));
  const knee = kneeRow(columns, senses);
  const winners = new Set(extremeRows(columns, senses));
  winners.delete(knee);
  return [
    ...lines,
    describeHeldBack(study, front, knee),
    ...[...winners].flatMap((row) => describeEnds(study, front, row) ?? []),
    ...studyNotes(study),
  ];
}

/** Null for a winner that stands at no end. */
function describeEnds(study: Study, front: TableRows, row: number): string | null {
  const width = study.vary.length;
  const ends = atBounds(study.vary, front.values.slice(row * width, (row + 1) * width));
  return ends.length === 0 ? null : `Design ${front.designs[row]}: at ends of ranges: ${ends.join(', ')}.`;
}

/** What would have to give for a design to be better: the limits that bind, and the ends of ranges it stands at. */
function describeHeldBack(study: Study, front: TableRows, row: number): string {
  const width = study.vary.length;
  const values = front.values.slice(row * width, (row + 1) * width);
  const reader = createDesignReader(study);
  reader.read(values, 0);
  const cells = (columns: Float64Array) =>
    Float64Array.from({ length: columns.length / front.count }, (_, c) => columns[c * front.count + row]!);
  const design = { count: 1, quantities: cells(front.quantities), derived: cells(front.derived) };
  const binding = limitStandings(study, design, reader.slots)
    .filter(({ margin }) => Math.abs(margin) < BINDS)
    .map(({ text }) => `'${text}'`);
  const ends = atBounds(study.vary, values);
  const limits = binding.length === 0 ? 'no limit binds' : `at the limit of ${binding.join(', ')}`;
  const bounds =
    ends.length === 0 ? 'none of its inputs at the end of a range' : `at ends of ranges: ${ends.join(', ')}`;
  const which = study.objectives.length === 1 ? 'The best' : 'The best compromise';
  return `${which} (design ${front.designs[row]}): ${limits}; ${bounds}.`;
}
