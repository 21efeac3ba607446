import type { Problem } from '../errors.ts';
import { type InputSpec, inputByPath } from '../model/inputs.ts';
import { inputToUnit } from '../model/units.ts';
import { NUMBER_PATHS } from './paths.ts';
import type { Path, Positions } from './positions.ts';

/**
 * Sizes that rigs of this kind have, SI (temperatures K): wide enough that what is outside is far more likely a forgotten
 * unit than a rig (common practice, no source). Only plain numbers are held against them.
 */
const USUAL: readonly (readonly [path: RegExp, from: number, to: number])[] = [
  [/\.wire$/, 0.02e-3, 12e-3],
  [/insulation/, 1e-6, 3e-3],
  [/^coil\..*radius$/, 1e-3, 0.6],
  [/^coil\..*(height|offset)$/, 0.1e-3, 0.5],
  [/^plate\.(radius|square|inner_radius|sides\.\d)$/, 5e-3, 3],
  [/thickness$/, 5e-6, 0.15],
  [/^standoff(\.thickness)?$/, 0.01e-3, 0.1],
  [/^standoff\.breakdown$/, 1e5, 1e9],
  [/extra_mass$/, 1e-3, 50],
  [/load\.water$/, 1e-3, 50],
  [/frequency$/, 5, 50e3],
  [/capacitance$/, 1e-9, 0.1],
  [/headroom$/, 5e-3, 20],
  [/_distance$/, 0.05, 50],
  [/^surroundings\.temperature$/, 233.15, 333.15],
  [/at_temperature$/, 213.15, 573.15],
  [/^coil\.thermal_class$/, 353.15, 573.15],
  [/\.resistivity$/, 1e-9, 1e-4],
  [/\.density$/, 500, 25_000],
  [/\.specific_heat$/, 50, 5000],
];

/** Nothing is neither large nor small. */
const NOTHING = 0;

/** Plain numbers that make an odd size, such as `standoff: 1`, which is one metre. `raw` is the file as plain values. */
export function oddSizes(raw: Readonly<Record<string, unknown>>, positions: Positions): Problem[] {
  const problems: Problem[] = [];
  const look = (value: unknown, path: Path, input: string): void => {
    if (typeof value === 'object' && value !== null) {
      for (const [key, inner] of Object.entries(value)) {
        const isItem = Array.isArray(value);
        // the values of a list and the ends of a range are those of what varies
        const isValue = path[0] === 'vary' && path.length > 1;
        const name = isValue ? input : input === '' ? key : `${input}.${key}`;
        if (isValue && !isItem && (key === 'count' || key === 'spacing' || key === 'step')) continue;
        look(inner, [...path, isItem ? Number(key) : key], name);
      }
      return;
    }
    const number = plainNumber(value);
    const spec =
      inputByPath(NUMBER_PATHS.get(input) ?? input) ??
      (/insulation$/.test(input) ? inputByPath(`${input}.thickness`) : undefined);
    if (number === null || spec === undefined) return;
    const odd = oddity(number, input, spec);
    if (odd !== null) problems.push({ code: 'odd-size', ...odd, ...positions.value(path) });
  };
  look(raw.rig, ['rig'], '');
  look(raw.vary, ['vary'], '');
  return problems;
}

function plainNumber(value: unknown): number | null {
  if (typeof value === 'number') return value;
  if (typeof value !== 'string' || !/^\s*[-+]?[\d.]+(e[-+]?\d+)?\s*$/i.test(value)) return null;
  const number = Number(value);
  return Number.isFinite(number) ? number : null;
}

function oddity(number: number, path: string, { unit, minimum, maximum }: InputSpec) {
  const usual = USUAL.find(([of]) => of.test(path));
  const si = number - unit.offset;
  if (usual === undefined || number === NOTHING || si < minimum || si > maximum) return null;
  const [, from, to] = usual;
  if (si >= from && si <= to) return null;
  const shown = inputToUnit(si, unit).toLocaleString('en-GB', { maximumSignificantDigits: 6 });
  return {
    found: `\`${path}\` is ${shown} ${unit.symbol}: a plain number is in SI units`,
    wanted: `a unit where that is not meant, such as ${number} ${writtenUnit(unit.suffix)}`,
  };
}

/** As a study writes it. */
function writtenUnit(suffix: string): string {
  return suffix.replace('_per_', '/').replaceAll('_', ' ').replace('m3', 'm^3');
}
