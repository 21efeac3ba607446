import { INPUTS } from '../model/inputs.ts';
import type { Study } from '../model/study.ts';
import { inputToUnit, type Unit } from '../model/units.ts';
import {
  createSensitivities,
  type MovedInput,
  type Sensitivities,
  type Sensitivity,
  sensitivityOf,
  sizeOf,
} from '../rig/sensitivities.ts';
import { measure, significant } from '../text/significant.ts';
import { objectiveLabel } from './objective-words.ts';
import { toleranceName } from './spread-words.ts';
import { changeableOf, type Watched } from './watched.ts';

/** What one per cent more of each input does to a design, in numbers and words. */
export interface DescribedSensitivities {
  readonly watched: readonly Watched[];
  readonly numbers: Sensitivities;
  /** A line a quantity that something changes: what it is, and what changes it most. */
  readonly rows: readonly (readonly [topic: string, words: string])[];
}

/** From a design's varied values; null for one without an answer, and where nothing changes anything. */
export type SensitivityDescriber = (values: Float64Array) => DescribedSensitivities | null;

export const SENSITIVITY_TITLE = 'What 1 % more of an input changes';
/** How the lines are to be read. */
export const SENSITIVITY_NOTE =
  'each input by itself, the rest of the rig as it is; layers and other small whole numbers have no per cent';

/** Inputs that a sentence names for one quantity. */
const NAMED = 4;
/** Smaller changes, beside the largest of the same quantity, are left out of sentences. */
const SHOWN = 0.1;

export function createSensitivityDescriber(study: Study): SensitivityDescriber {
  const watched = changeableOf(study);
  const numbersOf = createSensitivities(
    study,
    watched.map(({ program }) => program),
  );
  return (values) => {
    const numbers = numbersOf(values);
    if (numbers === null) return null;
    const rows = watched.flatMap(({ label, unit }, q) => {
      const words = quantityWords(numbers, q, unit);
      return words === null ? [] : [[label, `${measure(numbers.own[q]!, unit)}: ${words}`] as const];
    });
    return rows.length === 0 ? null : { watched, numbers, rows };
  };
}

/** Of what everybody wants to know a short list has so many. */
const FIRST = 3;

/** The first rows and those of the study's objectives, where there is little room. */
export function leadingRows(
  { objectives }: Pick<Study, 'objectives'>,
  { rows }: DescribedSensitivities,
): DescribedSensitivities['rows'] {
  const sought = objectives.map(objectiveLabel);
  return rows.filter(([label], i) => i < FIRST || sought.includes(label));
}

/** `drive's current +0.43 mm, wire's diameter -0.2 mm`, the largest first; null where nothing changes it. */
function quantityWords(numbers: Sensitivities, q: number, unit: Unit): string | null {
  const ranked = numbers.moved
    .map((input, m) => ({ input, found: sensitivityOf(numbers, q, m) }))
    .sort((a, b) => shownSize(b.found) - shownSize(a.found));
  const least = SHOWN * sizeOf(ranked[0]?.found ?? null);
  const shown = ranked.slice(0, NAMED).filter(({ found }) => sizeOf(found) > 0 && sizeOf(found) >= least);
  if (shown.length === 0) return null;
  return shown.map(({ input, found }) => `${movedName(input)} ${changeText(found!, unit)}`).join(', ');
}

const PART = /^(?:coil\.windings|plate\.layers)\.(\d)\.(.*)$/;

/** `drive's current`, `winding 2: turns`; a temperature with what it was moved by. */
export function movedName(input: MovedInput): string {
  const [, index, rest] = PART.exec(input.path) ?? [];
  const known = toleranceName(input).replace(/^the /, '');
  const name =
    known === input.path && rest !== undefined
      ? `${input.path.startsWith('coil') ? 'winding' : 'layer'} ${Number(index) + 1}: ${rest.replaceAll('.', ' ').replaceAll('_', ' ')}`
      : known;
  return input.perCent ? name : `${name} (1 °C more)`;
}

/** What the design has: `12 A`. */
export function movedValue({ slot, value }: MovedInput): string {
  const { unit } = INPUTS[slot]!;
  const text = significant(inputToUnit(value, unit));
  return unit.symbol === '' ? text : `${text} ${unit.symbol}`;
}

function changeText(found: Sensitivity, unit: Unit): string {
  const symbol = unit.symbol === '' ? '' : ` ${unit.symbol}`;
  if (found.kind === 'slope') return `${changeNumber(found.more, unit)}${symbol}`;
  return `${changeNumber(found.up, unit)}${symbol} up, ${changeNumber(found.down, unit)}${symbol} down`;
}

/** For a table: `+0.43`; where up and down do not agree `+38 up, 0 down`. */
export function changeCell(found: Sensitivity | null, unit: Unit): string {
  if (found === null) return '-';
  if (found.kind === 'slope') return changeNumber(found.more, unit);
  return `${changeNumber(found.up, unit)} up, ${changeNumber(found.down, unit)} down`;
}

/** Three digits: it is a slope. */
const DIGITS = 3;

/** As it is shown: of two that look alike the one that comes first among the inputs, whatever their last digits. */
const rounded = (size: number) => Number(size.toPrecision(DIGITS));
const shownSize = (found: Sensitivity | null) => rounded(sizeOf(found));

function changeNumber(si: number, { scale }: Unit): string {
  const text = significant(Number((si * scale).toPrecision(DIGITS)));
  return si > 0 ? `+${text}` : text;
}

/** Inputs worth a line in a table, those that do most first: by what they do to each quantity beside the others, all alike. */
export function leadingInputs(numbers: Sensitivities): number[] {
  const inputs = [...numbers.moved.keys()];
  const weights = new Float64Array(inputs.length);
  for (const q of numbers.own.keys()) {
    const sizes = inputs.map((m) => sizeOf(sensitivityOf(numbers, q, m)));
    const largest = Math.max(...sizes);
    if (largest > 0) for (const m of inputs) weights[m]! += sizes[m]! / largest;
  }
  return inputs.filter((m) => weights[m]! > 0).sort((a, b) => rounded(weights[b]!) - rounded(weights[a]!));
}
