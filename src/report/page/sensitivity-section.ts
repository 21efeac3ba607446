import { headText, NOTHING, typeset } from '../../text/number-text.ts';
import type { ChangedDesign } from '../charts/sensitivity-chart.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { type Content, html, type Markup } from '../text/html.ts';
import { designTopics } from './design-topics.ts';
import { HEADINGS } from './headings.ts';
import { dataTable, figure, section } from './page-frame.ts';

/** The chosen designs that some input changes, by letter. */
export function changing({ chosen }: Pick<ReportInput, 'chosen'>): ChangedDesign[] {
  return chosen.flatMap(({ row, sensitivities }) => {
    const letter = letterOf(chosen, row);
    return sensitivities === null || letter === null ? [] : [{ letter, inputs: sensitivities.inputs }];
  });
}

/** What a little more of each input does to the chosen designs; the chart is null where there is nothing to draw. */
export function sensitivitySection(input: ReportInput, chart: string | null): Markup | null {
  const described = input.chosen.filter(({ sensitivities }) => sensitivities !== null);
  if (described.length === 0) return null;
  return section('sensitivities', HEADINGS.sensitivities, [
    html`<p>What one per cent more of an input changes, of a temperature one degree: ${described[0]!.sensitivities!.note}. Where more and less do not agree, as where another reel is needed, both stand there.</p>`,
    ...described.map(({ row, sensitivities }) =>
      designTopics(input, row, 'Sensitivities', sensitivities!.rows),
    ),
    chart === null
      ? null
      : figure(
          chart,
          'What one per cent more of each input changes; the inputs that do most. Temperatures are in the table below.',
          changesTable(input),
        ),
  ]);
}

function changesTable(input: ReportInput): Markup {
  const heads = [
    'input',
    'design',
    'has',
    ...input.changeable.map(({ label, unit }) => headText(label, unit)),
  ];
  const rows = changing(input).flatMap(({ letter, inputs }) =>
    inputs.map(({ name, value, changes }): Content[] => [
      name,
      letter,
      typeset(value),
      ...changes.map(({ text }) => (text === '-' ? NOTHING : typeset(text))),
    ]),
  );
  return dataTable('Numbers of this chart: changes for 1 % more', heads, rows);
}
