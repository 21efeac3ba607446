import { UsageError } from '../errors.ts';
import { INPUTS } from '../model/inputs.ts';
import type { Study as InnerStudy, Varied, VariedChoice } from '../model/study.ts';
import { createEvaluator } from '../rig/evaluate.ts';
import { changeRig } from '../session/change-rig.ts';
import { readInput } from '../study/input-value.ts';
import { shortPath } from '../study/paths.ts';
import { inside, ownColumns } from './inside/insides.ts';
import { rowsOf } from './inside/rows.ts';
import { asOurs, createWorld, throwProblems } from './inside/world.ts';
import type { Row, Study } from './types.ts';

/** Kept between two calls. */
const prepared = new WeakMap<InnerStudy, ReturnType<typeof createEvaluator>>();

/**
 * Computes one design. `inputs` go by their paths in study files; a number is in SI units (temperatures in degC), a text
 * carries its unit: `{ 'coil.turns': 440, 'drive.current': '12 A', 'coil.metal': 'copper' }`. What the study varies must
 * be given, unless it has one value alone; any other input of the rig may be. A design that cannot be evaluated is a row,
 * too: `status` and `reason` say why. Throws an EddyliftError for an input that there is not, or a value it cannot have.
 *
 * Where all inputs are among those that the study varies, a call costs about what the design does. Another input makes the
 * study be read again, some milliseconds.
 */
export function evaluate(study: Study, inputs: Readonly<Record<string, number | string>> = {}): Row {
  const inner = inside(study);
  const given = new Map(Object.entries(inputs).map(([path, value]) => [shortPath(path), value]));
  const varied = new Map(inner.vary.map((each) => [shortPath(each.path), each]));
  const others = [...given].filter(([path, value]) => !isOwn(varied.get(path), value));
  const isOther = (path: string) => others.some(([other]) => other === path);
  const values = inner.vary.map((each) => {
    const path = shortPath(each.path);
    return isOther(path) ? firstOf(each) : designValue(each, path, given.get(path));
  });
  if (others.length === 0) return rowOf(inner, inner, values);
  const world = createWorld();
  const settings = others.map(([path, value]) => `${path}=${value}`);
  const changed = changeRig({ study: inner, values: Float64Array.from(values) }, settings, world);
  if (!changed) throwProblems(world);
  // a metal that is none of those that vary
  const words = others.flatMap(([path, value]) => {
    const each = varied.get(path);
    return each ? [[each.column, value] as const] : [];
  });
  return { ...rowOf(inner, changed.study, values), ...Object.fromEntries(words) };
}

/** Whether a value may stand in a design of the study as it is. */
function isOwn(varied: Varied | undefined, value: number | string): boolean {
  return varied !== undefined && (varied.kind === 'number' || levelOf(varied, value) >= 0);
}

function levelOf({ levels }: VariedChoice, value: number | string): number {
  return levels.findIndex(({ label }) => label === String(value));
}

function firstOf(varied: Varied): number {
  return varied.kind === 'choice' ? 0 : varied.levels[0]!;
}

function designValue(varied: Varied, path: string, value: number | string | undefined): number {
  if (value === undefined) {
    if (varied.levels.length === 1 && !('between' in varied)) return firstOf(varied);
    throw mistake(`${path} varies in this study: say which value the design has`);
  }
  if (varied.kind === 'choice') return levelOf(varied, value);
  const spec = INPUTS[varied.slot]!;
  const read = readInput(spec, value);
  if (!read.ok) throw mistake(`${path}: found ${read.flaw.found}; wanted ${read.flaw.wanted}`);
  return read.value;
}

function mistake(message: string): unknown {
  return asOurs(new UsageError(message));
}

/** The row of a study, computed with the rig of `rig`, which may be the study itself. */
function rowOf(study: InnerStudy, rig: InnerStudy, values: readonly number[]): Row {
  let found = prepared.get(rig);
  if (!found) {
    found = createEvaluator(rig);
    prepared.set(rig, found);
  }
  const own = Float64Array.from(values);
  const batch = found({ first: 0, count: 1, values: rig === study ? own : new Float64Array(0) });
  const rows = { ...batch, values: own, designs: new Float64Array(1), onFront: new Uint8Array(1) };
  return rowsOf(ownColumns(study), rows)[0]!;
}
