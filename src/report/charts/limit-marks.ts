import { shortText } from '../../text/clean-text.ts';
import type { ReportInput } from '../report-input.ts';

/** Shapes of open strokes, one for each of the limits that are missed most. */
const CROSSES = [
  'M-.7,-.7L.7,.7M.7,-.7L-.7,.7',
  'M-.9,0L.9,0M0,-.9L0,.9',
  'M0,0L0,.9M0,0L-.8,-.5M0,0L.8,-.5',
  'M-.9,0L.9,0',
];
/** Of more than one limit, or of one that is missed seldom. */
export const STAR = 'M0,-.9L0,.9M-.8,-.45L.8,.45M-.8,.45L.8,-.45';
/** Characters of a limit in a legend. */
const LONGEST = 44;

/** A limit with a cross of its own. */
export interface LimitMark {
  /** As RowBatch.unmet holds it. */
  readonly bit: number;
  readonly text: string;
  readonly shape: string;
}

/** The limits that most designs miss and no other; each has the same cross in every chart. */
export function limitMarks({ survey }: Pick<ReportInput, 'survey'>): LimitMark[] {
  return survey.limits
    .map(({ text, alone }, i) => ({ text, alone, bit: (1 << i) >>> 0 }))
    .filter(({ alone }) => alone > 0)
    .sort((a, b) => b.alone - a.alone || a.bit - b.bit)
    .slice(0, CROSSES.length)
    .map(({ text, bit }, i) => ({ bit, text: shortText(text, LONGEST), shape: CROSSES[i]! }));
}
