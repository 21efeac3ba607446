import { describe, expect, it } from 'vitest';
import { failedRows } from '../../src/model/failed-rows.ts';
import { QUANTITIES, quantityColumns } from '../../src/model/quantities.ts';
import { column, type DesignBatch, type RowBatch } from '../../src/model/rows.ts';
import { REASON, STATUS } from '../../src/model/status.ts';
import type { Task } from '../../src/model/study.ts';
import type { JudgedRows } from '../../src/plan/candidate.ts';
import type { DescentReport, Work } from '../../src/plan/plan.ts';
import { evaluateStudy, type StudyRun } from '../../src/run/evaluate-study.ts';
import { createTimeLimit } from '../../src/run/time-limit.ts';
import { createLocalWorkforce, type LocalWorkforce } from '../../src/run/workforce.ts';
import { whole } from '../support/nightly.ts';

/** Past 300 lines: every case drives the same small plans through the same workers. */
const task: Task = {
  rig: { slots: new Float64Array(QUANTITIES.length), plateLayers: 1, windings: 0, texts: {} },
  vary: [],
  derive: [],
  limits: [],
  objectives: [],
};

function worker(name: string): URL {
  return new URL(`../fixtures/workers/${name}.mjs`, import.meta.url);
}

/** Designs 0, 1, 2, ... whose one value is their number, in batches of these sizes, the last repeating. */
function counting(total: number, ...sizes: number[]) {
  let first = 0;
  let batches = 0;
  return {
    told: [] as number[],
    get done() {
      return first >= total;
    },
    next(): DesignBatch | null {
      if (first >= total) return null;
      const count = Math.min(sizes[Math.min(batches++, sizes.length - 1)]!, total - first);
      const start = first;
      first += count;
      return { first: start, count, values: Float64Array.from({ length: count }, (_, i) => start + i) };
    },
    receive(rows: RowBatch) {
      this.told.push(rows.first);
    },
  };
}

type Options = Partial<StudyRun> & Partial<LocalWorkforce> & { worker: URL };

async function run({ worker, ...options }: Options) {
  const batches: RowBatch[] = [];
  const outcome = await evaluateStudy({
    plan: counting(40, 8),
    workforce: createLocalWorkforce({
      task,
      stamp: 'a stamp',
      threads: 2,
      timeLimit: createTimeLimit(Date.now),
      worker,
      ...options,
    }),
    signal: new AbortController().signal,
    onRows: (_number, rows) => {
      batches.push(rows);
    },
    ...options,
  });
  const values = batches.flatMap((rows) => [...rows.values]);
  const status = batches.flatMap((rows) => [...rows.status]);
  const reason = batches.flatMap((rows) => [...rows.reason]);
  return { outcome, batches, values, status, reason };
}

const inOrder = Array.from({ length: 40 }, (_, i) => i);

