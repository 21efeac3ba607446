import { type Document, isMap, isNode, isScalar, isSeq, type Node, parseDocument } from 'yaml';
import type { Problem } from '../errors.ts';
import { didYouMean } from '../expression/suggest.ts';
import { inputByPath } from '../model/inputs.ts';
import type { Study, Varied } from '../model/study.ts';
import { inputToUnit } from '../model/units.ts';
import { quote } from './clean.ts';
import { readInput } from './input-value.ts';
import { CHOICE_PATHS, isDrive, NUMBER_PATHS, shortPath } from './paths.ts';

/** An input of a rig that somebody changed: what the file gave, and what it is now, as written. */
export interface ChangedInput {
  readonly path: string;
  readonly from: string;
  readonly to: string;
}

export interface ChangedStudy {
  /** A study of this one rig, to be read again. */
  readonly text: string;
  readonly changes: readonly ChangedInput[];
}

/** Paths that are neither a number nor one of the choices that may vary. */
const OTHER_PATHS: readonly string[] = ['coil.insulation', 'supply.beyond', 'coil.windings', 'plate.layers'];

const NOT_GIVEN = 'not given';

/** Keys of which a rig has one alone. */
const INSTEAD: readonly (readonly string[])[] = [
  ['rig.plate.radius', 'rig.plate.square', 'rig.plate.sides'],
  ['drive.current', 'drive.voltage'],
];

/**
 * The study of one design with some of its inputs changed: what varies takes the design's values, then each `path=value`
 * takes its place. A study that keeps its limits and objectives, and varies nothing.
 */
export function setInputs(
  study: Study,
  values: ArrayLike<number>,
  settings: readonly string[],
): ChangedStudy | { readonly problems: readonly { readonly text: string; readonly problem: Problem }[] } {
  const document = parseDocument(study.text, { version: '1.2' });
  for (const [i, varied] of study.vary.entries()) fix(document, varied, values[i]!);
  document.delete('vary');
  document.delete('plan');
  const problems: { text: string; problem: Problem }[] = [];
  const changes: ChangedInput[] = [];
  for (const text of settings) {
    const read = readSetting(text);
    if ('problem' in read) {
      problems.push({ text, problem: read.problem });
      continue;
    }
    const { path, to } = read;
    const place = placeIn(document, path);
    const from = textAt(document, place);
    if (document.hasIn(['calibrated', path])) document.deleteIn(['calibrated', path]);
    setIn(document, place, yamlOf(to));
    changes.push({ path, from, to });
  }
  return problems.length > 0 ? { problems } : { text: document.toString({ lineWidth: 0 }), changes };
}

function readSetting(text: string): { path: string; to: string } | { problem: Problem } {
  const refuse = (found: string, wanted: string, at = 0, length = text.length) => ({
    problem: { code: 'setting', found, wanted, offset: at, length: Math.max(1, length) },
  });
  const equals = text.indexOf('=');
  if (equals < 1) return refuse(quote(text), "a path and a value, such as 'coil.turns=300'");
  const path = text.slice(0, equals).trim();
  const to = text.slice(equals + 1).trim();
  if (to === '') return refuse(`no value for \`${path}\``, "a value, such as 'plate.thickness=8 mm'");
  const known = [...NUMBER_PATHS.keys(), ...CHOICE_PATHS.keys(), ...OTHER_PATHS];
  if (!known.includes(path)) {
    const wanted = `the path of an input, such as coil.turns${didYouMean(path, known)}`;
    return refuse(`the unknown path ${quote(path)}`, wanted, 0, path.length);
  }
  const input = inputByPath(NUMBER_PATHS.get(path) ?? '');
  if (!input) return { path, to };
  const number = readInput(input, /^[-+]?[\d.]+(?:e[-+]?\d+)?$/i.test(to) ? Number(to) : to);
  if (number.ok) return { path, to };
  return refuse(number.flaw.found, number.flaw.wanted, text.length - to.length, to.length);
}

