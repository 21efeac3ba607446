import { joinBatches } from '../../model/row-batches.ts';
import type { RowBatch } from '../../model/rows.ts';
import { countText, headText } from '../../text/number-text.ts';
import type { Marks } from '../design-chart.ts';
import { type DesignsFront, designsFront, type FoundFront } from '../designs-front.ts';
import { idsOf, type LiveData, rowsOf } from '../live-data.ts';
import { parallelAxes } from '../parallel-axes.ts';
import { scatterChart } from '../scatter-chart.ts';
import { type ChartActions, chartFigure } from './chart-figure.ts';
import { make, place, write } from './elements.ts';
import { cellText, createFrontTable } from './front-table.ts';
import { createLimitHandles } from './limit-handles.ts';
import { onceAFrame } from './once-a-frame.ts';
import type { DesignsMessage } from './view-worker.ts';

/** Charts that show one choice of axes each, linked by what is selected. */
const CHARTS = 2;
/** More inputs than this are drawn side by side, too. */
const FEW_INPUTS = 2;

type LiveDesigns = NonNullable<LiveData['designs']>;

/** The study's designs: charts with chosen axes, limits to drag, the front found anew, each design to load. */
export function createFrontPanel(
  data: LiveData,
  program: string,
  load: (values: Float64Array) => void,
): void {
  const { study, designs } = data;
  // one design is not compared with anything
  if (designs === undefined || designs.steps.length < 2) return;
  const body = place('front-body');
  place('front').hidden = false;
  const count = designs.steps.length;
  const progress = make('p', { class: 'small' });
  body.replaceChildren(progress);
  const values = rowsOf(designs.columns);
  const worker = new Worker(URL.createObjectURL(new Blob([program], { type: 'text/javascript' })));
  const batches: RowBatch[] = [];
  let done = 0;
  worker.onmessage = ({ data: rows }: MessageEvent<RowBatch>) => {
    batches.push(rows);
    done += rows.count;
    write(progress, `Computing ${countText(count, 'design')}: ${done} done ...`);
    if (done < count) return;
    worker.terminate();
    const front = designsFront(study, joinBatches(batches));
    if (front.axes.length === 0) return write(progress, 'These designs do not differ in any figure.');
    build(front, designs, study.objectives[0]?.sense === 'minimise' ? 1 : -1, (row) => {
      const width = study.vary.length;
      load(values.slice(row * width, (row + 1) * width));
    });
  };
  worker.postMessage({ kind: 'designs', study, values, count } satisfies DesignsMessage);
}

/** @param sign 1 where less is better in the first objective */
function build(front: DesignsFront, designs: LiveDesigns, sign: number, load: (row: number) => void): void {
  const thinning = thinningWords(designs);
  const ids = idsOf(designs.steps);
  let found: FoundFront = { feasible: [], front: [] };
  let marks: Marks = { loaded: -1, looked: -1, selected: new Set(), brush: null };
  const summary = make('p', { class: 'small', role: 'status', id: 'front-summary' });
  const clear = make('button', { type: 'button', id: 'clear-selection' }, 'Clear the selection');
  const change = onceAFrame(() => {
    found = handles.find();
    redraw();
  });
  const actions: ChartActions = {
    load(row) {
      marks = { ...marks, loaded: row };
      load(row);
      redraw();
    },
    look(row) {
      marks = { ...marks, looked: row };
      redraw();
    },
    select(rows) {
      marks = { ...marks, selected: new Set(rows) };
      redraw();
    },
  };
  clear.addEventListener('click', () => actions.select([]));
  // the axes hold while one drags
  const handles = createLimitHandles(front, change, () => {
    found = handles.find();
    for (const { rescale } of charts) rescale();
  });
  const table = createFrontTable(front, ids, actions.load);
  const state = () => ({ found, marks });
  const charts = Array.from({ length: CHARTS }, (_, c) => axesChart(front, c, state, actions));
  const wide =
    front.inputs.length > FEW_INPUTS ? chartFigure('What varies, side by side', state, actions) : null;
  wide?.show(parallelAxes(front.inputs));
  wide?.figure.classList.add('side-by-side');

  function redraw(): void {
    const { feasible } = found;
    const selected = feasible.filter((row) => marks.selected.has(row));
    write(
      summary,
      `${thinning}: ${feasible.length} meet the limits, ${found.front.length} on the Pareto front${selected.length > 0 ? `, ${selected.length} selected` : ''}.${marks.looked >= 0 ? ` ${rowWords(front, ids, marks.looked)}` : ''}`,
    );
    clear.disabled = marks.selected.size === 0;
    for (const { redraw: again } of charts) again();
    wide?.redraw();
    const first = front.objectives[0]?.cells;
    const rows = selected.length > 0 ? selected : found.front;
    table.update(first ? rows.toSorted((a, b) => sign * (first[a]! - first[b]!)) : rows, marks.loaded);
  }

  place('front-body').replaceChildren(
    summary,
    handles.element,
    make('p', { class: 'legend small' }, ...legend(), clear),
    make('div', { class: 'charts' }, ...charts.map(({ element }) => element)),
    ...(wide ? [wide.figure] : []),
    table.element,
  );
  change();
  for (const { rescale } of charts) rescale();
}

