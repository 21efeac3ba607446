import { performance } from 'node:perf_hooks';
import { inputByPath } from '../../src/model/inputs.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import type { Task, Varied } from '../../src/model/study.ts';
import { UNITS } from '../../src/model/units.ts';
import { createGrid } from '../../src/plan/grid.ts';
import type { BatchPlan } from '../../src/plan/plan.ts';
import { createPool, type Pool } from '../../src/run/pool.ts';
import { createTimeLimit } from '../../src/run/time-limit.ts';
import { FOYER, slotsOf } from '../support/design.ts';
import { type Spread, spreadOf } from './statistics.ts';

export interface Messaging {
  readonly designsPerBatch: number;
  /** us a design: evaluated on one worker thread, and sent there and back without being evaluated. */
  readonly evaluated: Spread;
  readonly sent: Spread;
  /** What sending is of the whole, percent. */
  readonly overhead: Spread;
}

const DESIGNS = 40_000;
const EMPTY_ROWS = new URL('./empty-rows.js', import.meta.url);

/**
 * What it costs to send batches to a thread and rows back, beside evaluating them. The threads last for all rounds:
 * neither their start nor the compiling of their code is messaging.
 */
export async function benchMessaging(rounds: number): Promise<Messaging> {
  const task = fortyThousandDesigns();
  const timeLimit = createTimeLimit(() => performance.now());
  const evaluating = createPool({
    task,
    stamp: '',
    threads: 1,
    batchesPerThread: 2,
    timeLimit,
    worker: undefined,
  });
  const answering = createPool({
    task,
    stamp: '',
    threads: 1,
    batchesPerThread: 2,
    timeLimit,
    worker: EMPTY_ROWS,
  });
  const evaluated: number[] = [];
  const sent: number[] = [];
  for (let round = -1; round < rounds; round++) {
    const whole = await timed(() => drain(createGrid(task.vary), evaluating));
    const messages = await timed(() => drain(createGrid(task.vary), answering));
    // the first round compiles
    if (round < 0) continue;
    evaluated.push(whole);
    sent.push(messages);
  }
  await Promise.all([evaluating.stop(), answering.stop()]);
  return {
    designsPerBatch: createGrid(task.vary).next()!.count,
    evaluated: spreadOf(evaluated),
    sent: spreadOf(sent),
    overhead: spreadOf(sent.map((messages, round) => (100 * messages) / evaluated[round]!)),
  };
}

/** us a design. */
async function timed(act: () => Promise<void>): Promise<number> {
  const began = performance.now();
  await act();
  return ((performance.now() - began) * 1000) / DESIGNS;
}

/** As a run does: a few batches ahead, rows taken in order. */
async function drain(plan: BatchPlan, pool: Pool): Promise<void> {
  const ahead: Promise<RowBatch>[] = [];
  do {
    while (ahead.length < 4 && !plan.done) ahead.push(pool.evaluate(plan.next()!));
    const rows = await ahead.shift();
    if (rows) pool.giveBack(rows);
  } while (ahead.length > 0);
}

function fortyThousandDesigns(): Task {
  const vary = [
    varied('plate.layers.0.thickness', (i) => (1 + i * 0.2) * 1e-3, 20),
    varied('coil.turns', (i) => 300 + i, 200),
    varied('coil.inner_radius', (i) => 0.04 + i * 0.002, 10),
  ];
  return {
    rig: { slots: slotsOf(FOYER), plateLayers: 1, windings: 0, texts: {} },
    vary,
    derive: [],
    limits: [],
    objectives: [],
  };
}

function varied(path: string, level: (i: number) => number, levels: number): Varied {
  return {
    kind: 'number',
    path,
    name: path,
    column: path,
    unit: UNITS.one,
    slot: inputByPath(path)!.slot,
    meaning: '',
    integer: false,
    levels: Float64Array.from({ length: levels }, (_, i) => level(i)),
  };
}
