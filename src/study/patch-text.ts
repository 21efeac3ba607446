import type { Calibration } from '../model/measured.ts';
import { inputToUnit, UNITS } from '../model/units.ts';
import { cleanLine } from './clean.ts';

/** Digits that no measurement of a rig fills. */
const DIGITS = 8;

/** First words of a file of fitted inputs; a file that starts otherwise is somebody else's. */
export const PATCH_MARK = '# eddylift: fitted inputs';

/**
 * Fitted inputs as a file that a study can include: a path and an SI value (temperatures in degC) a line, with its
 * standard uncertainty as a remark.
 */
export function patchText({ fitted }: Calibration, about: string, measured: string): string {
  const lines = fitted.map(({ free, value, error }) => {
    const { unit, path } = free;
    const written = Number((unit === UNITS.degC ? inputToUnit(value, unit) : value).toPrecision(DIGITS));
    const shown = `${Number((value * unit.scale + unit.offset).toPrecision(6))}`;
    const spread = Number.isNaN(error)
      ? 'uncertainty not known'
      : `± ${Number((error * unit.scale).toPrecision(2))}`;
    return `${path}: ${written}  # ${shown} ${spread} ${unit.symbol}`.trimEnd();
  });
  return [`${PATCH_MARK}`, `# ${cleanLine(about)}, by ${cleanLine(measured)}`, ...lines, ''].join('\n');
}
