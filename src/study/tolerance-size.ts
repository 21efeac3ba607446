import { parseMeasure, toSI } from '../expression/measure.ts';
import { flawed, type Outcome } from '../expression/outcome.ts';
import type { InputSpec } from '../model/inputs.ts';
import { quote } from './clean.ts';

export const TOLERANCE_WANTED =
  'a standard deviation such as 0.3 mm or 5 %, or {size, spread: normal or uniform}';

/** Size of a tolerance, SI or a share of the design's value. */
export interface ToleranceSize {
  readonly size: number;
  readonly relative: boolean;
}

/** `0.3 mm`, `5 %`, or a plain number in SI; of a temperature it is a difference. */
export function readTolerance(
  spec: InputSpec,
  written: number | string,
  wanted: string = TOLERANCE_WANTED,
): Outcome<ToleranceSize> {
  const percent = typeof written === 'string' ? /^\s*(\d+\.?\d*|\.\d+)\s*%\s*$/.exec(written) : null;
  const measure = typeof written === 'number' || percent ? null : parseMeasure(written, spec.unit);
  if (measure && !measure.ok) return measure;
  const relative = percent !== null;
  const size = relative
    ? Number(percent[1]) / 100
    : measure
      ? toSI(measure.value.value, { ...measure.value, offset: 0 })
      : Number(written);
  if (size > 0 && size < Number.POSITIVE_INFINITY && !(relative && size > 1)) {
    return { ok: true, value: { size, relative } };
  }
  return flawed('tolerance', quote(String(written)), wanted);
}
