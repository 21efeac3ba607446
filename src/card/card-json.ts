import type { DocumentBody } from '../documents/document-shapes.ts';
import { jsonCell } from '../documents/json-cell.ts';
import { CAUTIONS_REMINDER, raisedOf, unjudgedOf } from '../model/cautions/judge.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Tolerance, Varied } from '../model/study.ts';
import { inputToUnit, toUnit } from '../model/units.ts';
import type { DrivenPoint } from '../rig/lift-curve.ts';
import { type Sensitivity, sensitivityOf } from '../rig/sensitivities.ts';
import { varianceSharesOf } from '../rig/spread-profile.ts';
import type { DescribedSpread } from '../words/describe-spread.ts';
import type { DescribedSensitivities } from '../words/sensitivity-words.ts';
import type { BenchCard, CardChange } from './bench-card.ts';

/**
 * A card for machines. Quantities go by their column names, with the unit in the name; null is an empty cell, `INF` an
 * infinite time; lengths of the windings are in metres, masses in kilograms.
 */
export function cardJson(card: BenchCard): DocumentBody<'card'> {
  const {
    study,
    design,
    values,
    status,
    reason,
    rig,
    point,
    curve,
    end,
    windings,
    limits,
    resting,
    spread,
    sensitivities,
    cautions,
  } = card;
  return {
    study: study.title,
    hash: study.hash,
    design,
    ...(card.change && { changed: changedOf(card.change) }),
    status,
    reason,
    inputs: Object.fromEntries(study.vary.map((varied, i) => [varied.column, inputOf(varied, values[i]!)])),
    rig: Object.fromEntries(rig),
    quantities: quantitiesOf(point),
    curve_end: end,
    curve: curve.map(quantitiesOf),
    windings: windings.map((winding) =>
      Object.fromEntries(Object.entries(winding).map(([key, value]) => [key, jsonCell(value)])),
    ),
    resting: resting && { why: resting.why, remedies: [...resting.remedies] },
    limits: limits.map(({ text, met, value, margin }) => ({ text, met, value, margin: jsonCell(margin) })),
    spread: spread && spreadOf(spread, study.tolerance ?? []),
    sensitivities: sensitivities && sensitivitiesOf(sensitivities),
    cautions: raisedOf(cautions).map(({ rule, value, threshold, atLeast, figures }) => ({
      id: rule.id,
      hazard: rule.hazard,
      rule: rule.rule,
      value: jsonCell(toUnit(value, rule.unit)),
      at_least: atLeast,
      threshold: jsonCell(toUnit(threshold, rule.unit)),
      unit: rule.unit.symbol,
      figures: figures.map((each) => ({
        value: jsonCell(toUnit(each.value, each.unit)),
        unit: each.unit.symbol,
      })),
      advice: rule.advice,
      source: rule.source,
    })),
    not_judged: unjudgedOf(cautions),
    reminder: CAUTIONS_REMINDER,
  };
}

/** What was changed, as written, and the quantities before that. */
function changedOf({ before, changes }: CardChange) {
  return {
    inputs: [...changes],
    status_before: before.status,
    quantities_before: quantitiesOf(before.point),
  };
}

/** Probabilities from 0 to 1; of each quantity its quantiles and the share of its variance that each tolerance makes. */
function spreadOf({ watched, profile }: DescribedSpread, tolerance: readonly Tolerance[]) {
  return {
    rigs: profile.rigs,
    probability_lifts: profile.probabilityLifts,
    probability_limits: jsonCell(profile.probabilityLimits),
    quantities: Object.fromEntries(
      watched.map(({ column, unit }, i) => {
        const spread = profile.quantities[i]!;
        const shares = varianceSharesOf(spread);
        return [
          column,
          {
            drawn: jsonCell(toUnit(spread.own, unit)),
            p05: jsonCell(toUnit(spread.p05, unit)),
            median: jsonCell(toUnit(spread.median, unit)),
            p95: jsonCell(toUnit(spread.p95, unit)),
            explained_by_slopes: jsonCell(spread.explained),
            variance_shares: shares && Object.fromEntries(tolerance.map(({ path }, t) => [path, shares[t]!])),
          },
        ];
      }),
    ),
  };
}

/**
 * Of each quantity what one per cent more of an input changes (`per_percent`), one kelvin more of a temperature (`per_K`),
 * or what became of it a step up and down where the two do not agree.
 */
function sensitivitiesOf({ watched, numbers }: DescribedSensitivities) {
  return Object.fromEntries(
    watched.map(({ column, unit }, q) => {
      const changes = numbers.moved.flatMap(({ path, perCent }, m) => {
        const found = sensitivityOf(numbers, q, m);
        return found === null ? [] : [[path, changeOf(found, perCent, unit.scale)]];
      });
      return [column, Object.fromEntries(changes)];
    }),
  );
}

function changeOf(found: Sensitivity, perCent: boolean, scale: number) {
  if (found.kind === 'step') return { up: jsonCell(found.up * scale), down: jsonCell(found.down * scale) };
  const more = jsonCell(found.more * scale);
  return perCent ? { per_percent: more } : { per_K: more };
}

function inputOf(varied: Varied, value: number): string | number | null {
  return varied.kind === 'choice' ? varied.levels[value]!.label : jsonCell(inputToUnit(value, varied.unit));
}

function quantitiesOf({ results }: DrivenPoint): Record<string, string | number | null> {
  return Object.fromEntries(
    QUANTITIES.map(({ column, index, unit, words }) => {
      const si = results[index]!;
      return [column, words.length > 0 ? (words[si] ?? null) : jsonCell(toUnit(si, unit))];
    }),
  );
}