describe('evaluateStudy', () => {
  it('delivers every row once and in design order, although later batches come back first', async () => {
    const plan = counting(40, 8);
    const progress: number[] = [];
    const { outcome, values } = await run({
      plan,
      worker: worker('later-first'),
      onProgress: (done) => progress.push(done),
    });
    expect(values).toEqual(inOrder);
    expect(plan.told).toEqual([0, 8, 16, 24, 32]);
    expect(progress).toEqual([8, 16, 24, 32, 40]);
    expect(outcome).toEqual({ interrupted: false, designs: 40, fault: null });
  });

  it('hands out no more than a few batches a thread ahead of what the tables have taken', async () => {
    const plan = counting(1000, 1);
    let handedOut = 0;
    let taken = 0;
    let farthest = 0;
    await run({
      plan: {
        get done() {
          return plan.done;
        },
        next() {
          handedOut++;
          farthest = Math.max(farthest, handedOut - taken);
          return plan.next();
        },
        receive: (rows) => plan.receive(rows as RowBatch),
      },
      worker: worker('echo'),
      onRows: async () => {
        await new Promise((resolve) => setImmediate(resolve));
        taken++;
      },
    });
    expect(taken).toBe(1000);
    expect(farthest).toBeLessThanOrEqual(2 * 4 + 1);
  });

  it('waits with a plan that must be told rows before it goes on', async () => {
    let told = 0;
    let next = 0;
    const { values } = await run({
      plan: {
        get done() {
          return next === 5;
        },
        next: () =>
          next === 5 || next > told ? null : { first: next, count: 1, values: Float64Array.of(next++) },
        receive: () => {
          told++;
        },
      },
      worker: worker('echo'),
    });
    expect(values).toEqual([0, 1, 2, 3, 4]);
  });

  it('reports a plan that is not done and hands out nothing, instead of waiting for ever', async () => {
    const stuck = { done: false, next: () => null, receive: () => {} };
    await expect(run({ plan: stuck, worker: worker('echo') })).rejects.toThrow('hands out nothing');
  });

  it.each(['throws-at-13', 'dies-at-13'])(
    'makes a failed row of the one design that breaks its worker (%s), and keeps all others',
    async (name) => {
      const { outcome, batches, values, status, reason } = await run({ worker: worker(name) });
      expect(values).toEqual(inOrder);
      expect(status).toEqual(inOrder.map((i) => (i === 13 ? STATUS.failed : STATUS.lifts)));
      expect(reason[13]).toBe(REASON.threw);
      expect(outcome.fault).toMatch(/unlucky design|exited/);
      const broken = batches[1]!;
      expect(broken.feasible[5]).toBe(0);
      // column c of the fixture holds the design's number plus c
      expect([...column(broken, broken.quantities, 2)]).toEqual([10, 11, 12, 13, 14, Number.NaN, 16, 17]);
      expect(broken.count).toBe(8);
    },
  );

  it.runIf(whole)(
    'makes a failed row of the one design that never answers, and keeps all others',
    async () => {
      const { outcome, values, status } = await run({
        plan: counting(16, 13, 1, 2),
        worker: worker('hangs-at-13'),
        // a batch of one is 13, which never answers; others may take as long as a busy machine wants
        timeLimit: { limit: (count) => (count === 1 ? 1000 : 100_000), start: () => () => {} },
      });
      expect(values).toEqual(inOrder.slice(0, 16));
      expect(status).toEqual(values.map((i) => (i === 13 ? STATUS.failed : STATUS.lifts)));
      expect(outcome.fault).toBe('no answer within 1 s');
    },
  );

  it.runIf(whole)(
    'makes a failed row of the one design that uses up the memory, and keeps all others',
    async () => {
      const { outcome, values, status } = await run({
        plan: counting(16, 4),
        worker: worker('fills-memory-at-13'),
        // on a busy machine that takes longer than any limit that others' time suggests
        timeLimit: { limit: () => 300_000, start: () => () => {} },
      });
      expect(values).toEqual(inOrder.slice(0, 16));
      expect(status).toEqual(values.map((i) => (i === 13 ? STATUS.failed : STATUS.lifts)));
      expect(outcome.fault).toMatch(/memory/);
    },
  );

  it('asks no worker for what an earlier run has left, and tells the plan of it in its turn', async () => {
    const plan = counting(40, 8);
    const progress: [done: number, kept: boolean][] = [];
    const values = Float64Array.from({ length: 8 }, (_, i) => 8 + i);
    const rows = { ...failedRows({ first: 8, count: 8, values }, task), reason: new Uint8Array(8) };
    const { outcome, ...found } = await run({
      plan,
      // it would die of design 13
      worker: worker('dies-at-13'),
      kept: async (number) => (number === 1 ? { rows, report: null } : null),
      onProgress: (...heard) => progress.push(heard),
    });
    expect(found.values).toEqual(inOrder);
    expect(found.batches[1]).toBe(rows);
    expect(outcome.fault).toBeNull();
    expect(plan.told).toEqual([0, 8, 16, 24, 32]);
    expect(progress.map(([, kept]) => kept)).toEqual([false, true, false, false, false]);
  });

  it('survives the death of its only thread', async () => {
    const { values, status } = await run({ worker: worker('dies-at-13'), threads: 1 });
    expect(values).toEqual(inOrder);
    expect(status.filter((code) => code === STATUS.failed)).toHaveLength(1);
  });

  it('tries a batch again before it blames a design', async () => {
    const { outcome, status } = await run({ worker: worker('throws-once') });
    expect(status.every((code) => code === STATUS.lifts)).toBe(true);
    expect(outcome.fault).toBeNull();
  });

  it('gives a failed row one empty cell a quantity, derived quantity and objective', async () => {
    const one = { text: '', program: [] } as never;
    const { batches } = await run({
      plan: {
        done: true,
        next: once({ first: 13, count: 1, values: Float64Array.of(13) }),
        receive: () => {},
      },
      task: { ...task, derive: [one], objectives: [one, one] },
      worker: worker('throws-at-13'),
    });
    const [row] = batches;
    expect([...row!.quantities]).toEqual(new Array(quantityColumns()).fill(Number.NaN));
    expect([...row!.derived]).toEqual([Number.NaN]);
    expect([...row!.objectives]).toEqual([Number.NaN, Number.NaN]);
  });

  it('throws when the worker cannot be loaded at all', async () => {
    await expect(run({ worker: worker('does-not-load') })).rejects.toThrow('cannot be loaded');
  });

  it('stops threads that never answer when its signal aborts, and resolves as interrupted', async () => {
    const controller = new AbortController();
    const running = run({ worker: worker('hangs'), signal: controller.signal });
    setTimeout(() => controller.abort(), 50);
    const { outcome } = await running;
    expect(outcome).toEqual({ interrupted: true, designs: 0, fault: null });
  });

  it('starts nothing when it is aborted before it begins', async () => {
    const { outcome, values } = await run({ worker: worker('hangs'), signal: AbortSignal.abort() });
    expect(outcome.interrupted).toBe(true);
    expect(values).toEqual([]);
  });

  it('ends with the error of whoever takes the rows', async () => {
    const onRows = () => {
      throw new Error('disk full');
    };
    await expect(run({ worker: worker('echo'), onRows })).rejects.toThrow('disk full');
  });
});

