import { cautionsOf } from '../../rig/cautions-of.ts';
import { byHand } from '../by-hand.ts';
import type { RigView } from '../compute-view.ts';
import type { LiveStudy } from '../live-data.ts';
import { type Drawing, drawingOf, liftPicture, sectionPicture, warmingPicture } from '../pictures.ts';
import type { RigState } from '../rig-state.ts';
import { draw, place, write } from './elements.ts';
import { createFiguresTable } from './figures-table.ts';
import { createMomentPanel } from './moment-panel.ts';
import { nearScreen } from './near-screen.ts';
import { cautionsMarkup, limitsMarkup, readingsMarkup, stateWords } from './words.ts';

export interface Shown {
  readonly state: RigState;
  readonly view: RigView;
  readonly pinned: RigView | null;
  /** With what is for teaching. */
  readonly isTaught: boolean;
  /** With field and currents. */
  readonly withField: boolean;
}

/** Everything that the page shows of a view. What is far below the screen follows when it comes near, or once all is computed. */
export function createDisplay(study: LiveStudy, program: string): (shown: Shown) => void {
  const figures = createFiguresTable(place('figures'));
  let last: Shown | null = null;
  let drawing: Drawing | null = null;
  const moment = createMomentPanel(study, program, drawPicture);

  function drawPicture(): void {
    if (last) draw(place('picture'), sectionPicture(drawing, last.view, last.isTaught, moment.moment));
  }

  const below: [id: string, drawPart: (shown: Shown) => void][] = [
    ['figures', ({ view, pinned }) => figures.update(view, pinned)],
    [
      'caution-list',
      ({ view: { slots, results, isWhole } }) =>
        draw(place('caution-list'), cautionsMarkup(cautionsOf(study.rig, slots, results), isWhole)),
    ],
    [
      'teaching',
      ({ view, isTaught }) => {
        if (isTaught) draw(place('by-hand'), byHand(study, view).source);
      },
    ],
  ];
  const parts = below.map(([id, drawPart]) => ({
    drawPart,
    isNear: nearScreen(place(id), () => {
      if (last) drawPart(last);
    }),
  }));

  return (shown) => {
    const isOther = shown.pinned !== (last?.pinned ?? null);
    last = shown;
    const { state, view, isTaught, withField } = shown;
    drawing = drawingOf(study, state, view);
    moment.turnOn(withField);
    write(place('state'), stateWords(view));
    place('state').classList.toggle('not', view.curve.length === 0);
    draw(place('readings'), readingsMarkup(view));
    drawPicture();
    moment.follow(view, drawing);
    draw(place('lift'), liftPicture(view));
    draw(place('warming'), warmingPicture(view));
    draw(place('limit-rows'), limitsMarkup(view.limits));
    place('teaching').hidden = !isTaught;
    for (const { drawPart, isNear } of parts) if (view.isWhole || isOther || isNear()) drawPart(shown);
    // what is read aloud: not every step of a drag
    if (view.isWhole) write(place('announced'), `${stateWords(view)}.`);
  };
}
