import type { RigView } from '../compute-view.ts';
import { type LiveData, unpack } from '../live-data.ts';
import { type RigState, stateOfDesign } from '../rig-state.ts';
import { studyText } from '../study-text.ts';
import { createControlPanel } from './control-panel.ts';
import { createDisplay } from './display.ts';
import { place } from './elements.ts';
import { createFrontPanel } from './front-panel.ts';
import { createKnob } from './knob.ts';
import { onceAFrame } from './once-a-frame.ts';
import { StateHistory } from './state-history.ts';
import { createViewClient } from './view-client.ts';

/** The page: one state, what is computed of it, and what changes it. */
export function startPage(): void {
  const data = unpack(JSON.parse(place('live-data').textContent!)) as LiveData;
  const { study } = data;
  const program = document.querySelector('script:not([type])')!.textContent!;
  const start = stateOfDesign(study, data.values);
  const history = new StateHistory(start);

  let state = start;
  let view: RigView | null = null;
  let pinned: RigView | null = null;
  let views = 0;

  const display = createDisplay(study, program);
  const change = (next: RigState, isFinal: boolean): void => {
    state = next;
    if (isFinal) history.keep(state);
    compute(isFinal);
  };
  const panel = createControlPanel(place('controls'), study, () => state, change);
  const knob = createKnob(
    place('knob'),
    study,
    () => state,
    () => view,
    change,
  );
  const client = createViewClient(study, program, (computed, slots) => {
    const isLatest = slots === state.slots;
    // a step of a drag may still be shown, what takes long only for the state that it is of
    if (computed.isWhole ? !isLatest : isLatest && view?.isWhole && document.body.dataset.settled === 'true')
      return;
    view = computed;
    document.body.dataset.settled = String(computed.isWhole);
    show();
    if (computed.isWhole) panel.rest(state);
    views++;
    document.body.dataset.views = String(views);
  });
  const request = onceAFrame(() => client.request(state.slots));

  function compute(isFinal: boolean): void {
    document.body.dataset.settled = 'false';
    if (isFinal) panel.update(state);
    else panel.follow(state);
    knob.update(state, isFinal);
    button('undo').disabled = !history.canUndo;
    button('redo').disabled = !history.canRedo;
    request();
  }

  function show(): void {
    if (view === null) return;
    display({ state, view, pinned, isTaught: isPressed('teach'), withField: isPressed('arrows') });
    button('unpin').disabled = pinned === null;
    button('pin').disabled = !view.isWhole;
  }

  function goTo(next: RigState | null): void {
    if (next === null) return;
    state = next;
    compute(true);
  }

  onClick('pin', () => {
    pinned = view;
    show();
  });
  onClick('unpin', () => {
    pinned = null;
    show();
  });
  const undo = () => goTo(history.undo());
  const redo = () => goTo(history.redo());
  onClick('undo', undo);
  onClick('redo', redo);
  onUndoKeys(undo, redo);
  onClick('reset', () => change(start, true));
  onClick('room', () => {
    document.documentElement.toggleAttribute('data-room', toggle('room'));
  });
  for (const id of ['teach', 'arrows']) {
    onClick(id, () => {
      toggle(id);
      show();
    });
  }
  onClick('write-study', () => writeStudy(studyText(data, state)));
  createFrontPanel(data, program, (values) => change(stateOfDesign(study, values), true));
  followTheme(place<HTMLSelectElement>('theme'));
  compute(true);
}

function onUndoKeys(undo: () => void, redo: () => void): void {
  document.addEventListener('keydown', (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    // a field for text undoes its own typing
    if (event.target instanceof HTMLInputElement && event.target.type === 'number') return;
    const key = event.key.toLowerCase();
    if (key === 'z' && !event.shiftKey) undo();
    else if (key === 'y' || key === 'z') redo();
    else return;
    event.preventDefault();
  });
}

function followTheme(theme: HTMLSelectElement): void {
  theme.addEventListener('change', () => {
    if (theme.value === '') document.documentElement.removeAttribute('data-theme');
    else document.documentElement.setAttribute('data-theme', theme.value);
  });
}

function button(id: string): HTMLButtonElement {
  return place<HTMLButtonElement>(id);
}

function onClick(id: string, action: () => void): void {
  button(id).addEventListener('click', action);
}

function isPressed(id: string): boolean {
  return button(id).getAttribute('aria-pressed') === 'true';
}

/** Whether it is pressed now. */
function toggle(id: string): boolean {
  const pressed = !isPressed(id);
  button(id).setAttribute('aria-pressed', String(pressed));
  return pressed;
}

function writeStudy(text: string): void {
  const area = place<HTMLTextAreaElement>('study-text');
  const link = place<HTMLAnchorElement>('save-study');
  area.value = text;
  for (const id of ['study-text', 'save-study', 'study-hint', 'study-label']) place(id).hidden = false;
  if (link.href !== '') URL.revokeObjectURL(link.href);
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  link.download = 'live-rig.yaml';
}
