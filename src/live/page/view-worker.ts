import type { FieldPhasors } from '../../kernel/field-grid.ts';
import type { RowBatch } from '../../model/rows.ts';
import { createEvaluator } from '../../rig/evaluate.ts';
import { createFieldComputer, type FieldRequest } from '../compute-field.ts';
import { createViewer, type RigView, type Viewer } from '../compute-view.ts';
import type { LiveStudy } from '../live-data.ts';

export type WorkerMessage =
  | { readonly kind: 'study'; readonly study: LiveStudy }
  | { readonly kind: 'state'; readonly slots: Float64Array; readonly isWhole: boolean }
  | { readonly kind: 'field'; readonly request: FieldRequest };

/** To a worker of its own: rows of designs. */
export interface DesignsMessage {
  readonly kind: 'designs';
  readonly study: LiveStudy;
  readonly values: Float64Array;
  readonly count: number;
}

/** Rows of one message: the page says how far the work is. */
const ROWS = 50;

/** What a worker thread does: one state in, its view or its field out. */
export function serveViews(): void {
  const scope = globalThis as unknown as {
    onmessage: ((event: MessageEvent<WorkerMessage | DesignsMessage>) => void) | null;
    postMessage(answer: RigView | RowBatch | FieldPhasors | null): void;
  };
  let study: LiveStudy | null = null;
  let viewer: Viewer | null = null;
  let fieldOf: ReturnType<typeof createFieldComputer> | null = null;
  scope.onmessage = ({ data }) => {
    if (data.kind === 'study') study = data.study;
    else if (data.kind === 'designs') {
      const { values, count } = data;
      const width = values.length / count;
      const evaluate = createEvaluator(data.study);
      for (let first = 0; first < count; first += ROWS) {
        const size = Math.min(ROWS, count - first);
        const batch = { first, count: size, values: values.slice(first * width, (first + size) * width) };
        scope.postMessage(evaluate(batch));
      }
    } else if (data.kind === 'field') {
      fieldOf ??= createFieldComputer(study!);
      scope.postMessage(fieldOf(data.request));
    } else {
      viewer ??= createViewer(study!);
      scope.postMessage(data.isWhole ? viewer.whole(data.slots) : viewer.quick(data.slots));
    }
  };
}