/** A chart and the lists of what its axes may be. */
function axesChart(
  front: DesignsFront,
  c: number,
  state: Parameters<typeof chartFigure>[1],
  actions: ChartActions,
) {
  const { axes } = front;
  const figure = chartFigure(`Chart ${c + 1} of designs`, state, actions);
  const rescale = () =>
    figure.show(scatterChart(axes[Number(x.value)]!, axes[Number(y.value)]!, state().found.feasible));
  const pick = (name: string, at: number) => {
    const select = make(
      'select',
      { id: `axis-${c}-${name}` },
      ...axes.map(({ label, unit }, i) => make('option', { value: String(i) }, headText(label, unit))),
    );
    select.value = String(Math.min(at, axes.length - 1));
    select.addEventListener('change', rescale);
    return select;
  };
  // first the objectives against each other, then what varies as a number
  const { objectives } = front;
  const numbers = axes.flatMap(({ words }, i) => (i >= objectives.length && !words ? [i] : []));
  const x = pick('x', c === 0 && objectives.length > 1 ? 1 : (numbers[c === 0 ? 0 : c - 1] ?? 0));
  const y = pick('y', c === 0 ? 0 : (numbers[c] ?? 0));
  const bar = (name: string, select: HTMLSelectElement) =>
    make('p', { class: 'bar' }, make('label', { for: select.id, class: 'small' }, `${name} axis`), select);
  const element = make('div', {}, bar('y', y), bar('x', x), figure.figure);
  return { element, redraw: figure.redraw, rescale };
}

function thinningWords({ steps, total, front: { kept, total: ofFront } }: LiveDesigns): string {
  if (steps.length === total) return countText(total, 'design');
  const share = kept < ofFront ? `${kept} of the ${ofFront} on its front` : `all ${ofFront} on its front`;
  const rule = ofFront > 0 ? `${share}, others evenly through the plan` : 'evenly through the plan';
  return `${steps.length} of the ${countText(total, 'design')} of the study (${rule})`;
}

function rowWords({ objectives, inputs }: DesignsFront, ids: readonly number[], row: number): string {
  const figures = [...objectives, ...inputs].map(
    (axis) => `${headText(axis.label, axis.unit)} ${cellText(axis, row)}`,
  );
  return `Design ${ids[row]!}: ${figures.join(', ')}. Enter loads it.`;
}

function legend(): HTMLElement[] {
  return [
    { key: 'others', words: 'meets the limits' },
    { key: 'front', words: 'on the Pareto front' },
    { key: 'third', words: 'selected' },
    { key: 'second', words: 'loaded' },
  ].map(({ key, words }) => make('span', { class: `key ${key}` }, words));
}
