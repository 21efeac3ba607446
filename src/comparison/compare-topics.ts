import { difference, type Standing } from '../measured/residuals.ts';
import type { Calibration, FittedInput, MeasuredPoint, Residual } from '../model/measured.ts';
import { UNITS, type Unit } from '../model/units.ts';
import { measure, significant } from '../text/significant.ts';
import type { TextColumn } from '../text/text-columns.ts';
import { count } from '../words/describe-plan.ts';

/** Bias, root mean square and largest difference by quantity, as columns. */
export function standingColumns(all: readonly Standing[]): TextColumn[] {
  const cell = (value: number, { scale }: Unit) => signed(value * scale);
  return [
    { label: '', unit: '', kind: 'text', cells: all.map(({ quantity }) => quantity.label) },
    {
      label: 'unit',
      unit: '',
      kind: 'text',
      cells: all.map(({ quantity }) => differenceUnit(quantity.unit)),
    },
    {
      label: 'points',
      unit: '',
      kind: 'integer',
      cells: all.map(({ residuals }) => String(residuals.length)),
    },
    {
      label: 'bias',
      unit: '',
      kind: 'number',
      // a fit leaves no bias but rounding
      cells: all.map(({ bias, rms, quantity }) =>
        cell(Math.abs(bias) < 1e-6 * rms ? 0 : bias, quantity.unit),
      ),
    },
    {
      label: 'RMS',
      unit: '',
      kind: 'number',
      cells: all.map(({ rms, quantity }) => significant(rms * quantity.unit.scale)),
    },
    {
      label: 'largest',
      unit: '',
      kind: 'number',
      cells: all.map(({ worst, quantity }) => cell(difference(worst), quantity.unit)),
    },
    { label: 'line', unit: '', kind: 'integer', cells: all.map(({ worst }) => String(worst.point.line)) },
  ];
}

/** Differences of temperatures are in kelvin. */
export function differenceUnit(unit: Unit): string {
  return unit === UNITS.degC ? UNITS.K.symbol : unit.symbol;
}

export function signed(value: number): string {
  const text = significant(value);
  return value > 0 ? `+${text}` : text;
}

/** `lift-off current: the model gives 8.7 A, measured 9.02 A (3.5 % more)`. */
export function standingWords({ quantity, residuals, bias, mean }: Standing): string {
  const { label, unit } = quantity;
  const measured = residuals.length === 1 ? measure(mean, unit) : `${measure(mean, unit)} on average`;
  const percent = unit === UNITS.degC ? '' : ` (${formatPercent(bias, mean - bias)})`;
  return `${label}: the model gives ${measure(mean - bias, unit)}, measured ${measured}${percent}`;
}

function formatPercent(bias: number, model: number): string {
  const percent = (100 * Math.abs(bias)) / Math.abs(model);
  if (!Number.isFinite(percent)) return 'the model rests';
  return `${Number(percent.toPrecision(2))} % ${bias > 0 ? 'more' : 'less'}`;
}

/** A drive in its unit; of a row that names none, its line. */
export function describeDrive({ drive, line }: MeasuredPoint): string {
  if (drive.kind === 'own') return `line ${line}`;
  return measure(drive.value, drive.kind === 'current' ? UNITS.A : UNITS.V);
}

/** `2 readings, in lines 3, 7`. */
export function describeUnanswered(unanswered: readonly Residual[]): string {
  const lines = [...new Set(unanswered.map(({ point }) => point.line))];
  return `${count(unanswered.length, 'reading')}, in line${lines.length === 1 ? '' : 's'} ${lines.join(', ')}`;
}

/** Each fitted input: its path, value, standard error and what it was before. */
export function fittedRows(fitted: readonly FittedInput[]): string[][] {
  return fitted.map(({ free, value, error, atBound }) => [
    free.path,
    measure(value, free.unit),
    Number.isNaN(error) ? 'not known' : `± ${measureError(error, free.unit)}`,
    `before: ${measure(free.start, free.unit)}${atBound ? '; at its bound' : ''}`,
  ]);
}

function measureError(error: number, unit: Unit): string {
  const symbol = differenceUnit(unit);
  return `${Number((error * unit.scale).toPrecision(2))}${symbol === '' ? '' : ` ${symbol}`}`;
}

/** Reduced chi-square from which the stated uncertainties do not explain the differences. */
const TOO_MUCH = 2;

/** How far to trust a fit, a sentence each. */
export function trustWords(calibration: Calibration): string[] {
  const { chiSquare, freedom, stated, converged, alike, idle, distinct } = calibration;
  const lines: string[] = [];
  if (!converged) lines.push('The fit did not settle: take its values with care.');
  if (!stated && freedom > 0) {
    lines.push('Not every reading states its uncertainty: the scatter about the fit was taken for it.');
  } else if (freedom <= 0) {
    lines.push('As many inputs as readings, or more: nothing is left to check the fit by.');
  } else if (chiSquare / freedom > TOO_MUCH) {
    const times = significant(Math.sqrt(chiSquare / freedom));
    lines.push(
      `What is left is ${times} times as large as the stated uncertainties explain: they are too small, or something else than these inputs is off; the errors above are then too small, too.`,
    );
  } else lines.push('What is left is about what the stated uncertainties explain.');
  for (const path of idle) lines.push(`${path} changes nothing that was measured.`);
  for (const [a, b, correlation] of alike) {
    lines.push(
      `${a} and ${b} can hardly be separated by these points (correlation ${correlation.toFixed(3)}): fix one of them, or measure something that only one of them changes.`,
    );
  }
  if (!distinct && idle.length === 0 && alike.length === 0) {
    lines.push('These inputs cannot all be separated by these points: free fewer.');
  }
  const bound = calibration.fitted.filter(({ atBound }) => atBound).map(({ free }) => free.path);
  if (bound.length > 0) lines.push(`At a bound, so that no error is to be trusted: ${bound.join(', ')}.`);
  return lines;
}
