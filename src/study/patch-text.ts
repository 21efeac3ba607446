import type { Calibration } from '../model/measured.ts';
import { inputToUnit, UNITS } from '../model/units.ts';
import { cleanLine } from './clean.ts';

/** Digits that no measurement of a rig fills. */
const DIGITS = 8;
/** A standard error is itself known to a fifth or so. */
const ERROR_DIGITS = 3;

/** First words of a file of fitted inputs; a file that starts otherwise is somebody else's. */
const PATCH_MARK = '# eddylift: fitted inputs';

/**
 * Fitted inputs as a file that a study can include: a path with its SI value (temperatures in degC) and standard error a
 * line, both again in the input's usual unit as a remark.
 */
export function patchText({ fitted }: Calibration, about: string, measured: string): string {
  const lines = fitted.map(({ free, value, error, atBound }) => {
    const { unit, path } = free;
    const written = Number((unit === UNITS.degC ? inputToUnit(value, unit) : value).toPrecision(DIGITS));
    const shown = `${Number((value * unit.scale + unit.offset).toPrecision(6))}`;
    if (atBound || Number.isNaN(error))
      return `${path}: ${written}  # ${shown} ${unit.symbol}, error not known`;
    const shownError = Number((error * unit.scale).toPrecision(2));
    const stated = Number(error.toPrecision(ERROR_DIGITS));
    return `${path}: {value: ${written}, error: ${stated}}  # ${shown} ± ${shownError} ${unit.symbol}`.trimEnd();
  });
  return [
    PATCH_MARK,
    `# ${cleanLine(about)}`,
    `measured: ${JSON.stringify(cleanLine(measured))}`,
    ...lines,
    '',
  ].join('\n');
}
