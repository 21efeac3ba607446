import { cautionsOf } from '../../rig/cautions-of.ts';
import { byHand } from '../by-hand.ts';
import type { RigView } from '../compute-view.ts';
import { type LiveData, unpack } from '../live-data.ts';
import { liftPicture, sectionPicture, warmingPicture } from '../pictures.ts';
import { isSameState, type RigState, stateOfDesign } from '../rig-state.ts';
import { studyText } from '../study-text.ts';
import { createControlPanel } from './control-panel.ts';
import { draw, place, write } from './elements.ts';
import { createFiguresTable } from './figures-table.ts';
import { createFrontPanel } from './front-panel.ts';
import { createKnob } from './knob.ts';
import { createViewClient } from './view-client.ts';
import { cautionsMarkup, limitsMarkup, readingsMarkup, stateWords } from './words.ts';

/** The page: one state, what is computed of it, and what changes it. */
export function startPage(): void {
  const data = unpack(JSON.parse(place('live-data').textContent!)) as LiveData;
  const { study } = data;
  const program = document.querySelector('script:not([type])')!.textContent!;
  const start = stateOfDesign(study, data.values);

  let state = start;
  let view: RigView | null = null;
  let pinned: RigView | null = null;
  let views = 0;
  /** The last state that is no step of a drag. */
  let kept = start;
  const past: RigState[] = [];
  const future: RigState[] = [];

  const figures = createFiguresTable(place('figures'));
  const change = (next: RigState, isFinal: boolean): void => {
    state = next;
    if (isFinal && !isSameState(kept, state)) {
      past.push(kept);
      future.length = 0;
      kept = state;
    }
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
    show(computed);
    views++;
    document.body.dataset.views = String(views);
  });

  function compute(isFinal: boolean): void {
    document.body.dataset.settled = 'false';
    panel.update(state, isFinal);
    knob.update(state, isFinal);
    button('undo').disabled = past.length === 0;
    button('redo').disabled = future.length === 0;
    client.request(state.slots);
  }

  function show(now: RigView): void {
    const isTaught = isPressed('teach');
    write(place('state'), stateWords(now));
    place('state').classList.toggle('not', now.curve.length === 0);
    draw(place('readings'), readingsMarkup(now));
    draw(place('picture'), sectionPicture(study, state, now, isTaught));
    draw(place('lift'), liftPicture(now));
    draw(place('warming'), warmingPicture(now));
    draw(place('limit-rows'), limitsMarkup(now.limits));
    draw(place('caution-list'), cautionsMarkup(cautionsOf(study.rig, now.slots, now.results), now.isWhole));
    figures.update(now, pinned);
    button('unpin').disabled = pinned === null;
    button('pin').disabled = !now.isWhole;
    place('teaching').hidden = !isTaught;
    if (isTaught) draw(place('by-hand'), byHand(study, now).source);
    // what is read aloud: not every step of a drag
    if (now.isWhole) write(place('said'), `${stateWords(now)}.`);
  }

  function travel(from: RigState[], to: RigState[]): void {
    const next = from.pop();
    if (!next) return;
    to.push(kept);
    state = next;
    kept = next;
    compute(true);
  }

  onClick('pin', () => {
    pinned = view;
    if (view) show(view);
  });
  onClick('unpin', () => {
    pinned = null;
    if (view) show(view);
  });
  onClick('undo', () => travel(past, future));
  onClick('redo', () => travel(future, past));
  onClick('reset', () => change(start, true));
  onClick('room', () => {
    document.documentElement.toggleAttribute('data-room', toggle('room'));
  });
  onClick('teach', () => {
    toggle('teach');
    if (view) show(view);
  });
  onClick('write-study', () => writeStudy(studyText(data, state)));
  onUndoKeys(
    () => travel(past, future),
    () => travel(future, past),
  );
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
