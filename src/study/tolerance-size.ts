import { parseMeasure, toSI } from '../expression/measure.ts';
import { flawed, type Outcome } from '../expression/outcome.ts';
import type { InputSpec } from '../model/inputs.ts';
import type { Tolerance } from '../model/study.ts';
import { quote } from './clean.ts';

export const TOLERANCE_WANTED =
  'a standard deviation such as 0.3 mm or 5 %, or {size, spread: normal or uniform}';

/** Size of a tolerance, SI or a share of the design's value. */
export interface ToleranceSize {
  readonly size: number;
  readonly relative: boolean;
}

/** `0.3 mm`, `5 %`, or a plain number in SI; of a temperature it is a difference. */
export function readTolerance(spec: InputSpec, written: number | string): Outcome<ToleranceSize> {
  const percent = typeof written === 'string' ? /^\s*(\d+\.?\d*|\.\d+)\s*%\s*$/.exec(written) : null;
  if (percent) return sized(Number(percent[1]) / 100, true, written);
  if (typeof written === 'number') return sized(written, false, written);
  const measure = parseMeasure(written, spec.unit);
  if (!measure.ok) return measure;
  return sized(toSI(measure.value.value, { ...measure.value, offset: 0 }), false, written);
}

function sized(size: number, relative: boolean, written: number | string): Outcome<ToleranceSize> {
  if (size > 0 && size < Number.POSITIVE_INFINITY && !(relative && size > 1)) {
    return { ok: true, value: { size, relative } };
  }
  return flawed('tolerance', quote(String(written)), TOLERANCE_WANTED);
}

/** What the schema makes of an entry. */
export interface ToleranceShape extends ToleranceSize {
  readonly spread: Tolerance['spread'];
}
