import type { Objective } from '../model/program.ts';
import type { TableRows } from '../model/rows.ts';
import { STATUS } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { measure } from '../text/significant.ts';
import { designWords } from './design-words.ts';
import { plainQuantity, superlative } from './objective-words.ts';

export interface Landmarks {
  /** Per objective, the row that is best in it. */
  readonly extremes: readonly number[];
  /** The row at the knee. */
  readonly knee: number;
}

/** The front holds designs that rest only where none floats. */
const ONLY_RESTING = 'No design that meets the limits floats: those on the front rest on the plate.';

/** What the sentence about a design holds anyway. */
const SHOWN = ['height', 'coil_mass', 'current', 'voltage'];

/**
 * The front in words, a line each: the best design in every objective, and the knee if it is another one.
 * Rows are those of the front; there must be one at least.
 */
export function describeFront(
  study: Pick<Study, 'vary' | 'objectives'>,
  rows: TableRows,
  { extremes, knee }: Landmarks,
): string {
  const lines = [...new Set(extremes)].map((row) => {
    const best = study.objectives.flatMap((objective, k) =>
      extremes[k] === row ? [praise(objective, rows.objectives[k * rows.count + row]!)] : [],
    );
    return `${capitalised(best.join(' and '))}: ${designWords(study, rows, row)}`;
  });
  if (rows.status[0] === STATUS.rests) lines.unshift(ONLY_RESTING);
  if (rows.count === 1) return lines.join('\n');
  const compromise = extremes.includes(knee)
    ? `The best compromise is design ${rows.designs[knee]}, too`
    : `Best compromise: ${designWords(study, rows, knee)}`;
  return study.objectives.length === 1 ? lines.join('\n') : [...lines, compromise].join('\n');
}

function praise(objective: Objective, si: number): string {
  const isShown = SHOWN.includes(plainQuantity(objective.program)?.name ?? '');
  return isShown ? superlative(objective) : `${superlative(objective)} (${measure(si, objective.unit)})`;
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
