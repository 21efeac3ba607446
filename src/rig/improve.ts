import type { Limit } from '../model/program.ts';
import { quantityColumns } from '../model/quantities.ts';
import { isEvaluated, STATUS } from '../model/status.ts';
import type { Choice, Study } from '../model/study.ts';
import { createJudge } from './judge.ts';
import { createLaws } from './laws.ts';
import { type Lever, leversOf, roundedTo } from './levers.ts';

/** One input of a rig at another value. */
export interface ChangedLever {
  readonly path: string;
  /** Null for a choice. */
  readonly slot: number | null;
  readonly to: number | Choice;
  /** How far it went: the logarithm of the ratio; for a choice a fixed step. */
  readonly distance: number;
}

/** A rig with one input changed, or two. */
export interface Improvement {
  readonly changes: readonly ChangedLever[];
  readonly status: number;
  readonly reason: number;
  /** A value a quantity, SI. */
  readonly results: Float64Array;
  /** Which of the study's limits it breaks. */
  readonly broken: readonly number[];
}

export interface Improvements {
  /** The rig as it is. */
  readonly now: Improvement;
  /** Whether it meets the aim as it is; then there is nothing to change. */
  readonly met: boolean;
  /** One change each that reaches the aim, the best first. */
  readonly single: readonly Improvement[];
  /** The best of two changes together; null where none was found, or none was sought. */
  readonly pair: Improvement | null;
}

/** What another metal or another reel counts for beside a change of a number: as much as half as much again. */
const CHOICE_DISTANCE = Math.log(1.5);
/** Halvings of the last step: to 0.3 % of a value. */
const HALVINGS = 6;
/** Levers that are tried in pairs. */
const PAIRED = 4;

/**
 * What would make a rig reach an aim: each lever alone, as far as needed, and the best two together, one of them half of
 * its way. Better is what breaks fewer limits of the study, then what changes less (in ratio).
 * @param aim null: it lifts
 * @param slots the rig's inputs, SI, with their defaults (`createDesignReader`); left as they are
 */
export function improve(
  study: Study,
  slots: Float64Array,
  aim: Limit | null,
  inPairs: boolean,
): Improvements {
  const limits = aim ? [aim, ...study.limits] : study.limits;
  const task = { ...study, limits };
  const laws = createLaws(study.rig.plateLayers, study.rig.windings, study.requested);
  const columns = quantityColumns(study.requested);
  const { named, judge } = createJudge(task);
  const changed = slots.slice();

  const evaluate = (changes: readonly ChangedLever[]): Improvement & { readonly reaches: boolean } => {
    changed.set(slots);
    for (const { slot, to } of changes) {
      if (typeof to === 'number') changed[slot!] = to;
      else for (const [at, value] of to.settings) changed[at] = value;
    }
    laws.evaluate(changed);
    const results = laws.results.slice();
    const rows = {
      first: 0,
      count: 1,
      status: Uint8Array.of(laws.status),
      quantities: results.slice(0, columns),
    };
    const inputs = new Map(named.map((slot) => [slot, Float64Array.of(changed[slot]!)]));
    const judged = judge(rows, inputs, new Float64Array(study.derive.length).fill(Number.NaN));
    const unmet = judged.unmet[0]!;
    const answered = isEvaluated(laws.status);
    const bits = limits.flatMap((_, i) => (((unmet >>> Math.min(i, 31)) & 1) === 1 ? [i] : []));
    const isMet = aim ? !bits.includes(0) : laws.status === STATUS.lifts;
    const broken = aim ? bits.filter((i) => i > 0).map((i) => i - 1) : bits;
    return { changes, status: laws.status, reason: laws.reason, results, broken, reaches: answered && isMet };
  };

  /** The nearest value of a lever that reaches the aim, beside other changes; null where none does. */
  const asFarAsNeeded = (lever: Lever, beside: readonly ChangedLever[]): Improvement | null => {
    if (lever.kind === 'choice') {
      const found = lever.levels
        .map((to) => evaluate([...beside, { path: lever.path, slot: null, to, distance: CHOICE_DISTANCE }]))
        .filter((each) => each.reaches && differs(each, slots));
      return found.sort(byMerit)[0] ?? null;
    }
    const change = (to: number): ChangedLever => {
      const distance = Math.abs(Math.log(to / slots[lever.slot]!));
      return { path: lever.path, slot: lever.slot, to, distance };
    };
    let before = slots[lever.slot]!;
    for (const value of lever.values) {
      let found = evaluate([...beside, change(value)]);
      if (!found.reaches) {
        before = value;
        continue;
      }
      if (!lever.between) return found;
      let [near, far] = [before, value];
      for (let i = 0; i < HALVINGS; i++) {
        const middle = roundedTo(lever.slot, Math.sqrt(near * far));
        if (middle === near || middle === far) break;
        const tried = evaluate([...beside, change(middle)]);
        if (tried.reaches) {
          far = middle;
          found = tried;
        } else near = middle;
      }
      return found;
    }
    return null;
  };

  const now = evaluate([]);
  if (now.reaches) return { now, met: true, single: [], pair: null };
  const levers = leversOf(study, slots);
  const alone = levers.flatMap((lever) => {
    const found = asFarAsNeeded(lever, []);
    return found ? [{ lever, found }] : [];
  });
  alone.sort((a, b) => byMerit(a.found, b.found));
  const single = onePerPath(alone.map(({ found }) => found));
  if (!inPairs) return { now, met: false, single, pair: null };

  // half of the way of one, or all of what it can do where that alone was not enough; then another as far as needed
  const reached = new Set(alone.map(({ lever }) => lever));
  const halves = [
    ...alone.slice(0, PAIRED).flatMap(({ lever, found }) => halfOf(lever, found.changes[0]!, slots)),
    ...levers.filter((lever) => !reached.has(lever)).flatMap((lever) => allOf(lever, slots)),
  ].slice(0, 2 * PAIRED);
  const others = alone.length > 0 ? alone.slice(0, PAIRED).map(({ lever }) => lever) : levers;
  const pairs = halves.flatMap((half) =>
    others
      .filter(({ path }) => path !== half.path)
      .flatMap((lever) => {
        const found = asFarAsNeeded(lever, [half]);
        const byItself = alone.find((one) => one.lever === lever)?.found.changes[0]?.to;
        // where the other change is as large as alone, this one has done nothing
        return found === null || found.changes.at(-1)!.to === byItself ? [] : [found];
      }),
  );
  return { now, met: false, single, pair: pairs.sort(byMerit)[0] ?? null };
}

