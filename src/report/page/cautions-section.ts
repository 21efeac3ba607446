import {
  byHazard,
  CAUTION_RULES,
  CAUTIONS_REMINDER,
  type Judgement,
  raisedOf,
  unjudgedOf,
} from '../../model/cautions/judge.ts';
import { cautionBound, cautionValue, notJudgedWords } from '../../text/caution-words.ts';
import { measureText } from '../../text/number-text.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { section } from './page-frame.ts';

interface Entry {
  readonly rule: Judgement['rule'];
  readonly judgements: { readonly design: number; readonly judgement: Judgement }[];
}

/** What to know before one of the chosen designs is switched on: a caution once, with the designs that raise it. */
export function cautionsSection({ chosen, front }: ReportInput): Markup {
  const shown = chosen.map(({ row, cautions }) => ({
    design: front.designs[row]!,
    raised: raisedOf(cautions),
  }));
  const entries = CAUTION_RULES.flatMap((rule): Entry[] => {
    const judgements = shown.flatMap(({ design, raised }) =>
      raised.filter((each) => each.rule.id === rule.id).map((judgement) => ({ design, judgement })),
    );
    return judgements.length === 0 ? [] : [{ rule, judgements }];
  });
  const unjudged = new Map<string, Set<string>>();
  for (const { missing, topics } of chosen.flatMap(({ cautions }) => unjudgedOf(cautions))) {
    unjudged.set(missing, new Set([...(unjudged.get(missing) ?? []), ...topics]));
  }
  const groups = byHazard(entries);
  return section('cautions', HEADINGS.cautions, [
    html`<div class="cautions">${groups.map(
      ({ label, judgements }) => html`<h3 class="hazard">${capital(label)}</h3>${judgements.map(article)}`,
    )}</div>
${unjudged.size === 0 ? null : html`<ul class="unjudged">${[...unjudged].map(([missing, topics]) => html`<li>${notJudgedWords({ missing, topics: [...topics] })}</li>`)}</ul>`}
<p>${CAUTIONS_REMINDER}</p>`,
  ]);
}

function article({ rule, judgements }: Entry): Markup {
  const which = judgements.map(({ design, judgement }) => {
    const numbers = [
      cautionValue(judgement, measureText),
      ...judgement.figures.map(({ value, unit, phrase }) =>
        phrase.replace('#', () => measureText(value, unit)),
      ),
    ].filter((text) => text !== '');
    const least = judgement.atLeast ? 'at least ' : '';
    return numbers.length === 0 ? `design ${design}` : `design ${design} (${least}${numbers.join(', ')})`;
  });
  const bound = cautionBound(judgements[0]!.judgement, measureText);
  return html`<article><h4>${capital(rule.rule)}</h4>
<p>${rule.advice}</p><p class="small">${which.join(', ')}${bound === '' ? '' : `; ${bound}`}. Source: ${rule.source}.</p></article>
`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
