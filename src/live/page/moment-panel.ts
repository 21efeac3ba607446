import type { FieldPhasors } from '../../kernel/field-grid.ts';
import { UNITS } from '../../model/units.ts';
import { type FieldMoment, fieldGrid, largestOf } from '../../report/drawing/field-marks.ts';
import { measureText } from '../../text/number-text.ts';
import type { FieldRequest } from '../compute-field.ts';
import type { RigView } from '../compute-view.ts';
import type { LiveStudy } from '../live-data.ts';
import type { Drawing } from '../pictures.ts';
import { make, place, write } from './elements.ts';
import { latestWorker } from './latest-worker.ts';
import { startThread } from './start-thread.ts';
import type { WorkerMessage } from './view-worker.ts';

/** A cycle takes this long to the eye, s. */
const SECONDS = 5;
const CYCLE = 360;
const STEP = 5;

/**
 * Field and currents at a moment of the cycle: a slider, and a button that lets it run unless motion is not wanted. Another
 * thread computes the field; the last one stays until the next is there.
 * @param redraw of the picture
 */
export function createMomentPanel(study: LiveStudy, program: string, redraw: () => void) {
  const panel = place('moment');
  const slider = make('input', {
    type: 'range',
    id: 'moment-slider',
    min: '0',
    max: String(CYCLE),
    step: String(STEP),
    value: '0',
  });
  const said = make('output', { for: slider.id, class: 'small' });
  const play = make('button', { type: 'button', id: 'play', 'aria-pressed': 'false' }, 'Let it run');
  const most = make('p', { class: 'small', id: 'moment-most' });
  panel.replaceChildren(
    make('label', { for: slider.id }, "moment of the current's cycle"),
    slider,
    said,
    play,
    most,
  );
  let latest: Omit<FieldMoment, 'phase'> | null = null;
  let degrees = 0;
  let frame = 0;

  const request = latestWorker<FieldRequest, FieldPhasors | null>(
    startThread(study, program),
    (wanted) => ({ kind: 'field', request: wanted }) satisfies WorkerMessage,
    (field, { grid }) => {
      latest = field && { field, grid };
      const largest = field && largestOf(field);
      write(
        most,
        largest === null
          ? 'No field: no current flows.'
          : `Arrows: flux density, at most ${measureText(largest.field, UNITS.mT)} where they stand. Signs: current, a dot toward you, a cross away; in the plate at most ${measureText(largest.current, UNITS.A_per_mm2)}. Lengths and sizes go by the square root.`,
      );
      panel.dataset.fields = String(Number(panel.dataset.fields ?? 0) + 1);
      redraw();
    },
  );

  function turnTo(next: number): void {
    const isOther = next !== degrees;
    degrees = next;
    slider.value = String(Math.round(next / STEP) * STEP);
    const words = `${Math.round(next)}° after the current's peak`;
    write(said, words);
    slider.setAttribute('aria-valuetext', words);
    if (isOther) redraw();
  }

  slider.addEventListener('input', () => {
    run(false);
    turnTo(Number(slider.value));
  });

  function run(isOn: boolean): void {
    play.setAttribute('aria-pressed', String(isOn));
    cancelAnimationFrame(frame);
    if (!isOn) return;
    let before: number | null = null;
    const step = (time: number) => {
      const next = degrees + (CYCLE * (time - (before ?? time))) / (SECONDS * 1000);
      before = time;
      turnTo(next % CYCLE);
      frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
  }
  play.addEventListener('click', () => run(play.getAttribute('aria-pressed') !== 'true'));

  const still = matchMedia('(prefers-reduced-motion: reduce)');
  const obey = () => {
    play.hidden = still.matches;
    if (still.matches) run(false);
  };
  still.addEventListener('change', obey);
  obey();
  turnTo(0);

  return {
    /** Shown or not. */
    turnOn(isOn: boolean): void {
      panel.hidden = !isOn;
      if (isOn) return;
      run(false);
      latest = null;
    },
    /** To be drawn; null until there is one. */
    get moment(): FieldMoment | null {
      return panel.hidden || latest === null ? null : { ...latest, phase: (degrees * 2 * Math.PI) / CYCLE };
    },
    /** A view has come. */
    follow({ slots }: RigView, drawing: Drawing | null): void {
      if (panel.hidden) return;
      if (drawing !== null) request({ slots, grid: fieldGrid(drawing.outline, drawing.room) });
    },
  };
}
