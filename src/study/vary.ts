import type { Problem } from '../errors.ts';
import type { Flaw } from '../expression/outcome.ts';
import {
  EDGES,
  FLOATS,
  FUSE_KINDS,
  FUSE_SIDES,
  INPUTS,
  type InputSpec,
  ISOLATED,
  inputByPath,
  LOAD_COVERS,
  MAX_WINDINGS,
  WINDING_KINDS,
} from '../model/inputs.ts';
import type { Choice, RigTemplate, Spacing, Varied } from '../model/study.ts';
import { quote } from './clean.ts';
import { readInput } from './input-value.ts';
import { CHOICE_PATHS, choiceName, NUMBER_PATHS, shortPath } from './paths.ts';
import type { Positions } from './positions.ts';
import { levelsOf } from './range.ts';
import { insulationSettings, metalSettings } from './rig.ts';
import { type MetalValue, type RangeShape, readInsulation } from './schema.ts';
import { flawProblem } from './shape-problems.ts';

type Written = readonly (number | string)[] | RangeShape;

interface Context {
  readonly key: string;
  readonly positions: Positions;
  readonly problems: Problem[];
  /** Whether a range may leave open what lies between its ends. */
  readonly open: boolean;
}

function isList(written: unknown): written is readonly unknown[] {
  return Array.isArray(written);
}

function report({ key, positions, problems }: Context, part: PropertyKey | null, flaw: Flaw): void {
  const path = part === null ? ['vary', key] : ['vary', key, part];
  problems.push(flawProblem(flaw, positions.value(path, flaw.at, flaw.length)));
}

function reportTwice(context: Context, index: number, text: string): void {
  const wanted = 'each value once';
  report(context, index, {
    code: 'twice',
    found: `${quote(text)} a second time`,
    wanted,
    at: 0,
    length: Number.MAX_SAFE_INTEGER,
  });
}

function columnOf(input: InputSpec): string {
  return input.unit.suffix === '' ? input.name : `${input.name}_${input.unit.suffix}`;
}

function variedNumber(input: InputSpec, levels: ArrayLike<number>, between?: Spacing): Varied {
  const { path, name, unit, slot, meaning, integer } = input;
  const doubles = levels instanceof Float64Array ? levels : Float64Array.from(levels);
  const varied = { path, name, column: columnOf(input), unit, slot, meaning, integer, levels: doubles };
  return { kind: 'number', ...varied, ...(between && { between }) };
}

function readNumbers(input: InputSpec, written: Written, context: Context): Varied | null {
  if (!isList(written)) {
    const range = levelsOf(input, written, context.open);
    if (range.ok) return variedNumber(input, range.levels, range.between);
    report(context, range.part, range.flaw);
    return null;
  }
  const levels: number[] = [];
  const before = context.problems.length;
  const seen = new Set<number>();
  written.forEach((value, i) => {
    const level = readInput(input, value);
    if (!level.ok) report(context, i, level.flaw);
    else if (seen.has(level.value)) reportTwice(context, i, String(value));
    else {
      seen.add(level.value);
      levels.push(level.value);
    }
  });
  return context.problems.length === before ? variedNumber(input, levels) : null;
}

function variedChoice(
  path: string,
  meaning: string,
  levels: readonly Choice[],
  context: Context,
): Varied | null {
  const seen = new Set<string>();
  const again = levels.findIndex(({ label }) => seen.has(label) || !seen.add(label));
  if (again >= 0) {
    reportTwice(context, again, levels[again]!.label);
    return null;
  }
  return { kind: 'choice', path, name: choiceName(path), column: choiceName(path), meaning, levels };
}

function slotOf(path: string): number {
  const input = inputByPath(path);
  if (!input) throw new Error(`no input ${path}`);
  return input.slot;
}

/** Choices that fix one number each. */
interface Coded {
  readonly what: string;
  readonly codes: Readonly<Record<string, number>>;
  /** What tables call them, where that is not what a study writes. */
  readonly labels?: Readonly<Record<string, string>>;
}

const CODED: Readonly<Record<string, Coded>> = {
  'plate.edge': { what: 'edge of the plate', codes: EDGES },
  'supply.fuse.kind': { what: "the fuse's kind", codes: FUSE_KINDS },
  'supply.fuse.side': { what: "the fuse's side", codes: FUSE_SIDES },
  'coil.winding': { what: 'how the wires are held', codes: WINDING_KINDS },
  'plate.load.cover': { what: 'what covers the water', codes: LOAD_COVERS },
  ...Object.fromEntries(
    Array.from({ length: MAX_WINDINGS }, (_, i) => [
      `coil.windings.${i}.sense`,
      {
        what: `how winding ${i + 1} is wound: with the others or against them`,
        codes: { 1: 1, '-1': -1 },
        labels: { 1: 'with', '-1': 'against' },
      },
    ]),
  ),
  'supply.isolated': { what: 'whether an isolating transformer stands before the coil', codes: ISOLATED },
};

