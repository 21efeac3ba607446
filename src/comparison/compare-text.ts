import { difference, type Standing, standings } from '../measured/residuals.ts';
import type { MeasuredPoint, Residual } from '../model/measured.ts';
import { type Bar, differenceChart } from '../text/difference-chart.ts';
import { listing, wrap } from '../text/listing.ts';
import { layOut } from '../text/text-columns.ts';
import {
  describeDrive,
  describeUnanswered,
  differenceUnit,
  fittedRows,
  signed,
  standingColumns,
  standingWords,
  trustWords,
} from './compare-topics.ts';
import type { Comparison } from './comparison.ts';

/** A table that is not wrapped. */
const WIDE = Number.MAX_SAFE_INTEGER;

/** A comparison for people. */
export function compareText(comparison: Comparison, width: number): string {
  const { study, design, measured, residuals, calibration, patch } = comparison;
  const all = standings(residuals);
  const unanswered = residuals.filter(({ model }) => Number.isNaN(model));
  const parts = [
    `${wrap(`${measured} beside design ${design}: ${study.title}`, width).join('\n')}\n`,
    section('Measured against the model', layOut(standingColumns(all))),
    section(
      'In words',
      all.flatMap((each) => wrap(standingWords(each), width - 2)),
    ),
    ...all.map((each) => section(chartTitle(each), chart(each, width - 2))),
    ...(unanswered.length === 0
      ? []
      : [section('No answer of the model', wrap(describeUnanswered(unanswered), width - 2))]),
  ];
  if (calibration) {
    parts.push(
      section(
        'Fitted to these points',
        listing(fittedRows(calibration.fitted), WIDE, 0).trimEnd().split('\n'),
      ),
      section(
        'How far to trust the fit',
        trustWords(calibration).flatMap((line) => wrap(line, width - 2)),
      ),
      section('Measured against the fitted model', layOut(standingColumns(standings(calibration.residuals)))),
    );
    if (patch === null) parts.push('\nTo keep the fit: --out FILE, and `calibrated: FILE` in the study.\n');
    else parts.push(`\nFitted inputs: ${patch}. A study beside it takes them with \`calibrated: FILE\`.\n`);
  }
  return parts.join('');
}

function section(title: string, lines: readonly string[]): string {
  return `\n${title}\n${lines.map((line) => `  ${line}`.trimEnd()).join('\n')}\n`;
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
      label: describeDrive(each.point),
      value: `${signed(difference(each) * quantity.unit.scale)}${unit === '' ? '' : ` ${unit}`}`,
      at: difference(each) / top,
      uncertainty: known(each) / top,
    }),
  );
  return differenceChart(bars, width);
}

function driveOf({ drive }: MeasuredPoint): number {
  return drive.kind === 'own' ? 0 : drive.value;
}
