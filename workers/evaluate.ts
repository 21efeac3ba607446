import { move, transferableSymbol, valueSymbol, workerData } from 'piscina';
import { createEvaluator } from '../src/rig/evaluate.ts';
import type { Reply, Request, WorkerData } from '../src/run/messages.ts';

const evaluate = createEvaluator((workerData as WorkerData).task);

/** A batch of designs in, columns out; nothing else. */
export default function answer(request: Request) {
  const reply: Reply = evaluate(request);
  const buffers = Object.values(reply).flatMap((value) => (ArrayBuffer.isView(value) ? [value.buffer] : []));
  return move({ [transferableSymbol]: buffers, [valueSymbol]: reply });
}
