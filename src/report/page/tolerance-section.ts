import { toUnit } from '../../model/units.ts';
import { varianceSharesOf, varies } from '../../rig/spread-profile.ts';
import { headText, NOTHING, numberText, typeset } from '../../text/number-text.ts';
import { type SpreadRow, spreading } from '../charts/spread-chart.ts';
import { explained } from '../charts/variance-shares-chart.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { type Content, html, type Markup } from '../text/html.ts';
import { designTopics } from './design-topics.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** The chosen designs whose spread is known, by letter. */
export function spreadRows({ chosen }: Pick<ReportInput, 'chosen'>): SpreadRow[] {
  return chosen.flatMap(({ row, spread }) => {
    const letter = letterOf(chosen, row);
    return spread === null || letter === null ? [] : [{ letter, quantities: spread.profile.quantities }];
  });
}

/** How the chosen designs turn out within the study's tolerances; charts are null where there is nothing to draw. */
export function toleranceSection(
  input: ReportInput,
  spreads: string | null,
  shares: string | null,
): Markup | null {
  const described = input.chosen.filter(({ spread }) => spread !== null);
  if (described.length === 0) return null;
  const [rigs] = described.map(({ spread }) => spread!.profile.rigs);
  return section('tolerances', HEADINGS.tolerances, [
    html`<p>Each chosen design was tried as the same ${rigs!} rigs, spread within the tolerances of the study: ${typeset(described[0]!.spread!.allowed)}. ± is a standard deviation.</p>`,
    spreads === null
      ? null
      : figure(
          spreads,
          'Bars hold nine rigs of ten, the stroke is the middle one, the ring the design as drawn. A dashed line is a limit of the study, where one is near.',
          spreadTable(input),
        ),
    ...described.map(({ row, spread }) => designTopics(input, row, 'Spread', spread!.rows)),
    shares === null
      ? null
      : figure(
          shares,
          [
            'How much of the variance of each quantity comes from which tolerance.',
            unexplained(input).map(
              (label) => ` Slopes explain too little of ${label} to name the causes of its spread.`,
            ),
          ],
          varianceSharesTable(input),
        ),
    described[0]!.spread!.note === null ? null : html`<p class="small">${described[0]!.spread!.note}</p>`,
  ]);
}

function unexplained(input: ReportInput): string[] {
  const rows = spreadRows(input);
  const known = explained(rows, input.watched.length);
  return spreading(rows, input.watched.length)
    .filter((q) => !known.includes(q))
    .map((q) => input.watched[q]!.label);
}

function spreadTable(input: ReportInput): Markup {
  const rows = spreadRows(input);
  return dataTable(
    'Numbers of this chart',
    ['quantity', 'design', 'as drawn', '5 %', 'median', '95 %'],
    spreading(rows, input.watched.length).flatMap((q) => {
      const { label, unit } = input.watched[q]!;
      return rows.map(({ letter, quantities }): Content[] => {
        const { own, p05, median, p95 } = quantities[q]!;
        return [
          headText(label, unit),
          letter,
          ...[own, p05, median, p95].map((si) => numberText(toUnit(si, unit))),
        ];
      });
    }),
  );
}

function varianceSharesTable(input: ReportInput): Markup {
  const rows = spreadRows(input);
  return dataTable(
    'Numbers of this chart: % of the variance',
    ['quantity', 'design', ...input.allowed, 'explained by slopes'],
    spreading(rows, input.watched.length).flatMap((q) =>
      rows
        .filter(({ quantities }) => varies(quantities[q]!))
        .map(({ letter, quantities }): Content[] => {
          const spread = quantities[q]!;
          const shares = varianceSharesOf(spread);
          const percent = (share: number) => (100 * share).toFixed(1);
          return [
            input.watched[q]!.label,
            letter,
            ...input.allowed.map((_, t) => (shares ? percent(shares[t]!) : NOTHING)),
            Number.isNaN(spread.explained) ? NOTHING : percent(spread.explained),
          ];
        }),
    ),
  );
}
