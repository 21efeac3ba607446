import type { Unit } from '../units.ts';
import { type CautionRule, HAZARDS, type Hazard, SET } from './caution-rule.ts';
import type { CautionValue, CautionValueName, CautionValues } from './caution-values.ts';
import { COMPUTED_RULES } from './computed.ts';
import { FIELD_RULES } from './field.ts';
import { FIRE_RULES } from './fire.ts';
import { MOTION_RULES, NOISE_RULES } from './motion.ts';
import { SHOCK_RULES } from './shock.ts';

/** The registry of cautions, the worst hazard first. */
export const CAUTION_RULES: readonly CautionRule[] = Object.freeze([
  ...SHOCK_RULES,
  ...FIRE_RULES,
  ...MOTION_RULES,
  ...FIELD_RULES,
  ...NOISE_RULES,
  ...COMPUTED_RULES,
]);

export type Verdict = 'raised' | 'clear' | 'not judged';

/** The judgement of one rule on a design. */
export interface Judgement {
  readonly rule: CautionRule;
  readonly verdict: Verdict;
  /** SI; NaN where not judged or not looked at. */
  readonly value: number;
  readonly threshold: number;
  /** True where the value is only known to be at least this. */
  readonly atLeast: boolean;
  /** Other numbers that go with it, SI, where raised. */
  readonly figures: readonly { readonly value: number; readonly unit: Unit; readonly phrase: string }[];
  /** Where not judged, why: it ends the sentence `not judged: ...`. */
  readonly missing: string;
}

/** Closes every list of cautions, also an empty one. */
export const CAUTIONS_REMINDER =
  'These cautions are reminders, not clearance: local codes and a licensed electrician decide what may be built and switched on.';

/** The judgement of each rule on a design, in the order of the registry. Cautions never block a calculation. */
export function judge(values: CautionValues): Judgement[] {
  return CAUTION_RULES.map((rule) => judgeOne(rule, values));
}

/** Of a design without an answer nothing can be judged. */
export function judgeNothing(missing: string): Judgement[] {
  return CAUTION_RULES.map((rule) => notJudged(rule, missing));
}

/** What is to be shown as raised: what a graver caution implies is left out. */
export function raisedOf(judgements: readonly Judgement[]): Judgement[] {
  const raised = judgements.filter(({ verdict }) => verdict === 'raised');
  return raised.filter(({ rule }) => !implied(rule, raised));
}

/** What could not be judged, by the reason why, in the order of the registry. */
export function unjudgedOf(judgements: readonly Judgement[]): { missing: string; topics: string[] }[] {
  const [first] = judgements;
  const isNothingJudged = judgements.every(({ missing }) => missing !== '' && missing === first!.missing);
  if (first !== undefined && isNothingJudged) return [{ missing: first.missing, topics: ['all cautions'] }];
  const raised = judgements.filter(({ verdict }) => verdict === 'raised');
  const byReason = new Map<string, Set<string>>();
  for (const { rule, verdict, missing } of judgements) {
    if (verdict !== 'not judged' || implied(rule, raised)) continue;
    byReason.set(missing, new Set([...(byReason.get(missing) ?? []), rule.topic]));
  }
  return [...byReason].map(([missing, topics]) => ({ missing, topics: [...topics] }));
}

/** Judgements by hazard, the worst first; hazards without any are left out. */
export function byHazard<T extends { readonly rule: CautionRule }>(
  judgements: readonly T[],
): { hazard: Hazard; label: string; judgements: T[] }[] {
  return (Object.keys(HAZARDS) as Hazard[]).flatMap((hazard) => {
    const own = judgements.filter(({ rule }) => rule.hazard === hazard);
    return own.length === 0 ? [] : [{ hazard, label: HAZARDS[hazard], judgements: own }];
  });
}

function implied({ impliedBy }: CautionRule, raised: readonly Judgement[]): boolean {
  return impliedBy !== undefined && raised.some(({ rule }) => rule.id === impliedBy);
}

function judgeOne(rule: CautionRule, values: CautionValues): Judgement {
  const gate: CautionValue = rule.only === undefined ? 1 : values[rule.only];
  if (typeof gate !== 'number') return notJudged(rule, gate.missing);
  const threshold = typeof rule.threshold === 'number' ? rule.threshold : values[rule.threshold];
  if (!(gate > SET)) return { ...clear(rule), value: Number.NaN };
  if (typeof threshold !== 'number') return notJudged(rule, threshold.missing);
  const value = values[rule.value];
  if (typeof value === 'number') {
    const isRaised = rule.raisedWhen === 'above' ? value > threshold : value < threshold;
    if (!isRaised) return { ...clear(rule), value, threshold };
    return raised(rule, values, value, threshold, false);
  }
  if (rule.raisedWhen === 'above' && value.atLeast > threshold) {
    return raised(rule, values, value.atLeast, threshold, true);
  }
  return notJudged(rule, value.missing);
}

function raised(
  rule: CautionRule,
  values: CautionValues,
  value: number,
  threshold: number,
  atLeast: boolean,
): Judgement {
  const figures = (rule.figures ?? []).flatMap(({ value: name, unit, phrase }) => {
    const number = numberOf(values, name);
    return Number.isNaN(number) ? [] : [{ value: number, unit, phrase }];
  });
  return { rule, verdict: 'raised', value, threshold, atLeast, figures, missing: '' };
}

function numberOf(values: CautionValues, name: CautionValueName): number {
  const value = values[name];
  return typeof value === 'number' ? value : Number.NaN;
}

function clear(rule: CautionRule): Judgement {
  const unknown = { value: Number.NaN, threshold: Number.NaN };
  return { rule, verdict: 'clear', ...unknown, atLeast: false, figures: [], missing: '' };
}

function notJudged(rule: CautionRule, missing: string): Judgement {
  return { ...clear(rule), verdict: 'not judged', missing };
}
