import { grouped } from '../../text/grouped.ts';
import { countText } from '../../text/number-text.ts';
import type { FrontColumn } from '../front-columns.ts';
import type { ShownFront } from '../shown-front.ts';
import { html, Markup } from '../text/html.ts';
import { frontData } from './front-data.ts';
import { HEADINGS } from './headings.ts';
import { pageFrame } from './page-frame.ts';
import { PAGE_SCRIPT } from './page-script.ts';
import { question } from './question.ts';

/** The sections of a report, in reading order. */
export interface ReportSections {
  readonly front: Markup | null;
  readonly rigs: Markup | null;
  readonly lift: Markup | null;
  readonly motion: Markup | null;
  readonly warming: Markup | null;
  readonly sideways: Markup | null;
  readonly inputs: Markup | null;
  readonly sensitivities: Markup | null;
  readonly limits: Markup;
  readonly tolerances: Markup | null;
  readonly calibration: Markup | null;
  readonly cautions: Markup;
  readonly provenance: Markup;
}

/** The whole report as one page. `drawings` are those of designs whose cards show one, by design. */
export function reportPage(
  { input, of }: ShownFront,
  sections: ReportSections,
  columns: readonly FrontColumn[],
  drawings: ReadonlyMap<number, string>,
): string {
  const { study, survey, front, answer } = input;
  const present = (Object.keys(HEADINGS) as (keyof ReportSections)[]).filter((id) => sections[id] !== null);
  const known = new Set(Array.from(front.designs, String));
  const onFront = study.objectives.length === 0 ? '' : `, ${grouped(of)} on the Pareto front`;
  const counts = `${countText(survey.designs, 'design')}, ${grouped(survey.feasible)} feasible${onFront}.`;
  return pageFrame(
    study.title,
    [
      html`<header><p class="kind">Eddylift report on a study</p><h1>${study.title}</h1>
${paragraphs(study.notes)}
${question(input)}
<nav aria-label="Contents"><ul>${present.map((id) => html`<li><a href="#${id}">${HEADINGS[id]}</a></li>`)}</ul></nav></header>
<main>
<section id="answer" aria-labelledby="answer-heading"><h2 id="answer-heading">Answer</h2>
<p>${counts}</p><ul class="answer">${answer.map((sentence) => html`<li>${linked(sentence.replace(' - ', ': '), known)}</li>`)}</ul></section>
`,
      ...present.map((id) => sections[id]),
      html`</main>
<footer><p class="small">Computed, not measured.</p></footer>
<dialog id="card" aria-labelledby="card-title"><div class="bar"><h2 id="card-title"></h2><div class="bar"><button type="button" id="card-before">Previous</button><button type="button" id="card-after">Next</button><button type="button" id="card-close">Close</button></div></div><div id="card-body"></div></dialog>
<div id="hover" aria-hidden="true"></div>
${[...drawings].map(([design, svg]) => html`<template id="drawing-${design}">${new Markup(svg)}</template>`)}
${frontData(input, columns)}`,
    ],
    PAGE_SCRIPT,
  );
}

function paragraphs(text: string): Markup[] {
  return text
    .split(/\n\s*\n/)
    .filter((paragraph) => paragraph.trim() !== '')
    .map((paragraph) => html`<p>${paragraph}</p>`);
}

/** `design 12` in a sentence leads to that design. */
function linked(sentence: string, known: ReadonlySet<string>): (Markup | string)[] {
  return sentence.split(/(design \d+)/i).map((part) => {
    const design = /^design (\d+)$/i.exec(part)?.[1];
    return design !== undefined && known.has(design) ? html`<a href="#design-${design}">${part}</a>` : part;
  });
}
