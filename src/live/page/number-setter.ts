import { LAYER_SLOTS, LAYER_THICKNESS, SLOT } from '../../model/inputs.ts';
import { fromUnit, inputToUnit } from '../../model/units.ts';
import { measureText } from '../../text/number-text.ts';
import type { NumberControl } from '../controls.ts';
import { positionOf, STEPS, valueAt } from '../sensible-range.ts';
import { make } from './elements.ts';

/** Sets one slot; a change that is not final yet is one of a drag or of half a number. */
export type SetValue = (slot: number, value: number, isFinal: boolean) => void;

export interface NumberSetter {
  readonly label: HTMLElement;
  readonly slider: HTMLInputElement;
  readonly field: HTMLInputElement;
  readonly unit: HTMLElement;
  readonly problem: HTMLElement;
  /** Shows the value of a state. */
  update(slots: Float64Array): void;
  /** The same, unless it is shown already. */
  follow(slots: Float64Array): void;
}

/** Slider and number field of one input, kept equal. */
export function numberSetter(control: NumberControl, plateLayers: number, set: SetValue): NumberSetter {
  const { id, input, range, label: words } = control;
  const { slot, unit } = input;
  const label = make('label', { for: `${id}-number` }, words);
  const slider = make('input', {
    type: 'range',
    id,
    min: '0',
    max: String(STEPS),
    step: '1',
    'aria-label': words,
  });
  const field = make('input', {
    type: 'number',
    id: `${id}-number`,
    step: 'any',
    'aria-describedby': `${id}-problem`,
  });
  const symbol = make('span', { class: 'unit' }, unit.symbol);
  const problem = make('span', { class: 'problem', id: `${id}-problem` });
  const isLastLayer = slot === SLOT.plateLayers + (plateLayers - 1) * LAYER_SLOTS + LAYER_THICKNESS;
  if (isLastLayer) field.placeholder = 'thick';
  else if (control.optional) field.placeholder = 'not given';

  const slide = (isFinal: boolean) => set(slot, valueAt(Number(slider.value), range, input), isFinal);
  slider.addEventListener('input', () => slide(false));
  slider.addEventListener('change', () => slide(true));

  const typed = (isFinal: boolean) => {
    const value = read();
    field.setAttribute('aria-invalid', String(typeof value === 'string'));
    problem.textContent = typeof value === 'string' ? value : '';
    if (typeof value === 'number') set(slot, value, isFinal);
  };
  field.addEventListener('input', () => typed(false));
  field.addEventListener('change', () => typed(true));

  /** SI, or what is wrong. */
  function read(): number | string {
    if (field.value.trim() === '' && !field.validity.badInput) {
      if (isLastLayer) return Number.POSITIVE_INFINITY;
      return control.optional ? Number.NaN : 'a number is needed here';
    }
    const si = fromUnit(field.valueAsNumber, unit);
    if (Number.isNaN(si)) return 'this is no number';
    if (input.integer && !Number.isInteger(si)) return 'a whole number is needed here';
    if (input.above ? si <= input.minimum : si < input.minimum)
      return `${input.above ? 'above' : 'at least'} ${measureText(input.minimum, unit)}`;
    return si > input.maximum ? `at most ${measureText(input.maximum, unit)}` : si;
  }

  let shown: number | null = null;

  function update(slots: Float64Array): void {
    const value = slots[slot]!;
    shown = value;
    const words = Number.isNaN(value)
      ? 'not given'
      : value === Number.POSITIVE_INFINITY
        ? 'thick'
        : measureText(value, unit);
    if (document.activeElement !== slider || !slider.matches(':active'))
      slider.value = String(positionOf(value, range));
    slider.setAttribute('aria-valuetext', words);
    if (document.activeElement === field && typeof read() === 'number' && Object.is(read(), value)) return;
    if (document.activeElement === field && field.getAttribute('aria-invalid') === 'true') return;
    field.value = Number.isFinite(value) ? String(inputToUnit(value, unit)) : '';
    field.setAttribute('aria-invalid', 'false');
    problem.textContent = '';
  }

  return {
    label,
    slider,
    field,
    unit: symbol,
    problem,
    update,
    follow(slots) {
      if (!Object.is(slots[slot]!, shown)) update(slots);
    },
  };
}
