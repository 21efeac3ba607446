import { createViewer, type RigView } from '../compute-view.ts';
import type { LiveStudy } from '../live-data.ts';
import { latestWorker } from './latest-worker.ts';
import { startThread } from './start-thread.ts';
import type { WorkerMessage } from './view-worker.ts';

/** Quantities on request wait until nothing has changed for this long, ms. */
const SETTLED = 200;

/**
 * Views of states. A wide plate is computed at once; a plate with an edge by a worker thread, the newest state last; what
 * takes longest is computed by another worker once the state rests.
 * @param show receives each view with the state that it is of
 */
export function createViewClient(
  study: LiveStudy,
  program: string,
  show: (view: RigView, slots: Float64Array) => void,
) {
  const viewer = createViewer(study);
  const start = startThread(study, program);
  const quick = latestWorker<Float64Array, RigView>(
    start,
    (slots) => ({ kind: 'state', slots, isWhole: false }) satisfies WorkerMessage,
    show,
  );
  let whole: Worker | null = null;
  let isBusy = false;
  let sent = study.rig.slots;
  let timer = 0;

  function computeWhole(slots: Float64Array): void {
    if (isBusy) {
      // nobody waits any longer for what it is at
      whole?.terminate();
      whole = null;
    }
    sent = slots;
    isBusy = true;
    whole ??= start((view: RigView) => {
      isBusy = false;
      show(view, sent);
    });
    whole.postMessage({ kind: 'state', slots, isWhole: true } satisfies WorkerMessage);
  }

  return {
    request(slots: Float64Array): void {
      clearTimeout(timer);
      if (viewer.hasEdge(slots)) quick(slots);
      else show(viewer.quick(slots), slots);
      timer = setTimeout(() => computeWhole(slots), SETTLED);
    },
  };
}
