import type { FieldGrid, FieldPhasors } from '../kernel/field-grid.ts';
import { Q } from '../model/quantities.ts';
import { createLaws } from '../rig/laws.ts';
import type { LiveStudy } from './live-data.ts';

/** What is wanted of a state's field. */
export interface FieldRequest {
  /** Inputs with their defaults. */
  readonly slots: Float64Array;
  readonly grid: FieldGrid;
}

/** Field and currents at the operating point; null where there is none. */
export function createFieldComputer({ rig }: LiveStudy): (request: FieldRequest) => FieldPhasors | null {
  const laws = createLaws(rig.plateLayers, rig.windings);
  return ({ slots, grid }) => {
    laws.evaluateToHeat(slots);
    const current = laws.results[Q.current]!;
    const gap = laws.results[Q.gap]!;
    return current > 0 && gap > 0 ? laws.field(gap, current, grid) : null;
  };
}
