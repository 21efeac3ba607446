import { type Standing, standings } from '../measured/residuals.ts';
import type { MeasuredDrive, Residual } from '../model/measured.ts';
import { toUnit, UNITS } from '../model/units.ts';
import { buildComparison } from '../report/build-comparison.ts';
import type { CardTable } from '../report/card-input.ts';
import type { ComparedQuantity } from '../report/comparison-input.ts';
import {
  describeUnanswered,
  differenceUnit,
  fittedRows,
  standingColumns,
  standingWords,
  trustWords,
} from './compare-topics.ts';
import type { Comparison } from './comparison.ts';

/** A comparison as a page that can be kept and printed. */
export function compareHtml(comparison: Comparison, version: string): Promise<string> {
  const { study, design, measured, residuals, calibration } = comparison;
  const all = standings(residuals);
  const unanswered = residuals.filter(({ model }) => Number.isNaN(model));
  return buildComparison({
    study,
    design,
    measured,
    words: all.map(standingWords),
    quantities: all
      // of one point the words show all
      .filter((standing) => standing.residuals.length > 1)
      .map((standing) => compared(standing, residuals, calibration?.residuals ?? null)),
    standing: table('Measured minus model', all),
    fit: calibration && {
      inputs: {
        heading: 'Fitted to these points',
        rows: fittedRows(calibration.fitted).map((row) => row.map((cell) => cell.replace(/^before: /, ''))),
      },
      trust: trustWords(calibration),
      standing: table('Measured minus the fitted model', standings(calibration.residuals)),
    },
    unanswered: unanswered.length === 0 ? '' : describeUnanswered(unanswered),
    version,
  });
}

function table(heading: string, all: readonly Standing[]): CardTable {
  // every column of a page has a name, for those who hear it read
  const columns = standingColumns(all).map(({ label, unit, cells }) => ({
    label: label || unit || 'quantity',
    unit: '',
    cells,
  }));
  return { heading, columns };
}

/** The readings of one quantity over what they were driven with; over their lines where that is not one thing. */
function compared(
  { quantity, residuals }: Standing,
  all: readonly Residual[],
  fitted: readonly Residual[] | null,
): ComparedQuantity {
  const { label, unit } = quantity;
  const kinds = new Set(residuals.map(({ point }) => point.drive.kind));
  const [kind] = kinds;
  const isDriven = kinds.size === 1 && kind !== 'own';
  const points = residuals.map((residual) => {
    const { point, reading, model, sigma } = residual;
    // both lists hold every reading, in the same order
    const after = fitted?.[all.indexOf(residual)]?.model ?? Number.NaN;
    return {
      at: isDriven ? driveValue(point.drive) : point.line,
      measured: toUnit(reading.value, unit),
      uncertainty: Number.isNaN(reading.uncertainty) ? Number.NaN : sigma * unit.scale,
      model: toUnit(model, unit),
      fitted: toUnit(after, unit),
    };
  });
  return {
    label,
    unit,
    differenceUnit: differenceUnit(unit) === unit.symbol ? unit : UNITS.K,
    across: isDriven ? ACROSS[kind as Exclude<MeasuredDrive['kind'], 'own'>] : 'line of the file',
    isCurve: isDriven && residuals.every(({ point }) => point.settings.length === 0),
    points: points.sort((a, b) => a.at - b.at),
  };
}

const ACROSS = {
  current: 'current (A rms)',
  'terminal voltage': 'voltage at the coil (V rms)',
  'outlet voltage': 'voltage at the outlet (V rms)',
} as const;

function driveValue(drive: MeasuredDrive): number {
  return drive.kind === 'own' ? 0 : drive.value;
}