function byMerit(a: Improvement, b: Improvement): number {
  return a.broken.length - b.broken.length || distanceOf(a) - distanceOf(b);
}

function distanceOf({ changes }: Improvement): number {
  return Math.hypot(...changes.map(({ distance }) => distance));
}

/** A level that is the rig's own is no change. */
function differs({ changes }: Improvement, slots: Float64Array): boolean {
  return changes.every(
    ({ to }) => typeof to === 'number' || to.settings.some(([slot, value]) => !Object.is(slots[slot], value)),
  );
}

/** Up or down, whichever is better. */
function onePerPath(sorted: readonly Improvement[]): Improvement[] {
  return sorted.filter(
    (each, i) => sorted.findIndex((other) => other.changes[0]!.path === each.changes[0]!.path) === i,
  );
}

function halfOf(lever: Lever, { path, slot, to }: ChangedLever, slots: Float64Array): ChangedLever[] {
  if (typeof to !== 'number' || slot === null || lever.kind === 'choice') return [];
  const middle = Math.sqrt(to * slots[slot]!);
  const half = lever.between ? roundedTo(slot, middle) : nearestTo(middle, lever.values);
  if (half === to || half === slots[slot]) return [];
  return [{ path, slot, to: half, distance: Math.abs(Math.log(half / slots[slot]!)) }];
}

/** Of sizes that exist, in ratio. */
function nearestTo(value: number, sizes: readonly number[]): number {
  const off = (size: number) => Math.abs(Math.log(size / value));
  return sizes.reduce((best, size) => (off(size) < off(best) ? size : best));
}

function allOf(lever: Lever, slots: Float64Array): ChangedLever[] {
  if (lever.kind === 'choice') {
    return lever.levels
      .filter((to) => to.settings.some(([slot, value]) => !Object.is(slots[slot], value)))
      .map((to) => ({ path: lever.path, slot: null, to, distance: CHOICE_DISTANCE }));
  }
  const to = lever.values[Math.floor(lever.values.length / 2)]!;
  return [{ path: lever.path, slot: lever.slot, to, distance: Math.abs(Math.log(to / slots[lever.slot]!)) }];
}
