import { difference, type Standing, standings } from '../measured/residuals.ts';
import type { Calibration, FittedInput, MeasuredPoint, Residual } from '../model/measured.ts';
import { UNITS, type Unit } from '../model/units.ts';
import { type Bar, differenceChart } from '../table/difference-chart.ts';
import { measure, significant } from '../table/significant.ts';
import { layOut } from '../table/text-columns.ts';
import type { Comparison } from './comparison.ts';
import { count } from './describe.ts';
import { listing, wrap } from './listing.ts';

/** A comparison for people. */
export function compareText(comparison: Comparison, width: number): string {
  const { study, design, measured, residuals, calibration, patch } = comparison;
  const all = standings(residuals);
  const unanswered = residuals.filter(({ model }) => Number.isNaN(model));
  const parts = [
    `${wrap(`${measured} beside design ${design}: ${study.title}`, width).join('\n')}\n`,
    section('Measured against the model', standingTable(all)),
    section(
      'In words',
      all.flatMap((each) => words(each, width)),
    ),
    ...all.map((each) => section(chartTitle(each), chart(each, width - 2))),
    ...(unanswered.length === 0 ? [] : [section('No answer of the model', missing(unanswered, width))]),
  ];
  if (calibration) {
    parts.push(
      section('Fitted to these points', fittedTable(calibration.fitted)),
      section(
        'How far to trust the fit',
        trust(calibration).flatMap((line) => wrap(line, width - 2)),
      ),
      section('Measured against the fitted model', standingTable(standings(calibration.residuals))),
    );
    if (patch === null) parts.push('\nTo keep the fit: --out FILE, and `calibrated: FILE` in the study.\n');
    else parts.push(`\nFitted inputs: ${patch}. A study beside it takes them with \`calibrated: FILE\`.\n`);
  }
  return parts.join('');
}

function section(title: string, lines: readonly string[]): string {
  return `\n${title}\n${lines.map((line) => `  ${line}`.trimEnd()).join('\n')}\n`;
}

function standingTable(all: readonly Standing[]): string[] {
  const cell = (value: number, { scale }: Unit) => signed(value * scale);
  return layOut([
    { label: '', unit: '', kind: 'text', cells: all.map(({ quantity }) => quantity.label) },
    {
      label: '',
      unit: 'unit',
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
    { label: 'in line', unit: '', kind: 'integer', cells: all.map(({ worst }) => String(worst.point.line)) },
  ]);
}

/** Differences of temperatures are in kelvin. */
function differenceUnit(unit: Unit): string {
  return unit === UNITS.degC ? UNITS.K.symbol : unit.symbol;
}

function signed(value: number): string {
  const text = significant(value);
  return value > 0 ? `+${text}` : text;
}

/** `lift-off current: the model says 8.7 A, measured 9.02 A (3.5 % more)`. */
function words({ quantity, residuals, bias, mean }: Standing, width: number): string[] {
  const { label, unit } = quantity;
  const measured = residuals.length === 1 ? measure(mean, unit) : `${measure(mean, unit)} on average`;
  const share = unit === UNITS.degC ? '' : ` (${sayShare(bias, mean - bias)})`;
  const text = `${label}: the model says ${measure(mean - bias, unit)}, measured ${measured}${share}`;
  return wrap(text, width - 2);
}

function sayShare(bias: number, model: number): string {
  const share = (100 * Math.abs(bias)) / Math.abs(model);
  if (!Number.isFinite(share)) return 'the model rests';
  return `${Number(share.toPrecision(2))} % ${bias > 0 ? 'more' : 'less'}`;
}

function chartTitle({ quantity }: Standing): string {
  return `${quantity.label[0]!.toUpperCase()}${quantity.label.slice(1)}: measured minus model (o), its uncertainty (-)`;
}

function chart({ quantity, residuals }: Standing, width: number): string[] {
  const ordered = [...residuals].sort((a, b) => driveOf(a.point) - driveOf(b.point));
  const known = ({ reading, sigma }: Residual) => (Number.isNaN(reading.uncertainty) ? 0 : sigma);
  const top = Math.max(...ordered.map((each) => Math.abs(difference(each)) + known(each))) || 1;
  const unit = differenceUnit(quantity.unit);
  const bars = ordered.map(
    (each): Bar => ({
      label: sayDrive(each.point),
      value: `${signed(difference(each) * quantity.unit.scale)}${unit === '' ? '' : ` ${unit}`}`,
      at: difference(each) / top,
      spread: known(each) / top,
    }),
  );
  return differenceChart(bars, width);
}

function driveOf({ drive }: MeasuredPoint): number {
  return drive.kind === 'own' ? 0 : drive.value;
}

function sayDrive({ drive, line }: MeasuredPoint): string {
  if (drive.kind === 'own') return `line ${line}`;
  return measure(drive.value, drive.kind === 'current' ? UNITS.A : UNITS.V);
}

function missing(unanswered: readonly Residual[], width: number): string[] {
  const lines = [...new Set(unanswered.map(({ point }) => point.line))];
  const noun = count(unanswered.length, 'reading');
  return wrap(`${noun}, in line${lines.length === 1 ? '' : 's'} ${lines.join(', ')}`, width - 2);
}

function fittedTable(fitted: readonly FittedInput[]): string[] {
  const rows = fitted.map(({ free, value, error, atBound }) => [
    free.path,
    measure(value, free.unit),
    Number.isNaN(error) ? 'not known' : `± ${measureError(error, free.unit)}`,
    `before: ${measure(free.start, free.unit)}${atBound ? '; at its bound' : ''}`,
  ]);
  return listing(rows, Number.MAX_SAFE_INTEGER, 0).trimEnd().split('\n');
}

function measureError(error: number, unit: Unit): string {
  const symbol = differenceUnit(unit);
  return `${Number((error * unit.scale).toPrecision(2))}${symbol === '' ? '' : ` ${symbol}`}`;
}

/** Reduced chi-square from which the stated uncertainties do not explain the differences. */
const TOO_MUCH = 2;

function trust(calibration: Calibration): string[] {
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
      `${a} and ${b} can hardly be told apart by these points (correlation ${correlation.toFixed(3)}): fix one of them, or measure something that only one of them changes.`,
    );
  }
  if (!distinct && idle.length === 0 && alike.length === 0) {
    lines.push('These inputs cannot all be told apart by these points: free fewer.');
  }
  const bound = calibration.fitted.filter(({ atBound }) => atBound).map(({ free }) => free.path);
  if (bound.length > 0) lines.push(`At a bound, so that no error is to be trusted: ${bound.join(', ')}.`);
  return lines;
}
