import type { DesignSensitivities } from '../report/report-input.ts';
import { sensitivityOf } from '../rig/sensitivities.ts';
import {
  changeCell,
  type DescribedSensitivities,
  leadingInputs,
  movedName,
  movedValue,
  SENSITIVITY_NOTE,
} from '../words/sensitivity-words.ts';

/** Sensitivities as a report shows them. */
export function designSensitivities(described: DescribedSensitivities | null): DesignSensitivities | null {
  if (described === null) return null;
  const { watched, numbers, rows } = described;
  const inputs = leadingInputs(numbers).map((m) => {
    const input = numbers.moved[m]!;
    const changes = watched.map(({ unit }, q) => {
      const found = sensitivityOf(numbers, q, m);
      const isSlope = found?.kind === 'slope' && input.perCent;
      return { text: changeCell(found, unit), more: isSlope ? found.more * unit.scale : Number.NaN };
    });
    return { name: movedName(input), value: movedValue(input), changes };
  });
  return { rows, inputs, note: SENSITIVITY_NOTE };
}
