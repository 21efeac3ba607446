import type { RowBatch } from '../../model/rows.ts';
import { toUnit } from '../../model/units.ts';
import { INK } from '../../report/charts/palette.ts';
import { html } from '../../report/text/html.ts';
import { headText, measureText, numberText } from '../../text/number-text.ts';
import { type DesignsFront, designsFront, type FrontAxis } from '../designs-front.ts';
import type { LiveData } from '../live-data.ts';
import { STEPS } from '../sensible-range.ts';
import { draw, make, place } from './elements.ts';
import type { DesignsMessage } from './view-worker.ts';

const WIDTH = 460;
const HEIGHT = 300;
const MARGIN = { left: 60, right: 12, top: 26, bottom: 40 };
/** Charts that show one choice of axes each, linked by what is chosen. */
const CHARTS = 2;

/** The study's designs: charts with chosen axes, limits to drag, the front found anew, each design to load. */
export function createFrontPanel(
  data: LiveData,
  program: string,
  load: (values: Float64Array, design: number) => void,
): void {
  const { study, designs } = data;
  if (designs === undefined) return;
  const section = place('front');
  const body = place('front-body');
  section.hidden = false;
  const count = designs.ids.length;
  const shownOf =
    count < designs.total
      ? `${count} of ${designs.total} designs, evenly through the plan`
      : `${count} designs`;
  body.replaceChildren(make('p', { class: 'small' }, `Computing ${shownOf} ...`));
  const worker = new Worker(URL.createObjectURL(new Blob([program], { type: 'text/javascript' })));
  worker.onmessage = ({ data: rows }: MessageEvent<RowBatch>) => {
    worker.terminate();
    build(designsFront(study, rows), shownOf);
  };
  worker.postMessage({ kind: 'designs', study, values: designs.values, count } satisfies DesignsMessage);

  function build(front: DesignsFront, words: string): void {
    const { axes, handles } = front;
    const bounds = handles.map(({ bound }) => bound);
    let chosen = -1;
    const summary = make('p', { class: 'small', role: 'status' });
    const handleRows = handles.map((handle, h) => {
      const id = `bound-${h}`;
      const output = make('output', { for: id });
      const slider = make('input', { type: 'range', id, min: '0', max: String(STEPS), step: '1' });
      const span = handle.high - handle.low || 1;
      slider.value = String(Math.round((STEPS * (handle.bound - handle.low)) / span));
      const describe = () => {
        output.textContent = measureText(bounds[h]!, handle.unit);
        slider.setAttribute('aria-valuetext', output.textContent);
      };
      slider.addEventListener('input', () => {
        bounds[h] = Number((handle.low + (span * Number(slider.value)) / STEPS).toPrecision(4));
        describe();
        update();
      });
      describe();
      return make('div', { class: 'control' }, make('label', { for: id }, handle.text), slider, output);
    });
    const charts = Array.from({ length: CHARTS }, (_, c) => {
      const pick = (name: string, at: number) => {
        const select = make(
          'select',
          { id: `axis-${c}-${name}` },
          ...axes.map(({ label, unit }, i) => make('option', { value: String(i) }, headText(label, unit))),
        );
        select.value = String(Math.min(at, axes.length - 1));
        select.addEventListener('change', update);
        return {
          select,
          element: make(
            'p',
            { class: 'bar' },
            make('label', { for: select.id, class: 'small' }, `${name} axis`),
            select,
          ),
        };
      };
      const x = pick('x', 2 * c + 1);
      const y = pick('y', 2 * c);
      const figure = make('figure', {});
      figure.addEventListener('click', (event) => {
        const row = (event.target as Element).getAttribute('data-row');
        if (row !== null) choose(Number(row));
      });
      return { x: x.select, y: y.select, figure, element: make('div', {}, x.element, y.element, figure) };
    });
    const table = make('div', {
      class: 'scroll tall',
      tabindex: '0',
      role: 'region',
      'aria-label': 'The front as a table',
    });
    table.addEventListener('click', (event) => {
      const row = (event.target as Element).getAttribute('data-row');
      if (row !== null) choose(Number(row));
    });
    const choose = (row: number) => {
      chosen = row;
      const width = study.vary.length;
      load(designs!.values.slice(row * width, (row + 1) * width), designs!.ids[row]!);
      update();
    };
    body.replaceChildren(
      summary,
      ...handleRows,
      make('div', { class: 'charts' }, ...charts.map(({ element }) => element)),
      table,
    );
    update();

    function update(): void {
      const found = front.find(bounds);
      summary.textContent = `${words}: ${found.feasible.length} meet the limits, ${found.front.length} on the Pareto front. A click on a dot, or a button of the table, loads a design into the controls.`;
      for (const { x, y, figure } of charts)
        draw(figure, scatter(axes[Number(x.value)]!, axes[Number(y.value)]!, found, chosen));
      const shown = axes.slice(0, 6);
      draw(
        table,
        html`<table><thead><tr><th scope="col" class="text">design</th>${shown.map(({ label, unit }) => html`<th scope="col">${headText(label, unit)}</th>`)}</tr></thead><tbody>${found.front.map(
          (row) =>
            html`<tr><th scope="row" class="text"><button type="button" data-row="${row}">${row === chosen ? 'loaded' : 'load'} ${designs!.ids[row]!}</button></th>${shown.map(({ cells, unit }) => html`<td>${numberText(toUnit(cells[row]!, unit))}</td>`)}</tr>`,
        )}</tbody></table>`.source,
      );
    }
  }
}

