import { createViewer, type RigView } from '../compute-view.ts';
import type { LiveStudy } from '../live-data.ts';
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
  const source = URL.createObjectURL(new Blob([program], { type: 'text/javascript' }));
  const quick = createQueue(start, show);
  let whole: Worker | null = null;
  let isBusy = false;
  let sent = study.rig.slots;
  let timer = 0;

  function start(onView: (view: RigView) => void): Worker {
    const worker = new Worker(source);
    worker.onmessage = ({ data }: MessageEvent<RigView>) => onView(data);
    worker.postMessage({ kind: 'study', study } satisfies WorkerMessage);
    return worker;
  }

  function computeWhole(slots: Float64Array): void {
    if (isBusy) {
      // nobody waits any longer for what it is at
      whole?.terminate();
      whole = null;
    }
    sent = slots;
    isBusy = true;
    whole ??= start((view) => {
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

/** One state at a time; of those that come meanwhile the last. */
function createQueue(
  start: (onView: (view: RigView) => void) => Worker,
  show: (view: RigView, slots: Float64Array) => void,
): (slots: Float64Array) => void {
  let worker: Worker | null = null;
  let current: Float64Array | null = null;
  let next: Float64Array | null = null;
  const send = (slots: Float64Array) => {
    current = slots;
    worker!.postMessage({ kind: 'state', slots, isWhole: false } satisfies WorkerMessage);
  };
  return (slots) => {
    worker ??= start((view) => {
      const shown = current!;
      current = null;
      if (next) {
        const following = next;
        next = null;
        send(following);
      }
      show(view, shown);
    });
    if (current) next = slots;
    else send(slots);
  };
}
