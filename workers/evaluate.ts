import { move, transferableSymbol, valueSymbol, workerData } from 'piscina';
import { failedRows } from '../src/model/failed-rows.ts';
import { quantityColumns } from '../src/model/quantities.ts';
import { joinBatches } from '../src/model/row-batches.ts';
import type { DesignBatch, RowBatch } from '../src/model/rows.ts';
import { sharedBytes } from '../src/model/shared-memory.ts';
import { runDescent } from '../src/plan/descent.ts';
import type { Descent } from '../src/plan/plan.ts';
import { createSpace } from '../src/plan/space.ts';
import { createEvaluator } from '../src/rig/evaluate.ts';
import { createGaps } from '../src/rig/judge.ts';
import type {
  BatchRequest,
  DescentReply,
  Reply,
  Request,
  TrialReply,
  WorkerData,
} from '../src/run/messages.ts';
import { type Moment, timePerDesign } from '../src/run/time-per-design.ts';
import { createPartFormat, WHOLE_PART } from '../src/store/part-bytes.ts';
import { checksum } from '../src/store/part-checksum.ts';

const { task, stamp } = workerData as WorkerData;
const evaluate = createEvaluator(task);
const format = createPartFormat(task, stamp);
const gaps = createGaps(task);
const senses = task.objectives.map(({ sense }) => sense);

function moment(): Moment {
  const { user, system } = process.cpuUsage();
  return { wall: performance.now(), busy: (user + system) / 1000 };
}

/**
 * Three kinds of task and no other: a batch of designs in, columns out; a start in, the rows of its descent out; a sample in,
 * the time that one design takes out.
 */
export default function answer(request: Request) {
  if ('sample' in request) {
    const { sample, designs, state } = request;
    return timePerDesign(evaluate, sample, moment, state, designs) satisfies TrialReply;
  }
  if ('from' in request) {
    const reply = descend(request);
    return moved(reply, reply.rows);
  }
  const reply = request.count < WHOLE_PART ? evaluateFew(request) : evaluatePart(request);
  return moved(reply, reply);
}

/** Rows that share a part with others: what is large of them lies in shared memory, the rest is moved. */
function evaluateFew({ memory, ...batch }: BatchRequest): Reply {
  const cells = batch.count * quantityColumns(task.requested);
  const { buffer } = sharedBytes(cells * Float64Array.BYTES_PER_ELEMENT, memory);
  return evaluate(batch, new Float64Array(buffer, 0, cells));
}

/**
 * Rows enough for a part of their own travel as views of its bytes: one block, made here, not where all rows meet. Quantities
 * are computed where they lie in it.
 */
function evaluatePart({ memory, ...batch }: BatchRequest): Reply {
  const room = format.begin(batch.count, (length) => sharedBytes(length, memory));
  const rows = room.finish(evaluate(batch, room.quantities));
  return { ...rows, packed: { bytes: room.bytes, checksum: checksum(room.bytes) } };
}

function descend(descent: Descent): DescentReply {
  let fault: string | null = null;
  const evaluateOne = (batch: DesignBatch): RowBatch => {
    try {
      return evaluate(batch);
    } catch (error) {
      fault ??= error instanceof Error ? error.message : String(error);
      return failedRows(batch, task);
    }
  };
  const space = createSpace(task.vary, descent.settings.resolution);
  const { rows, report } = runDescent(space, senses, descent, { evaluate: evaluateOne, gaps });
  return { rows: joinBatches(rows), report, fault };
}

/** What is shared stays where it is. */
function moved(reply: Reply | DescentReply, rows: RowBatch) {
  const buffers = new Set(
    Object.values(rows)
      .flatMap((value) => (ArrayBuffer.isView(value) ? [value.buffer] : []))
      .filter((buffer) => buffer instanceof ArrayBuffer),
  );
  return move({ [transferableSymbol]: [...buffers], [valueSymbol]: reply });
}
