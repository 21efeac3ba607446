import { CAUTIONS_REMINDER, type Caution } from '../../model/cautions.ts';
import { measureText } from '../../text/number-text.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { section } from './page-frame.ts';

/** What to know before one of the chosen designs is switched on: a caution once, with the designs that raise it. */
export function cautionsSection({ chosen, front }: ReportInput): Markup {
  const raised = new Map<string, { caution: Caution; designs: { design: number; value: number }[] }>();
  for (const { row, cautions } of chosen) {
    for (const caution of cautions) {
      const entry = raised.get(caution.id) ?? { caution, designs: [] };
      entry.designs.push({ design: front.designs[row]!, value: caution.value });
      raised.set(caution.id, entry);
    }
  }
  return section('cautions', HEADINGS.cautions, [
    html`<div class="cautions">${[...raised.values()].map(({ caution, designs }) => article(caution, designs))}</div>
<p>${CAUTIONS_REMINDER}</p>`,
  ]);
}

function article(
  { rule, threshold, unit, source, advice }: Caution,
  designs: readonly { design: number; value: number }[],
): Markup {
  // a flag has no value worth telling
  const isFlag = unit.symbol === '' && threshold === 0.5;
  const which = designs.map(({ design, value }) =>
    isFlag ? `design ${design}` : `design ${design} (${measureText(value, unit)})`,
  );
  const bound = isFlag ? '' : `; threshold ${measureText(threshold, unit)}`;
  return html`<article><h3>${rule.charAt(0).toUpperCase() + rule.slice(1)}</h3>
<p>${advice}</p><p class="small">${which.join(', ')}${bound}. Source: ${source}.</p></article>
`;
}