function readChoices(path: string, written: readonly unknown[], context: Context): Varied | null {
  if (path === 'floats') {
    const levels = (written as readonly (keyof typeof FLOATS)[]).map(
      (label): Choice => ({ label, settings: [[slotOf('floats'), FLOATS[label]]] }),
    );
    return variedChoice(path, 'what floats', levels, context);
  }
  if (path.endsWith('.metal')) {
    const slot = slotOf(`${path}.resistivity`);
    const levels = (written as readonly MetalValue[]).map(
      (metal): Choice => ({ label: metal.label, settings: metalSettings(slot, metal) }),
    );
    return variedChoice(
      path,
      `metal of ${path.startsWith('coil') ? 'the conductor' : 'the plate'}`,
      levels,
      context,
    );
  }
  const { what, codes, labels } = CODED[path]!;
  const levels = written.map(
    (value): Choice => ({
      label: labels?.[`${value}`] ?? `${value}`,
      settings: [[slotOf(path), codes[`${value}`]!]],
    }),
  );
  return variedChoice(path, what, levels, context);
}

function readInsulations(written: Written, context: Context): Varied | null {
  const input = INPUTS[slotOf('coil.insulation.thickness')]!;
  if (!isList(written)) return readNumbers(input, written, context);
  const before = context.problems.length;
  const levels = written.flatMap((value, i) => {
    const insulation = readInsulation(value);
    if (insulation.ok) return [insulation.value];
    report(context, i, insulation.flaw);
    return [];
  });
  if (context.problems.length > before) return null;
  if (levels.every((level) => Number.isNaN(level.grade))) return readNumbers(input, written, context);
  const choices = levels.map(
    (level): Choice => ({ label: level.label, settings: insulationSettings(level) }),
  );
  return variedChoice('coil.insulation', 'insulation of the wire', choices, context);
}

export interface Vary {
  readonly varied: readonly Varied[];
  /** The file's key for each path that varies: `plate.thickness` for `plate.layers.0.thickness`. */
  readonly keys: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
}

/** Reads `vary`, whose shape is known to be right. `plateLayers`, `windings`: how many the rig has. */
export function readVary(
  vary: Readonly<Record<string, unknown>>,
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  positions: Positions,
  open: boolean,
): Vary {
  const problems: Problem[] = [];
  const varied: Varied[] = [];
  const keys = new Map<string, string>();
  for (const [key, written] of Object.entries(vary)) {
    const context: Context = { key, positions, problems, open };
    const path = NUMBER_PATHS.get(key) ?? CHOICE_PATHS.get(key) ?? key;
    const span = positions.key(['vary', key]);
    const earlier = keys.get(path);
    keys.set(path, key);
    if (earlier !== undefined) {
      problems.push({
        code: 'twice',
        found: `${quote(key)}, which is the same as ${quote(earlier)}`,
        wanted: 'each input once',
        ...span,
      });
      continue;
    }
    const winding = /^coil\.windings\.(\d+)\./.exec(path);
    if (winding && Number(winding[1]) >= windings) {
      problems.push({
        code: 'no-such-winding',
        found: `${quote(key)} of a coil with ${windings === 0 ? 'no list of windings' : `${windings} windings`}`,
        wanted: windings === 0 ? 'a path of the coil, such as coil.turns' : `windings 0 to ${windings - 1}`,
        ...span,
      });
      continue;
    }
    if (windings > 0 && /^coil\.(turns|inner_radius|section\.\w+)$/.test(path)) {
      problems.push({
        code: 'winding-twice',
        found: `${quote(key)} of a coil with a list of windings`,
        wanted: `the path in a winding, such as coil.windings.0.${path.slice('coil.'.length)}`,
        ...span,
      });
      continue;
    }
    const layer = /^plate\.layers\.(\d+)\./.exec(path);
    if (layer && Number(layer[1]) >= plateLayers) {
      problems.push({
        code: 'no-such-layer',
        found: `${quote(key)} of a plate with ${plateLayers} layer${plateLayers === 1 ? '' : 's'}`,
        wanted:
          plateLayers === 1
            ? 'plate.metal, plate.thickness, or more layers in the rig'
            : `layers 0 to ${plateLayers - 1}`,
        ...span,
      });
      continue;
    }
    if (layer && key !== path && plateLayers > 1) {
      problems.push({
        code: 'which-layer',
        found: `${quote(key)} of a plate with ${plateLayers} layers`,
        wanted: path,
        ...span,
      });
      continue;
    }
    const one =
      key === 'coil.insulation'
        ? readInsulations(written as Written, context)
        : CHOICE_PATHS.has(key)
          ? readChoices(path, written as readonly unknown[], context)
          : readNumbers(inputByPath(path)!, written as Written, context);
    if (one !== null) varied.push(one);
    if (one?.kind === 'number' && layer && Number(layer[1]) < plateLayers - 1) {
      const thick = one.levels.indexOf(Number.POSITIVE_INFINITY);
      if (thick >= 0) {
        const wanted = 'a thickness; only the last layer may be thick';
        problems.push({
          code: 'thick-inside',
          found: '`thick` above another layer',
          wanted,
          ...positions.value(['vary', key, thick]),
        });
      }
    }
  }
  for (const [path, key] of keys) {
    const whole = /^(.*\.metal)\.\w+$/.exec(path)?.[1];
    if (whole !== undefined && keys.has(whole)) {
      problems.push({
        code: 'overlap',
        found: `${quote(key)} beside ${quote(keys.get(whole)!)}`,
        wanted: `one of them: each ${shortPath(whole)} brings its own numbers`,
        ...positions.key(['vary', key]),
      });
    }
  }
  return { varied, keys, problems };
}
