import { CAUTIONS_REMINDER } from '../../model/cautions/judge.ts';
import { type Content, html, inertJson, type Markup } from '../text/html.ts';
import { LIVE_STYLE } from './live-style.ts';
import { pageFrame } from './page-frame.ts';

export interface LivePageInput {
  readonly title: string;
  readonly design: number;
  /** Of the study file. */
  readonly hash: string;
  readonly version: string;
  /** The laws and the page's own code, as one script. */
  readonly program: string;
  /** What the script reads, as plain JSON. */
  readonly data: unknown;
}

/** A page that computes: nothing in it can load or send anything, or run another script than the one it came with. */
export function livePage({ title, design, hash, version, program, data }: LivePageInput): string {
  return pageFrame(`Live rig: ${title}`, body(title, design, hash, version, data), program, {
    style: LIVE_STYLE,
    // of the script itself, once more
    workers: 'blob:',
  });
}

function body(title: string, design: number, hash: string, version: string, data: unknown): Content[] {
  return [
    html`<header><p class="kind">Live rig, from design ${design}</p><h1>${title}</h1>
<div class="bar" role="group" aria-label="What to do with the rig">${[
      button('pin', 'Pin this state'),
      button('unpin', 'Remove the pin'),
      button('undo', 'Undo'),
      button('redo', 'Redo'),
      button('reset', 'Back to the design'),
      toggle('room', 'Large type'),
      toggle('teach', 'For teaching'),
      toggle('arrows', 'Field and currents'),
    ]}<label class="small">Colours <select id="theme"><option value="">as the screen</option><option value="light">light</option><option value="dark">dark</option></select></label></div></header>
`,
    html`<main><div class="layout"><div class="stage"><section aria-labelledby="now-heading"><h2 class="unseen" id="now-heading">Now</h2>
<p class="state" id="state"></p><dl class="readings" id="readings"></dl>
<div class="knob" id="knob"></div><p class="unseen" id="announced" role="status"></p>
<figure class="picture" id="picture"></figure>
<div class="moment" id="moment" hidden></div>
<div class="charts"><figure id="lift"></figure><figure id="warming"></figure></div></section>
<section class="limits" id="limits" aria-labelledby="limits-heading"><h2 id="limits-heading">Limits of the study</h2><div id="limit-rows"></div></section></div>
<div class="controls" id="controls"></div></div>
<section id="teaching" aria-labelledby="teaching-heading" hidden><h2 id="teaching-heading">By hand</h2><div id="by-hand"></div></section>
<section class="cautions" aria-labelledby="cautions-heading"><h2 id="cautions-heading">Cautions</h2><div class="columns" id="caution-list"></div><p class="small">${CAUTIONS_REMINDER}</p></section>
<section id="front" aria-labelledby="front-heading" hidden><h2 id="front-heading">Designs of the study</h2><div id="front-body"></div></section>
<section aria-labelledby="figures-heading"><h2 id="figures-heading">All figures</h2><div class="scroll" tabindex="0" role="region" aria-label="Table of all figures" id="figures"></div></section>
<section class="screen-only" aria-labelledby="study-heading"><h2 id="study-heading">This rig as a study file</h2><p class="bar">${button('write-study', 'Write the study file')}<a id="save-study" hidden>Save it</a></p><p class="hint" id="study-hint" hidden>eddylift run computes these figures of it.</p><label class="small" id="study-label" for="study-text" hidden>Study file</label><textarea id="study-text" readonly hidden spellcheck="false"></textarea></section></main>
<footer><p>Computed, not measured. Eddylift ${version}; study ${hash.slice(0, 16)}.</p><noscript><p>This page computes with a script, which this browser does not run.</p></noscript></footer>
<script type="application/json" id="live-data">${inertJson(data)}</script>`,
  ];
}

function button(id: string, label: string): Markup {
  return html`<button type="button" id="${id}">${label}</button>`;
}

function toggle(id: string, label: string): Markup {
  return html`<button type="button" id="${id}" aria-pressed="false">${label}</button>`;
}
