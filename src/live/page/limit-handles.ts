import { headText, measureText } from '../../text/number-text.ts';
import type { DesignsFront, Handle } from '../designs-front.ts';
import { STEPS } from '../sensible-range.ts';
import { make } from './elements.ts';

/** Digits of a bound. */
const DIGITS = 4;

/**
 * A slider for each limit, and more of them for columns that have none.
 * @param rest a change is over
 */
export function createLimitHandles(front: DesignsFront, change: () => void, rest: () => void) {
  const handles: Handle[] = [];
  const bounds: number[] = [];
  const list = make('div', {});
  let made = 0;

  function add(handle: Handle): HTMLInputElement {
    const id = `bound-${made++}`;
    const span = handle.high - handle.low || 1;
    const output = make('output', { for: id });
    const slider = make('input', { type: 'range', id, min: '0', max: String(STEPS), step: '1' });
    slider.value = String(Math.round((STEPS * (handle.bound - handle.low)) / span));
    const show = (bound: number) => {
      output.textContent = measureText(bound, handle.unit);
      slider.setAttribute('aria-valuetext', output.textContent);
    };
    slider.addEventListener('input', () => {
      const position = Number(slider.value);
      const plain = handle.low + (span * position) / STEPS;
      // at its end a limit lets everything through
      const isEnd = position === 0 || position === STEPS;
      const bound = isEnd ? plain : Number(plain.toPrecision(DIGITS));
      bounds[handles.indexOf(handle)] = bound;
      show(bound);
      change();
    });
    slider.addEventListener('change', rest);
    show(handle.bound);
    handles.push(handle);
    bounds.push(handle.bound);
    const row = make('div', { class: 'control' }, make('label', { for: id }, handle.text), slider, output);
    if (handle.index === null) {
      const remove = make('button', { type: 'button', 'aria-label': `Remove ${handle.text}` }, 'Remove');
      remove.addEventListener('click', () => {
        const at = handles.indexOf(handle);
        handles.splice(at, 1);
        bounds.splice(at, 1);
        row.remove();
        column.focus();
        change();
        rest();
      });
      row.append(remove);
    }
    list.append(row);
    return slider;
  }

  const column = make(
    'select',
    { id: 'limit-column' },
    ...front.axes.flatMap(({ label, unit, words }, i) =>
      words ? [] : [make('option', { value: String(i) }, headText(label, unit))],
    ),
  );
  const sense = make(
    'select',
    { id: 'limit-sense', 'aria-label': 'at most or at least' },
    make('option', { value: '<=' }, 'at most'),
    make('option', { value: '>=' }, 'at least'),
  );
  const button = make('button', { type: 'button', id: 'add-limit' }, 'Add a limit');
  button.addEventListener('click', () => {
    add(front.handleOn(front.axes[Number(column.value)]!, sense.value as '<=' | '>=')).focus();
    change();
  });
  for (const handle of front.handles) add(handle);
  return {
    element: make(
      'div',
      { class: 'handles' },
      list,
      make(
        'p',
        { class: 'bar' },
        make('label', { for: column.id, class: 'small' }, 'another limit on'),
        column,
        sense,
        button,
      ),
    ),
    find: () => front.find(handles, bounds),
  };
}
