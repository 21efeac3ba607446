import { createViewer, type RigView, type Viewer } from '../compute-view.ts';
import type { LiveStudy } from '../live-data.ts';

export type WorkerMessage =
  | { readonly kind: 'study'; readonly study: LiveStudy }
  | { readonly kind: 'state'; readonly slots: Float64Array; readonly isWhole: boolean };

/** What a worker thread does: one state in, one view out. */
export function serveViews(): void {
  const scope = globalThis as unknown as {
    onmessage: ((event: MessageEvent<WorkerMessage>) => void) | null;
    postMessage(view: RigView): void;
  };
  let viewer: Viewer | null = null;
  scope.onmessage = ({ data }) => {
    if (data.kind === 'study') viewer = createViewer(data.study);
    else if (viewer) scope.postMessage(data.isWhole ? viewer.whole(data.slots) : viewer.quick(data.slots));
  };
}