/** Two batches, then as many descents as there are starts, all at once. */
function descending(starts: number) {
  const told: [first: number, count: number, report: DescentReport | undefined][] = [];
  let next = 0;
  return {
    told,
    get done() {
      return told.length === 2 + starts;
    },
    next(): Work | null {
      const number = next;
      if (number < 2) {
        next++;
        return { first: number, count: 1, values: Float64Array.of(number) };
      }
      if (told.length < 2 || number >= 2 + starts) return null;
      next++;
      const design = Float64Array.of(100 * number);
      const from = { id: 0, design, costs: Float64Array.of(0), violation: 0 };
      const settings = { evaluations: 3, tolerance: 1, resolution: 1 };
      return { start: number - 2, seed: 1, from, objective: 0, caps: [], extents: [], settings };
    },
    receive(rows: JudgedRows, report?: DescentReport) {
      told.push([rows.first, rows.count, report]);
    },
  };
}

describe('evaluateStudy with descents', () => {
  const ended = { best: 2, feasible: true, end: 'settled' } as const;

  it('numbers the rows of descents on from one another, in the order of the starts', async () => {
    const plan = descending(3);
    const { outcome, values, batches } = await run({ plan, worker: worker('descent-of-three') });
    expect(plan.told).toEqual([
      [0, 1, undefined],
      [1, 1, undefined],
      [2, 3, ended],
      [5, 3, ended],
      [8, 3, ended],
    ]);
    expect(values).toEqual([0, 1, 200, 201, 202, 300, 301, 302, 400, 401, 402]);
    expect(batches.map(({ first }) => first)).toEqual([0, 1, 2, 5, 8]);
    expect(outcome).toEqual({ interrupted: false, designs: 11, fault: 'unlucky design' });
  });

  it('makes a failed row of the start of a descent that takes its thread with it, and goes on', async () => {
    const plan = descending(2);
    const { outcome, values, status, reason } = await run({ plan, worker: worker('descent-kills') });
    expect(values).toEqual([0, 1, 200, 300]);
    expect(status.slice(2)).toEqual([STATUS.failed, STATUS.failed]);
    expect(reason.slice(2)).toEqual([REASON.threw, REASON.threw]);
    expect(plan.told[3]).toEqual([3, 1, { best: 0, feasible: false, end: 'broken off' }]);
    expect(outcome.fault).toMatch(/exited/);
  });
});

function once(batch: DesignBatch) {
  let given = false;
  return () => {
    if (given) return null;
    given = true;
    return batch;
  };
}
