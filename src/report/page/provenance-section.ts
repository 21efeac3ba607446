import { grouped } from '../../text/grouped.ts';
import { countText, numberText } from '../../text/number-text.ts';
import type { ReportInput } from '../report-input.ts';
import { html, type Markup } from '../text/html.ts';
import { HEADINGS } from './headings.ts';
import { section } from './page-frame.ts';

/** Of a longer study, the first part is shown. */
const LONGEST_STUDY = 100_000;

/** Everything needed to get these results again. */
export function provenanceSection({ study, survey, provenance }: ReportInput): Markup {
  const { version, node, threads, seed, started, seconds } = provenance;
  const facts: [string, string][] = [
    ['Eddylift', version],
    ['Node', node],
    ['started', started],
    ['took', `${numberText(seconds)} s on ${countText(threads, 'thread')}`],
    ['plan', study.plan.kind],
    ['seed', seed === null ? 'none: nothing is drawn at random' : String(seed)],
    ['designs', grouped(survey.designs)],
  ];
  const isCut = study.text.length > LONGEST_STUDY;
  return section('provenance', HEADINGS.provenance, [
    html`<dl>${facts.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>
<p class="small">SHA-256 of the study: <code>${study.hash}</code></p>
<h3>The study as it was run</h3>
<pre tabindex="0">${study.text.slice(0, LONGEST_STUDY)}</pre>
${isCut ? html`<p class="small">Cut here; study.yaml holds the whole.</p>` : null}`,
  ]);
}
