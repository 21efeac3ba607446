import { move, transferableSymbol, valueSymbol, workerData } from 'piscina';
import { createRestingLast } from '../src/front/resting-last.ts';
import { column } from '../src/model/rows.ts';
import { createRejudge } from '../src/rig/judge.ts';
import type { RejudgeData, RejudgeReply, RejudgeRequest } from '../src/run/rejudge.ts';
import { createPartFormat } from '../src/store/part-bytes.ts';
import { formatPartName } from '../src/store/part-name.ts';
import { createReadBuffer, type ReadBuffer, readPart } from '../src/store/parts.ts';

const { folder, stamp, shape, task } = workerData as RejudgeData;
const format = createPartFormat(shape, stamp);
const judge = createRejudge(task);
const senses = task.objectives.map(({ sense }) => sense);

/** Of answers under way, each has its own. */
const free: ReadBuffer[] = [];

/** Parts of a result in, the front of their rows under other limits and objectives out, and where descents start. */
export default async function answer(parts: RejudgeRequest) {
  const archive = createRestingLast(senses);
  let designs = 0;
  let feasible = 0;
  const starts: number[] = [];
  const buffer = free.pop() ?? createReadBuffer();
  for (const name of parts) {
    const part = await readPart(folder, name, format, buffer);
    if (typeof part === 'string') {
      return { damaged: `${formatPartName(name)}: ${part}` } satisfies RejudgeReply;
    }
    const rows = judge(part.rows);
    designs += rows.count;
    let first = rows.first;
    for (const [count, report] of part.batches) {
      // only a descent comes with a report
      if (report !== null) starts.push(first);
      first += count;
    }
    for (const one of rows.feasible) feasible += one;
    archive.add(
      rows,
      senses.map((_, i) => column(rows, rows.objectives, i)),
    );
  }
  free.push(buffer);
  const fronts = archive.fronts();
  const reply: RejudgeReply = { designs, feasible, fronts, starts };
  const moved = [fronts.others, fronts.resting].flatMap(({ ids, columns }) =>
    [ids, ...columns].map(({ buffer }) => buffer),
  );
  return move({ [transferableSymbol]: moved, [valueSymbol]: reply });
}
