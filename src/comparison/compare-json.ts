import type { DocumentBody } from '../documents/document-shapes.ts';
import { difference, standings } from '../measured/residuals.ts';
import type { Residual } from '../model/measured.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { toUnit } from '../model/units.ts';
import type { Comparison } from './comparison.ts';

/** A comparison for machines: quantities in the units of their column names; null where there is no answer. */
export function compareJson({
  study,
  design,
  measured,
  residuals,
  calibration,
  patch,
}: Comparison): DocumentBody<'compare'> {
  return {
    study: study.title,
    hash: study.hash,
    design,
    measured,
    ...summary(residuals),
    calibration: calibration && {
      inputs: calibration.fitted.map(({ free, value, error, atBound }) => ({
        path: free.path,
        unit: free.unit.symbol,
        before: toUnit(free.start, free.unit),
        value: toUnit(value, free.unit),
        standard_error: cell(error * free.unit.scale),
        at_bound: atBound,
      })),
      chi_square: calibration.chiSquare,
      degrees_of_freedom: calibration.freedom,
      uncertainties_stated: calibration.stated,
      converged: calibration.converged,
      hard_to_tell_apart: calibration.alike.map(([a, b, correlation]) => ({ a, b, correlation })),
      without_effect: [...calibration.idle],
      distinct: calibration.distinct,
      ...summary(calibration.residuals),
    },
    patch,
  };
}

function summary(residuals: readonly Residual[]) {
  return {
    quantities: Object.fromEntries(
      standings(residuals).map(({ quantity, residuals: own, bias, rms, worst }) => [
        quantity.column,
        {
          points: own.length,
          bias: bias * quantity.unit.scale,
          rms: rms * quantity.unit.scale,
          worst_line: worst.point.line,
        },
      ]),
    ),
    points: residuals.map((residual) => {
      const { point, reading, model } = residual;
      const { column, unit } = QUANTITIES[reading.quantity]!;
      return {
        line: point.line,
        quantity: column,
        measured: toUnit(reading.value, unit),
        model: cell(toUnit(model, unit)),
        difference: cell(difference(residual) * unit.scale),
      };
    }),
  };
}

function cell(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
