import { type ChoiceControl, type Control, controlsOf } from '../controls.ts';
import type { LiveStudy } from '../live-data.ts';
import { type RigState, withSettings } from '../rig-state.ts';
import { make } from './elements.ts';
import { type NumberSetter, numberSetter } from './number-setter.ts';

export type ChangeState = (state: RigState, isFinal: boolean) => void;

/** All inputs but the drive as controls, in groups. Built anew only when there are other controls than before. */
export function createControlPanel(
  panel: HTMLElement,
  study: LiveStudy,
  present: () => RigState,
  change: ChangeState,
) {
  let built = '';
  let setters: NumberSetter[] = [];
  let lists: ((controls: ReadonlyMap<string, Control>) => void)[] = [];

  /** Everything: a final state may bring other controls. */
  function update(state: RigState): void {
    const controls = controlsOf(study, state);
    const wanted = controls.map(signatureOf).join('\n');
    if (wanted !== built) {
      built = wanted;
      build(controls);
    }
    for (const setter of setters) setter.update(state.slots);
    updateLists(controls);
  }

  function updateLists(controls: readonly Control[]): void {
    const byId = new Map(controls.map((control) => [control.id, control]));
    for (const each of lists) each(byId);
  }

  function build(controls: readonly Control[]): void {
    const focused = document.activeElement?.id ?? '';
    const open = new Set([...panel.querySelectorAll('details[open]')].map(({ id }) => id));
    setters = [];
    lists = [];
    const groups = new Map<string, Control[]>();
    for (const control of controls)
      groups.set(control.group, [...(groups.get(control.group) ?? []), control]);
    panel.replaceChildren(
      make('h2', {}, 'What if'),
      ...[...groups].map(([group, members]) => fieldset(group, members, open)),
    );
    if (focused !== '' && document.activeElement?.id !== focused) document.getElementById(focused)?.focus();
  }

  function fieldset(group: string, members: readonly Control[], open: ReadonlySet<string>): HTMLElement {
    const plain = members.filter((control) => control.kind === 'choice' || !control.isDetail);
    const details = members.filter((control) => control.kind === 'number' && control.isDetail);
    const set = make('fieldset', {}, make('legend', {}, group), ...plain.map(element));
    if (details.length > 0) {
      const id = `metal-of-${group.toLowerCase().replaceAll(' ', '-')}`;
      const folded = make(
        'details',
        { id },
        make('summary', {}, "the metal's numbers"),
        ...details.map(element),
      );
      folded.open = open.has(id);
      set.append(folded);
    }
    return set;
  }

  function element(control: Control): HTMLElement {
    if (control.kind === 'choice') return choiceElement(control);
    const setter = numberSetter(control, study.rig.plateLayers, (slot, value, isFinal) =>
      change(withOwnMetal(withSettings(present(), [[slot, value]]), control.input.path), isFinal),
    );
    setters.push(setter);
    const { label, slider, field, unit, problem } = setter;
    return make('div', { class: 'control' }, label, slider, field, unit, problem);
  }

  function choiceElement(control: ChoiceControl): HTMLElement {
    const select = make('select', { id: control.id });
    const other = make('option', { value: '-1', disabled: '' }, control.other);
    select.append(
      other,
      ...control.options.map(({ label }, i) => make('option', { value: String(i) }, label)),
    );
    select.addEventListener('change', () => {
      const option = control.options[Number(select.value)];
      if (!option) return;
      const texts = control.path === null ? {} : { [control.path]: option.label };
      change(withSettings(present(), option.settings, texts), true);
    });
    lists.push((controls) => {
      const now = controls.get(control.id);
      if (now?.kind !== 'choice') return;
      other.hidden = now.chosen >= 0;
      other.textContent = now.other;
      select.value = String(now.chosen);
    });
    return make('div', { class: 'control' }, make('label', { for: control.id }, control.label), select);
  }

  return {
    update,
    /** In the middle of a drag: what is dragged would be gone if controls were built, and lists take long. */
    follow({ slots }: RigState): void {
      for (const setter of setters) setter.follow(slots);
    },
    /** What lists show once a drag rests. */
    rest: (state: RigState) => updateLists(controlsOf(study, state)),
  };
}

/** A metal of which one number was set is another metal. */
function withOwnMetal(state: RigState, path: string): RigState {
  const metal = /^(.*\.metal)\.\w+$/.exec(path)?.[1];
  if (metal === undefined) return state;
  const label = state.texts[metal] ?? 'a metal';
  return { ...state, texts: { ...state.texts, [metal]: label.endsWith(CHANGED) ? label : label + CHANGED } };
}

const CHANGED = ', changed';

function signatureOf(control: Control): string {
  if (control.kind === 'choice') return `${control.id} ${control.options.length}`;
  return `${control.id} ${control.range.low} ${control.range.high}`;
}
