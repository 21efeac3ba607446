import { createHash } from 'node:crypto';
import type { Problem } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { assumedMetals } from './assumed-metals.ts';
import { cleanLine, cleanText } from './clean.ts';
import { driveProblems, missingEnamel, missingParts, valuesOf, withoutVaried } from './complete.ts';
import { createExpressions } from './expressions.ts';
import { fillFitted, fittedAndVaried } from './fitted.ts';
import { oddSizes } from './odd-sizes.ts';
import { placesOf } from './paths.ts';
import { planOf, planProblems } from './plan.ts';
import { createPositions, type Path, type Positions, type Span } from './positions.ts';
import { requestedBy } from './requested.ts';
import { fillRig } from './rig.ts';
import { type SECTIONS, STUDY, SUPPLY_LIMIT } from './schema.ts';
import { shapeProblems } from './shape-problems.ts';
import { isGiven, readSection, soundPart } from './sound-part.ts';
import { readStock, stockLimit } from './stock.ts';
import { supplyLimits } from './supply-limit.ts';
import { impossibleTemperatures } from './temperatures.ts';
import { readTolerances, statisticsOf } from './tolerance.ts';
import { readVary } from './vary.ts';
import { readYaml } from './yaml-text.ts';

/** More problems than this help nobody. */
const MAX_PROBLEMS = 50;

export interface ReadOptions {
  /** Take a grid of more than 50 million designs. */
  readonly allowHuge?: boolean;
}

export interface ReadStudy {
  readonly study: Study;
  /** What is no mistake in itself and hardly meant. */
  readonly warnings: readonly Problem[];
  /** Where the file gives an input (`coil.turns`), for problems that only the rig can find. */
  locate(inputPath: string): Span;
  /** Where the file has a limit or an objective, or a name in it. */
  locateExpression(kind: 'limits' | 'objectives', index: number, name: string | null): Span;
}

export type StudyResult = ReadStudy | { readonly problems: readonly Problem[] };

/** Reads a study file: a frozen study, or everything that is wrong with it, in the order of the file. */
export function readStudy(source: Uint8Array | string, options: ReadOptions = {}): StudyResult {
  const yaml = readYaml(source);
  if ('problems' in yaml) return yaml;
  const { text, document } = yaml;
  const positions = createPositions(text, document);
  const raw = document.toJS() as Record<string, unknown>;

  const whole = STUDY.safeParse(raw);
  const problems: Problem[] = whole.success ? [] : shapeProblems(whole.error, raw, positions);
  // what is wrong with the shape of one part keeps no other part from being checked
  const { raw: sound, given } = whole.success ? { raw, given: [] } : soundPart(raw);
  const section = <Name extends keyof typeof SECTIONS>(name: Name) => readSection(sound, name);
  const isWrong = (name: string) => given.some(([first]) => first === name);

  const rig = section('rig');
  const drive = section('drive');
  const shapesRight = problems.length === 0;
  const fitted = readRig(sound, positions);
  problems.push(...fitted.problems);

  const planShape = section('plan');
  // what a plan that cannot be read would need is not known
  const open = planOf(planShape).kind !== 'grid' || isWrong('plan');
  const varyShape = section('vary') ?? {};
  const vary = readVary(inFileOrder(varyShape, sound.vary ?? {}), fitted.template, positions, open);
  problems.push(...vary.problems);
  const { keys } = vary;
  const stock = readStock(raw.stock, rig, fitted.template, vary.varied, positions);
  problems.push(...stock.problems);
  const { varied } = stock;
  const isEmpty = raw.vary !== undefined && Object.keys(varyShape).length === 0 && stock.taken === 0;
  if (isEmpty && !isWrong('vary')) problems.push(nothingVaries(positions));

  problems.push(...fittedAndVaried(fitted.fitted, varied, positions));

  const template = withoutVaried(stock.template, varied);
  const values = valuesOf(template, varied);
  const unread: readonly Path[] = [...given, ...[...keys.values()].map((key) => ['vary', key])];
  // of a stock that could not be read it is not known what it gives
  const isKnown = (path: string) => stock.problems.length > 0 || isGiven(path, unread);
  // of a rig that is no mapping at all it is not known what it leaves out
  const missing = [
    ...missingParts(template, values, positions, isKnown),
    ...(isGiven('drive.current', given) ? [] : driveProblems(drive === SUPPLY_LIMIT, values, positions)),
  ];
  problems.push(...missing);
  const complete = shapesRight && [...vary.problems, ...stock.problems].length === 0;
  if (complete && missing.length === 0) {
    problems.push(
      ...missingEnamel(values, locate('coil.insulation.grade', keys, positions)),
      ...impossibleTemperatures(template, values, (path) => locate(path, keys, positions)),
    );
  }

  const allowed = inFileOrder(section('tolerance') ?? {}, sound.tolerance ?? {});
  const tolerances = readTolerances(allowed, complete ? values : null, positions);
  problems.push(...tolerances.problems);
  const statistics = tolerances.tolerance.length > 0 ? statisticsOf(namingTexts(raw)) : [];

  const currency = stock.facts?.currency ?? null;
  const expressions = createExpressions(positions, complete ? values : null, statistics, currency);
  const { limits, objectives, keep } = readExpressions(sound, expressions);
  problems.push(...expressions.problems);
  const written = section('objectives')?.length ?? 0;
  if (vary.problems.length === 0 && !isWrong('plan') && !isWrong('vary') && !isWrong('objectives')) {
    problems.push(...planProblems(planShape, varied, written, positions, options.allowHuge === true));
  }

  const title = cleanLine(section('study') ?? '');
  if (section('study') !== undefined && title === '') problems.push(emptyTitle(positions));
  if (problems.length > 0) return { problems: inOrder(problems) };

  const assumed = assumedMetals(rig, varyShape);
  const requested = requestedBy({ derive: expressions.derived, limits, objectives, keep: keep ?? null });
  const facts: Omit<Study, 'hash'> = {
    title,
    notes: cleanText(section('notes') ?? ''),
    rig: template,
    vary: varied,
    derive: expressions.derived,
    limits: [...limits, ...supplyLimits(drive === SUPPLY_LIMIT, values), ...stockLimit(stock.facts)],
    objectives,
    plan: planOf(planShape),
    ...(tolerances.tolerance.length > 0 && { tolerance: tolerances.tolerance }),
    ...(fitted.fitted && { fitted: fitted.fitted }),
    ...(stock.facts && { stock: stock.facts }),
    ...(assumed.length > 0 && { assumed }),
    keep: keep ?? null,
    ...(requested.length > 0 && { requested }),
    text,
  };
  let hash: string | null = null;
  const study: Study = Object.freeze({
    ...deepFreeze(facts),
    // most commands never ask, and Node's cryptography takes 4 ms to load
    get hash() {
      hash ??= createHash('sha256').update(text).digest('hex');
      return hash;
    },
  });
  return {
    study,
    warnings: oddSizes(raw, positions),
    locate: (inputPath) => locate(inputPath, keys, positions),
    locateExpression: (kind, index, name) =>
      locateName({ sense: null, ...study[kind][index]! }, [kind, index], name, positions),
  };
}