/** A design's own value of what varies, in the rig. */
function fix(document: Document, varied: Varied, value: number): void {
  const key = keyOf(document, varied.path);
  const place = placeIn(document, shortPath(varied.path));
  const entry = varied.kind === 'choice' ? varied.levels[value]!.entry : undefined;
  if (entry) {
    // the rig still takes it from stock, where it is the only one
    const [list, index] = entry;
    document.setIn(['stock', list], document.createNode([document.getIn(['stock', list, index])]));
    return;
  }
  if (varied.kind === 'choice') {
    // as the file writes it: a metal may be one by its own numbers
    setIn(document, place, document.getIn(['vary', key, value], true));
    return;
  }
  if (value === Number.POSITIVE_INFINITY) {
    setIn(document, place, 'thick');
    return;
  }
  const { unit } = varied;
  // a plain number is in SI, a temperature in degC
  const plain = unit.offset === 0 ? value : inputToUnit(value, unit);
  setIn(document, place, unit.symbol === 'mm' ? `${inputToUnit(value, unit)} mm` : plain);
}

function keyOf(document: Document, path: string): string {
  const vary = document.get('vary', true);
  const keys = isMap(vary) ? vary.items.map(({ key }) => String(isScalar(key) ? key.value : key)) : [];
  return keys.find((key) => (NUMBER_PATHS.get(key) ?? CHOICE_PATHS.get(key) ?? key) === path) ?? path;
}

/** Where the file holds an input, or would. */
function placeIn(document: Document, path: string): readonly (string | number)[] {
  const short = shortPath(path);
  const layered = isSeq(document.getIn(['rig', 'plate', 'layers'], true));
  const named =
    layered && /^plate\.(metal|thickness)/.test(short) ? short.replace('plate.', 'plate.layers.0.') : short;
  const insulated = named.replace(/^coil\.insulation\.\w+$/, 'coil.insulation');
  const segments = insulated.split('.').map((each) => (/^\d+$/.test(each) ? Number(each) : each));
  const place = isDrive(path) ? segments : ['rig', ...segments];
  const at = document.getIn(place, true);
  if (isMap(at) && insulated === 'standoff') return [...place, 'thickness'];
  if (isMap(at) && insulated === 'supply.fuse') return [...place, 'rating'];
  if (isMap(at) && insulated.endsWith('strands')) return [...place, 'count'];
  const strands = [...place.slice(0, -1), 'strands'];
  if (insulated.endsWith('.wire') && document.hasIn([...strands, 'diameter']))
    return [...strands, 'diameter'];
  return place;
}

/** What a scalar is called where it becomes a mapping: `standoff: 2 mm` beside a breakdown. */
const SCALARS: Readonly<Record<string, string>> = {
  standoff: 'thickness',
  fuse: 'rating',
  strands: 'count',
};

function setIn(document: Document, place: readonly (string | number)[], value: unknown): void {
  const parent = place.slice(0, -1);
  const above = document.getIn(parent, true);
  if (isScalar(above)) {
    const last = String(parent.at(-1));
    const kept = Object.hasOwn(SCALARS, last) ? SCALARS[last] : undefined;
    document.setIn(parent, document.createNode(kept === undefined ? {} : { [kept]: above.value }));
  }
  const path = place.join('.');
  for (const other of INSTEAD.find((group) => group.includes(path)) ?? []) {
    if (other !== path && document.hasIn(other.split('.'))) document.deleteIn(other.split('.'));
  }
  document.setIn(place, isNode(value) ? value : document.createNode(value));
}

function textAt(document: Document, place: readonly (string | number)[]): string {
  const node = document.getIn(place, true);
  if (node === undefined || node === null) return NOT_GIVEN;
  return isScalar(node) ? String(node.value) : JSON.stringify((node as Node).toJS(document));
}

/** As YAML reads it: a number, a text, a metal in braces. */
function yamlOf(text: string): unknown {
  const { contents, errors } = parseDocument(text, { version: '1.2' });
  return errors.length > 0 || contents === null ? text : contents;
}
