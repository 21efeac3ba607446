import { toUnit } from '../../model/units.ts';
import { html } from '../../report/text/html.ts';
import { headText, numberText } from '../../text/number-text.ts';
import type { DesignsFront, FrontAxis } from '../designs-front.ts';
import { draw, make } from './elements.ts';

/** Of more rows the first. */
const MOST_ROWS = 200;

/** Designs as a table, each with a button that loads it. */
export function createFrontTable(front: DesignsFront, ids: readonly number[], load: (row: number) => void) {
  const columns = [...front.objectives, ...front.inputs];
  const element = make('div', {
    class: 'scroll tall',
    tabindex: '0',
    role: 'region',
    'aria-label': 'Designs as a table',
  });
  element.addEventListener('click', (event) => {
    const row = (event.target as Element).getAttribute('data-row');
    if (row !== null) load(Number(row));
  });
  return {
    element,
    update(rows: readonly number[], loaded: number): void {
      const shown = rows.slice(0, MOST_ROWS);
      draw(
        element,
        html`<table><thead><tr><th scope="col" class="text">design</th>${columns.map(
          ({ label, unit, words }) =>
            html`<th scope="col"${words ? html` class="text"` : null}>${headText(label, unit)}</th>`,
        )}</tr></thead><tbody>${shown.map(
          (row) =>
            html`<tr><th scope="row" class="text"><button type="button" data-row="${row}">${row === loaded ? 'loaded' : 'load'} ${ids[row]!}</button></th>${columns.map(
              (column) => html`<td${column.words ? html` class="text"` : null}>${cellText(column, row)}</td>`,
            )}</tr>`,
        )}</tbody></table>${rows.length > shown.length ? html`<p class="small">The first ${shown.length} of ${rows.length}.</p>` : null}`
          .source,
      );
    },
  };
}

export function cellText({ cells, unit, words }: FrontAxis, row: number): string {
  return words ? (words[cells[row]!] ?? '') : numberText(toUnit(cells[row]!, unit));
}