/** The rig with its drive, and with what was fitted to measurements. */
function readRig(sound: Readonly<Record<string, unknown>>, positions: Positions) {
  const filled = fillRig(readSection(sound, 'rig'), readSection(sound, 'drive'), positions);
  const calibrated = readSection(sound, 'calibrated');
  const inOrder = typeof calibrated === 'object' ? inFileOrder(calibrated, sound.calibrated) : calibrated;
  const fitted = fillFitted(filled.template, inOrder, positions);
  return { ...fitted, problems: [...filled.problems, ...fitted.problems] };
}

/** In the order in which they may name each other. */
function readExpressions(
  sound: Readonly<Record<string, unknown>>,
  expressions: ReturnType<typeof createExpressions>,
) {
  expressions.derive(readSection(sound, 'derive') ?? {});
  const limits = expressions.limits(readSection(sound, 'limits') ?? []);
  const objectives = expressions.objectives(readSection(sound, 'objectives') ?? []);
  const keep = readSection(sound, 'keep');
  if (keep) expressions.keep(keep);
  return { limits, objectives, keep };
}

function nothingVaries(positions: Positions): Problem {
  return {
    code: 'nothing-varies',
    found: 'nothing that varies',
    wanted: 'at least one path, such as coil.turns; or no `vary` at all: one design',
    ...positions.value(['vary']),
  };
}

function emptyTitle(positions: Positions): Problem {
  return {
    code: 'empty-title',
    found: 'an empty title',
    wanted: 'the title of the study',
    ...positions.value(['study']),
  };
}

/** Where a name stands in a limit or an objective; all of it where it does not, or is null. */
function locateName(
  { text, sense }: { readonly text: string; readonly sense: string | null },
  path: Path,
  name: string | null,
  positions: Positions,
): Span {
  const whole = sense === null ? path : [...path, sense];
  const at = name === null ? -1 : text.indexOf(name);
  return at < 0 ? positions.value(whole) : positions.value(whole, at, name!.length);
}

/** What may name a quantity whose quantiles are wanted. */
function namingTexts({ derive, limits, objectives, keep }: Record<string, unknown>): string[] {
  return [derive, limits, objectives, keep].map((part) => JSON.stringify(part) ?? '');
}

/** A shape lists its keys in its own order; in `vary`, `tolerance` and `calibrated` the order is the user's. */
function inFileOrder<T>(shape: Readonly<Record<string, T>>, raw: unknown): Record<string, T> {
  return Object.fromEntries(Object.keys(raw as object).map((key) => [key, shape[key]!]));
}

/** The key of the file that varies an input, or the place in the rig that gives it. */
function locate(inputPath: string, keys: ReadonlyMap<string, string>, positions: Positions): Span {
  for (const [path, key] of keys) {
    if (path === inputPath || inputPath.startsWith(`${path}.`) || path.startsWith(`${inputPath}.`)) {
      return positions.key(['vary', key]);
    }
  }
  const places = placesOf(inputPath);
  return positions.value(places.find((path) => positions.source(path) !== null) ?? places[0]!);
}

/** In the order of the file, each once, and no more than people read. */
function inOrder(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Set<string>();
  const sorted = problems
    .filter(({ offset, code, found }) => {
      const key = `${offset} ${code} ${found}`;
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => a.offset - b.offset);
  const next = sorted[MAX_PROBLEMS];
  if (next === undefined) return sorted;
  const more = `${sorted.length - MAX_PROBLEMS} more problems from here on`;
  return [
    ...sorted.slice(0, MAX_PROBLEMS),
    { ...next, code: 'more', found: more, wanted: 'the first ones mended' },
  ];
}

function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !ArrayBuffer.isView(value) && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const inner of Object.values(value)) deepFreeze(inner);
  }
  return value;
}