function scatter(
  x: FrontAxis,
  y: FrontAxis,
  found: ReturnType<DesignsFront['find']>,
  chosen: number,
): string {
  const ends = ({ cells, unit }: FrontAxis): readonly [number, number] => {
    const known = [...cells].filter(Number.isFinite).map((cell) => toUnit(cell, unit));
    return [Math.min(...known), Math.max(...known)];
  };
  const [xLow, xHigh] = ends(x);
  const [yLow, yHigh] = ends(y);
  const right = WIDTH - MARGIN.right;
  const bottom = HEIGHT - MARGIN.bottom;
  const at = (row: number) => {
    const px =
      MARGIN.left + ((right - MARGIN.left) * (toUnit(x.cells[row]!, x.unit) - xLow)) / (xHigh - xLow);
    const py = bottom - ((bottom - MARGIN.top) * (toUnit(y.cells[row]!, y.unit) - yLow)) / (yHigh - yLow);
    return Number.isFinite(px + py) ? ([px.toFixed(1), py.toFixed(1)] as const) : null;
  };
  const onFront = new Set(found.front);
  const dot = (row: number, size: number, ink: string) => {
    const point = at(row);
    return (
      point && html`<circle cx="${point[0]}" cy="${point[1]}" r="${size}" fill="${ink}" data-row="${row}"/>`
    );
  };
  const ring = chosen < 0 ? null : at(chosen);
  return html`<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${y.label} against ${x.label}: ${found.feasible.length} designs, ${found.front.length} on the front; the table below holds them." viewBox="0 0 ${WIDTH} ${HEIGHT}" font-size="13"><path d="M${MARGIN.left} ${MARGIN.top}V${bottom}H${right}" fill="none" stroke="${INK.text}"/>${found.feasible.filter((row) => !onFront.has(row)).map((row) => dot(row, 2.5, INK.others))}${found.front.map((row) => dot(row, 5, INK.front))}${ring && html`<circle cx="${ring[0]}" cy="${ring[1]}" r="9" fill="none" stroke="${INK.second}" stroke-width="3"/>`}<text x="4" y="14" fill="${INK.text}">${headText(y.label, y.unit)}</text><text x="${(MARGIN.left + right) / 2}" y="${HEIGHT - 5}" text-anchor="middle" fill="${INK.text}">${headText(x.label, x.unit)}</text>${[
    [MARGIN.left, bottom + 17, 'start', xLow],
    [right, bottom + 17, 'end', xHigh],
    [MARGIN.left - 6, bottom, 'end', yLow],
    [MARGIN.left - 6, MARGIN.top + 10, 'end', yHigh],
  ].map(
    ([left, top, anchor, value]) =>
      html`<text x="${left!}" y="${top!}" text-anchor="${anchor!}" fill="${INK.quiet}">${numberText(Number(value))}</text>`,
  )}</svg>`.source;
}
