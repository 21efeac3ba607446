import type { DesignChart, Marks, Place } from '../design-chart.ts';
import type { FoundFront } from '../designs-front.ts';
import { draw, make } from './elements.ts';

/** A pointer that moved less than this has clicked, px. */
const STILL = 5;
/** A click this near to a design is on it, px of the drawing. */
const REACH = 16;

/** What all charts show. */
export interface ChartState {
  readonly found: FoundFront;
  readonly marks: Marks;
}

export interface ChartActions {
  load(row: number): void;
  look(row: number): void;
  select(rows: readonly number[]): void;
}

/**
 * A chart of designs to point at: a click loads the nearest design, a drag selects. By keyboard the arrows go along the
 * front, with Shift they select, Enter loads, Escape lets go.
 */
export function chartFigure(name: string, state: () => ChartState, actions: ChartActions) {
  const figure = make('figure', { class: 'designs', tabindex: '0', role: 'group', 'aria-label': name });
  let chart: DesignChart | null = null;
  let from: Place | null = null;
  let brush: Marks['brush'] = null;
  let anchor = -1;

  const placeOf = (event: PointerEvent): Place => {
    const { left, top, width, height } = figure.firstElementChild!.getBoundingClientRect();
    return [
      ((event.clientX - left) / width) * chart!.width,
      ((event.clientY - top) / height) * chart!.height,
    ];
  };
  const redraw = () => {
    if (!chart) return;
    const { found, marks } = state();
    draw(figure, chart.markup(found, { ...marks, brush }));
  };

  figure.addEventListener('pointerdown', (event) => {
    if (event.button !== 0 || !chart) return;
    from = placeOf(event);
    figure.setPointerCapture(event.pointerId);
  });
  figure.addEventListener('pointermove', (event) => {
    if (from === null) return;
    const to = placeOf(event);
    brush = Math.hypot(to[0] - from[0], to[1] - from[1]) < STILL ? null : { from, to };
    redraw();
  });
  figure.addEventListener('pointerup', (event) => {
    if (from === null) return;
    const { feasible } = state().found;
    if (brush) actions.select(feasible.filter((row) => chart!.takes(row, brush!)));
    else {
      const nearest = nearestOf(chart!, state().found, placeOf(event));
      if (nearest >= 0) actions.load(nearest);
    }
    from = null;
    brush = null;
    redraw();
  });
  figure.addEventListener('pointercancel', () => {
    from = null;
    brush = null;
    redraw();
  });

  figure.addEventListener('keydown', (event) => {
    if (!chart || event.ctrlKey || event.metaKey || event.altKey) return;
    const { found, marks } = state();
    const along = found.front.toSorted((a, b) => chart!.order(a) - chart!.order(b));
    const at = along.indexOf(marks.looked);
    const goals: Readonly<Record<string, number>> = {
      ArrowRight: at + 1,
      ArrowUp: at + 1,
      ArrowLeft: at < 0 ? along.length - 1 : at - 1,
      ArrowDown: at < 0 ? along.length - 1 : at - 1,
      Home: 0,
      End: along.length - 1,
    };
    if (event.key in goals && along.length > 0) {
      const goal = Math.min(along.length - 1, Math.max(0, goals[event.key]!));
      if (event.shiftKey) {
        if (anchor < 0 || !along.includes(anchor)) anchor = at < 0 ? along[goal]! : along[at]!;
        const start = along.indexOf(anchor);
        actions.select(along.slice(Math.min(start, goal), Math.max(start, goal) + 1));
      } else anchor = -1;
      actions.look(along[goal]!);
    } else if (event.key === 'Enter' && marks.looked >= 0) actions.load(marks.looked);
    else if (event.key === 'Escape') {
      anchor = -1;
      actions.select([]);
      actions.look(-1);
    } else return;
    event.preventDefault();
  });

  return {
    figure,
    redraw,
    show(next: DesignChart): void {
      chart = next;
      redraw();
    },
  };
}

/** Designs of the front first: they lie on top. */
function nearestOf(chart: DesignChart, { feasible, front }: FoundFront, place: Place): number {
  for (const rows of [front, feasible]) {
    let nearest = -1;
    let least = REACH;
    for (const row of rows) {
      const distance = chart.distance(row, place);
      if (distance >= least) continue;
      least = distance;
      nearest = row;
    }
    if (nearest >= 0) return nearest;
  }
  return -1;
}
