import { typeset } from '../../text/number-text.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';

/** What there is about one chosen design, a topic a row, under its own heading. `what` names the table: `Spread`. */
export function designTopics(
  { front, chosen }: Pick<ReportInput, 'front' | 'chosen'>,
  row: number,
  what: string,
  rows: readonly (readonly [topic: string, words: string])[],
): Markup {
  return html`<h3><span class="letter">${letterOf(chosen, row) ?? ''}</span> Design ${front.designs[row]!}</h3>
<div class="scroll limits topics" tabindex="0" role="region" aria-label="${what} of design ${front.designs[row]!}"><table><tbody>${rows.map(
    ([topic, text]) =>
      html`<tr><th scope="row" class="text">${topic}</th><td class="text">${typeset(text)}</td></tr>`,
  )}</tbody></table></div>
`;
}
