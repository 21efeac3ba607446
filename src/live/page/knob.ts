import { SLOT } from '../../model/inputs.ts';
import { Q } from '../../model/quantities.ts';
import type { RigView } from '../compute-view.ts';
import { knobOf } from '../controls.ts';
import type { LiveStudy } from '../live-data.ts';
import { type RigState, withSettings } from '../rig-state.ts';
import type { ChangeState } from './control-panel.ts';
import { make } from './elements.ts';
import { type NumberSetter, numberSetter } from './number-setter.ts';

const KINDS = ['held current', 'held voltage', 'supply limit'];

/** The drive: the largest control, and of what kind it is. */
export function createKnob(
  knob: HTMLElement,
  study: LiveStudy,
  present: () => RigState,
  view: () => RigView | null,
  change: ChangeState,
) {
  let built = '';
  let setter: NumberSetter | null = null;
  const kind = make(
    'select',
    { id: 'drive-kind' },
    ...KINDS.map((words, i) => make('option', { value: String(i) }, words)),
  );
  const kindLabel = make('label', { for: 'drive-kind', class: 'small' }, 'drive');
  kind.addEventListener('change', () => {
    const results = view()?.results;
    const now = (quantity: number, usual: number) => {
      const value = Number(results?.[quantity]?.toPrecision(4));
      return value > 0 ? value : usual;
    };
    const current = kind.value === '0' ? now(Q.current, USUAL_CURRENT) : Number.NaN;
    const voltage = kind.value === '1' ? now(Q.supply_voltage, USUAL_VOLTAGE) : Number.NaN;
    change(
      withSettings(present(), [
        [SLOT.driveCurrent, current],
        [SLOT.driveVoltage, voltage],
      ]),
      true,
    );
  });

  return {
    update(state: RigState, mayBuild: boolean): void {
      const control = knobOf(study, state);
      const wanted = control ? `${control.id} ${control.range.low} ${control.range.high}` : 'none';
      if (wanted !== built && (mayBuild || built === '')) {
        built = wanted;
        const focused = document.activeElement?.id ?? '';
        setter =
          control &&
          numberSetter(control, study.rig.plateLayers, (slot, value, isFinal) =>
            change(withSettings(present(), [[slot, value]]), isFinal),
          );
        const drive = make('div', { class: 'bar' }, kindLabel, kind);
        if (setter) {
          const { label, slider, field, unit, problem } = setter;
          knob.replaceChildren(label, slider, make('span', {}, field, ' ', unit), problem, drive);
        } else knob.replaceChildren(make('p', { class: 'small' }, 'Raised until the supply ends it.'), drive);
        if (focused !== '') document.getElementById(focused)?.focus();
      }
      setter?.update(state.slots);
      const { slots } = state;
      kind.value = !Number.isNaN(slots[SLOT.driveCurrent]!)
        ? '0'
        : Number.isNaN(slots[SLOT.driveVoltage]!)
          ? '2'
          : '1';
    },
  };
}

const USUAL_CURRENT = 10;
const USUAL_VOLTAGE = 50;
