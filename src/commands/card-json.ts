import { CAUTIONS_REMINDER } from '../model/cautions.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { Varied } from '../model/study.ts';
import { inputToUnit, toUnit } from '../model/units.ts';
import type { DrivenPoint } from '../rig/lift-curve.ts';
import type { BenchCard } from './bench-card.ts';

/**
 * A card for machines. Quantities go by their column names, with the unit in the name; null is an empty cell, `INF` an
 * infinite time; lengths of the windings are in metres, masses in kilograms.
 */
export function cardJson(card: BenchCard): unknown {
  const { study, design, values, status, reason, rig, point, curve, end, windings, limits, cautions } = card;
  return {
    study: study.title,
    hash: study.hash,
    design,
    status,
    reason,
    inputs: Object.fromEntries(study.vary.map((varied, i) => [varied.column, inputOf(varied, values[i]!)])),
    rig: Object.fromEntries(rig),
    quantities: quantitiesOf(point),
    curve_end: end,
    curve: curve.map(quantitiesOf),
    windings: windings.map((winding) =>
      Object.fromEntries(Object.entries(winding).map(([key, value]) => [key, cell(value)])),
    ),
    limits: limits.map(({ text, met, value, margin }) => ({ text, met, value, margin: cell(margin) })),
    cautions: cautions.map(({ id, rule, value, threshold, unit, advice, source }) => ({
      id,
      rule,
      value: cell(toUnit(value, unit)),
      threshold: cell(toUnit(threshold, unit)),
      unit: unit.symbol,
      advice,
      source,
    })),
    reminder: CAUTIONS_REMINDER,
  };
}

function inputOf(varied: Varied, value: number): string | number | null {
  return varied.kind === 'choice' ? varied.levels[value]!.label : cell(inputToUnit(value, varied.unit));
}

function quantitiesOf({ results }: DrivenPoint): Record<string, string | number | null> {
  return Object.fromEntries(
    QUANTITIES.map(({ column, index, unit, words }) => {
      const si = results[index]!;
      return [column, words.length > 0 ? (words[si] ?? null) : cell(toUnit(si, unit))];
    }),
  );
}

/** JSON knows neither NaN nor infinity. */
function cell(value: number): string | number | null {
  if (Number.isNaN(value)) return null;
  return Number.isFinite(value) ? value : value > 0 ? 'INF' : '-INF';
}
