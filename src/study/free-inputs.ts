import type { Problem } from '../errors.ts';
import { parseMeasure, toSI } from '../expression/measure.ts';
import { flawed, type Outcome } from '../expression/outcome.ts';
import { didYouMean } from '../expression/suggest.ts';
import { type InputSpec, inputByPath } from '../model/inputs.ts';
import type { FreeInput } from '../model/measured.ts';
import { quote } from './clean.ts';
import { readInput } from './input-value.ts';
import { isDrive, NUMBER_PATHS } from './paths.ts';

/** How inputs to be fitted are written, for messages. */
const EXAMPLE = 'an input such as standoff, standoff=2mm±0.3mm or standoff=1mm..4mm';

/** Inputs that are fitted: lengths, masses, resistivities, not counts and not the drive. */
const PATHS = [...NUMBER_PATHS].filter(([, path]) => !inputByPath(path)!.integer && !isDrive(path));
const FREE_PATHS: ReadonlyMap<string, string> = new Map(PATHS);

/** An input whose value is 0 usually goes this far, in the unit that tables show it in. */
const USUAL = 0.1;
/** Other inputs usually go this share of their value. */
const SHARE = 0.1;

/**
 * Reads a list of inputs to fit, such as `plate.metal.resistivity,standoff=2mm±0.3mm,coil.extra_mass=0g..300g`: free,
 * known beforehand to a standard uncertainty (`+-` will do, and so will `±5%`), or within bounds.
 * @param slots the rig's inputs, SI; a free input starts there
 */
export function readFree(
  text: string,
  slots: Float64Array,
): { readonly free: readonly FreeInput[] } | { readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const free: FreeInput[] = [];
  let at = 0;
  for (const item of text.split(',')) {
    const read = readOne(item.trim(), slots);
    const twice = read.ok && free.some(({ slot }) => slot === read.value.slot);
    if (read.ok && !twice) free.push(read.value);
    else {
      const flaw = read.ok
        ? flawed('twice', `${quote(item)} a second time`, 'each input once').flaw
        : read.flaw;
      const { code, found, wanted } = flaw;
      problems.push({ code, found, wanted, offset: at, length: Math.max(1, item.length) });
    }
    at += item.length + 1;
  }
  return problems.length > 0 ? { problems } : { free };
}

function readOne(item: string, slots: Float64Array): Outcome<FreeInput> {
  const [name = '', ...rest] = item.split('=').map((part) => part.trim());
  const path = FREE_PATHS.get(name);
  if (path === undefined) {
    const found = name === '' ? 'nothing' : `the input ${quote(name)}`;
    return flawed('unknown-input', found, `${EXAMPLE}${didYouMean(name, [...FREE_PATHS.keys()])}`);
  }
  const spec = inputByPath(path)!;
  const given = slots[spec.slot]!;
  const own = { path: name, slot: spec.slot, unit: spec.unit };
  const widest = (from: number) => ({ minimum: lowest(spec, from), maximum: spec.maximum });
  if (rest.length === 0) {
    if (!Number.isFinite(given)) {
      return flawed('no-start', `${quote(name)}, which the study does not give`, `${name}=value±uncertainty`);
    }
    return {
      ok: true,
      value: { ...own, ...widest(given), start: given, scale: scaleOf(given, spec), prior: null },
    };
  }
  const stated = rest.join('=');
  const [low, high, ...more] = stated.split('..');
  if (high !== undefined && more.length === 0) return within(low!, high, given, spec, own);
  const [value, error, ...others] = stated.split(/±|\+-/);
  if (value === undefined || error === undefined || others.length > 0) {
    return flawed('free-input', quote(stated), EXAMPLE);
  }
  const known = readInput(spec, value.trim());
  if (!known.ok) return known;
  const uncertainty = readError(error.trim(), known.value, spec);
  if (!uncertainty.ok) return uncertainty;
  const prior = { value: known.value, error: uncertainty.value };
  const start = Number.isFinite(given) ? given : known.value;
  return { ok: true, value: { ...own, ...widest(start), start, scale: prior.error, prior } };
}

type Own = Pick<FreeInput, 'path' | 'slot' | 'unit'>;

function within(low: string, high: string, given: number, spec: InputSpec, own: Own): Outcome<FreeInput> {
  const from = readInput(spec, low.trim());
  if (!from.ok) return from;
  const to = readInput(spec, high.trim());
  if (!to.ok) return to;
  const [minimum, maximum] = [from.value, to.value];
  if (!(minimum < maximum) || !Number.isFinite(maximum)) {
    return flawed('bounds', `bounds from ${quote(low)} to ${quote(high)}`, 'the lower one first');
  }
  const isInside = given >= minimum && given <= maximum;
  const start = isInside ? given : (minimum + maximum) / 2;
  const scale = (maximum - minimum) / 4;
  return { ok: true, value: { ...own, start, scale, minimum, maximum, prior: null } };
}

/** A standard uncertainty, SI: of a temperature it is a difference. */
function readError(text: string, of: number, spec: InputSpec): Outcome<number> {
  const percent = /^(\d+\.?\d*|\.\d+)\s*%$/.exec(text);
  const measure = percent ? null : parseMeasure(text, spec.unit);
  if (measure && !measure.ok) return measure;
  const value = percent
    ? (Math.abs(of) * Number(percent[1])) / 100
    : toSI(measure!.value.value, { ...measure!.value, offset: 0 });
  if (value > 0) return { ok: true, value };
  return flawed('uncertainty', quote(text), 'a standard uncertainty above 0');
}

/** The lowest value that may be taken; near a bound that is not one itself nothing is measured. */
function lowest({ minimum, above }: InputSpec, start: number): number {
  return above ? minimum + 1e-3 * (start - minimum) : minimum;
}

function scaleOf(value: number, { unit }: InputSpec): number {
  return value === 0 ? USUAL / unit.scale : SHARE * Math.abs(value);
}
