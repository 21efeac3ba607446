import { frontQuality } from '../front/front-quality.ts';
import { kneeRow } from '../front/landmarks.ts';
import { column, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { toUnit } from '../model/units.ts';
import type { SearchOutcome } from '../plan/plan.ts';
import type { FrontRecord, SearchRecord } from '../store/run-record.ts';

/** What the run record holds of a search. */
export function searchRecord(outcome: SearchOutcome | null): SearchRecord | null {
  if (outcome?.kind !== 'nelder_mead') return outcome;
  const ends: Record<string, number> = {};
  for (const { end } of outcome.starts) ends[end] = (ends[end] ?? 0) + 1;
  return { kind: 'nelder_mead', starts: outcome.starts.length, ends };
}

/** Of a study that descends, the id of the first row of each start. */
export function startRowsOf(outcome: SearchOutcome | null): Float64Array | null {
  return outcome?.kind === 'nelder_mead' ? Float64Array.from(outcome.starts, ({ from }) => from.id) : null;
}

/** What the run record holds of the front; null where it has no design. */
export function frontRecord({ objectives }: Pick<Study, 'objectives'>, front: TableRows): FrontRecord | null {
  if (front.count === 0 || objectives.length === 0) return null;
  const senses = objectives.map(({ sense }) => sense);
  const columns = objectives.map((_, i) => column(front, front.objectives, i));
  const { hypervolume, best, reference, unevenness } = frontQuality(columns, senses);
  const inUnits = (values: readonly number[]) => values.map((si, i) => toUnit(si, objectives[i]!.unit));
  const knee = front.designs[kneeRow(columns, senses)]!;
  return { hypervolume, best: inUnits(best), reference: inUnits(reference), spread: unevenness, knee };
}
