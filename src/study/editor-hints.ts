import type { InputSpec } from '../model/inputs.ts';
import { SLOT } from '../model/inputs.ts';
import { KNOWN_METAL_NAMES } from '../model/metal-names.ts';
import { PLATE_THICKNESSES } from '../model/series/plate-thicknesses.ts';
import { R20_DIAMETERS } from '../model/series/wire-diameters.ts';
import { inputToUnit } from '../model/units.ts';

/**
 * Keywords of JSON Schema that only editors read: what a value may be, as far as a schema can say it, and what to offer.
 * They never refuse what the reader takes; the reader alone says what is wrong and why.
 */
export interface EditorHints {
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
  readonly multipleOf?: number;
  /** For the same value as text. */
  readonly pattern?: string;
  /** What to offer, and that anything else may stand there: editors complete words of `enum`, hardly any of `examples`. */
  readonly anyOf?: readonly JsonSchema[];
  readonly type?: readonly string[];
}

/** A text with a unit that does not begin with a minus. */
const NOT_NEGATIVE = '^(?!\\s*-)';

/** Of an input, as a plain number (SI, temperatures in degC) or as a text with its unit. */
export function editorHints(spec: InputSpec): EditorHints {
  const { unit, minimum, maximum, above, integer } = spec;
  const plain = (si: number) => (unit.offset === 0 ? si : inputToUnit(si, unit));
  return {
    ...(Number.isFinite(minimum) && { [above ? 'exclusiveMinimum' : 'minimum']: plain(minimum) }),
    ...(maximum < Number.MAX_VALUE && { maximum: plain(maximum) }),
    ...(integer && { multipleOf: 1 }),
    ...(isNeverNegative(spec) && { pattern: NOT_NEGATIVE }),
    ...examplesOf(spec),
  };
}

/** Likewise of one of the values that `vary` lists, for all inputs that cannot be negative. */
export const AMOUNT: EditorHints = { minimum: 0, pattern: NOT_NEGATIVE };

/** Temperatures may be, in degC. */
export function isNeverNegative({ minimum, unit }: InputSpec): boolean {
  return minimum >= 0 && unit.offset === 0;
}

/** Wires that somebody winds by hand: metric sizes, and gauges. */
const WIRES = R20_DIAMETERS.filter((mm) => mm >= 0.5).map((mm) => `${mm} mm`);
const GAUGES = ['AWG 8', 'AWG 10', 'AWG 12', 'AWG 14', 'AWG 16', 'AWG 18', 'AWG 20', 'AWG 24'];
const CLASSES = ['105 degC', '130 degC', '155 degC', '180 degC', '200 degC'];

function examplesOf({ slot, path }: InputSpec): Pick<EditorHints, 'type' | 'anyOf'> {
  if (slot === SLOT.wire || path.endsWith('.wire')) return offered([...WIRES, ...GAUGES]);
  if (slot === SLOT.thermalClass) return offered(CLASSES);
  if (/^plate\.layers\.\d+\.thickness$/.test(path)) {
    return offered(PLATE_THICKNESSES.map((mm) => `${mm} mm`));
  }
  return {};
}

/** Words that an editor completes in a place where any number or text may stand. */
export function offered(words: readonly string[]): Pick<EditorHints, 'type' | 'anyOf'> {
  const type = ['number', 'string'];
  return { type, anyOf: [{ enum: [...words] }, { type }] };
}

/** The same text whatever its case, and with blanks, hyphens, underscores or slashes anywhere: as metals are looked up. */
function looselyWritten(name: string): string {
  const letters = name.toLowerCase().replace(/[\s_/-]/g, '');
  const each = [...letters].map((letter) => {
    const upper = letter.toUpperCase();
    return letter === upper ? letter.replace(/[.*+?^${}()|[\]\\]/, '\\$&') : `[${upper}${letter}]`;
  });
  // the American spelling has one letter less
  return each
    .join('[\\s_/-]*')
    .replace('[Mm][\\s_/-]*[Ii][\\s_/-]*[Nn][\\s_/-]*[Ii]', '[Mm][\\s_/-]*[Ii][\\s_/-]*[Nn][\\s_/-]*[Ii]?');
}

/** Metals of the catalogue: the names to offer, and all ways to write them. */
export function metalHints(names: readonly string[]) {
  const spellings = new Set(KNOWN_METAL_NAMES.map(looselyWritten));
  return {
    anyOf: [
      { enum: [...names] },
      {
        pattern: `^[\\s_/-]*(?:[Ee][\\s_/-]*[Nn][\\s_/-]*[Aa][\\s_/-]*[Ww][\\s_/-]*(?=[0-9]))?(?:${[...spellings].join('|')})[\\s_/-]*$`,
      },
    ],
  };
}

interface JsonSchema {
  readonly [key: string]: unknown;
}

/** Shapes that stand at many paths: what an editor shows over a path is what its input is, not what such a shape is. */
const AT_MANY_PATHS: readonly string[] = ['range', 'amountRange', 'fitted', 'tolerance'];

/** A schema as editors read it best: no choice between a word and a text that the word is one of, no words that hide others. */
export function forEditors(schema: JsonSchema, word: string): JsonSchema {
  const { $defs, ...rest } = schema as { $defs?: Readonly<Record<string, JsonSchema>> };
  const definitions = Object.entries($defs ?? {}).map(([name, definition]) => {
    const read = mergeWord(definition, word) as JsonSchema;
    return [name, AT_MANY_PATHS.includes(name) ? withoutWords(read) : read];
  });
  return { ...(mergeWord(rest, word) as JsonSchema), $defs: Object.fromEntries(definitions) };
}

/** `anyOf: [{const: word}, texts]` becomes `texts` with the word as an example. */
function mergeWord(node: unknown, word: string): unknown {
  if (Array.isArray(node)) return node.map((each) => mergeWord(each, word));
  if (typeof node !== 'object' || node === null) return node;
  const read = Object.fromEntries(
    Object.entries(node).map(([key, value]) => [key, mergeWord(value, word)]),
  ) as JsonSchema;
  const { anyOf, ...rest } = read as { anyOf?: readonly JsonSchema[] };
  const others = anyOf?.filter((option) => option.const !== word);
  if (!anyOf || !others || others.length === anyOf.length) return read;
  const [first, ...more] = others as [JsonSchema, ...JsonSchema[]];
  // the text may stand a choice deeper
  const isChoice = first.type === undefined && Array.isArray(first.anyOf);
  const options = isChoice ? [...(first.anyOf as JsonSchema[]), ...more] : [first, ...more];
  const texts = options.findIndex(({ type }) => [type].flat().includes('string'));
  if (texts < 0) return read;
  const merged = options.map((option, i) =>
    i === texts ? { ...option, ...offered([word, ...wordsOf(option)]) } : option,
  );
  return merged.length === 1 ? { ...merged[0], ...rest } : { ...rest, anyOf: merged };
}

/** What a place offers. */
function wordsOf({ anyOf }: JsonSchema): readonly string[] {
  const [first] = (anyOf ?? []) as readonly { readonly enum?: readonly string[] }[];
  return first?.enum ?? [];
}

function withoutWords({ description: _, ...definition }: JsonSchema): JsonSchema {
  const { anyOf, ...rest } = definition as { anyOf?: readonly JsonSchema[] };
  return anyOf ? { ...rest, anyOf: anyOf.map(withoutWords) } : rest;
}
