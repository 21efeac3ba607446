import type { RowBatch } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import type { DescentReport, Work } from '../plan/plan.ts';
import { type Evaluation, isolateDescent, isolateFault } from './isolate-fault.ts';
import { createPool, createQuarantine, type Pool, type Quarantine } from './pool.ts';
import type { TimeLimit } from './time-limit.ts';

/** Work that came back; `report` is a descent's. */
export interface Done {
  readonly rows: RowBatch;
  readonly report?: DescentReport | null;
}

/** Who evaluates, here or elsewhere: every piece of work comes back with its rows, come what may. */
export interface Workforce {
  /** Resolves when work can be done; throws when it never can. */
  ready(): Promise<void>;
  /** Pieces of work handed out and not yet taken: bounds memory when designs outrun the tables. */
  readonly ahead: number;
  /** `number` counts the work of a plan, from 0. Rejects only once stopped. */
  do(number: number, work: Work): Promise<Done>;
  /** Hears what broke off the first design whose evaluation threw; null when none did. */
  readonly fault: string | null;
  /** Takes rows that it brought and nobody looks at any more: their memory is used again. */
  giveBack(rows: RowBatch): void;
  /** Stops, whatever is under way; what is pending rejects. Resolves when all is gone. */
  stop(): Promise<void>;
}

export interface LocalWorkforce {
  readonly task: Task;
  /** Marks the parts that its rows go into. */
  readonly stamp: string;
  readonly threads: number;
  /** How many designs there are, where that is known. */
  readonly designs?: number;
  /** When to give up on a worker. */
  readonly timeLimit: TimeLimit;
  /** For tests: a worker other than the project's own. */
  readonly worker?: URL;
}

const AHEAD_PER_THREAD = 4;

/** Worker threads of this process can be tried out. */
export type Workers = Workforce & Pick<Pool, 'time'>;

export function createLocalWorkforce(options: LocalWorkforce): Workers {
  const { task, stamp, threads, designs = 0, timeLimit, worker } = options;
  const pool = createPool({ task, stamp, threads, designs, batchesPerThread: 2, timeLimit, worker });
  let quarantine: Quarantine | null = null;
  let stopped = false;
  let fault: string | null = null;
  const evaluation: Evaluation = {
    task,
    pool,
    quarantine: () => {
      quarantine ??= createQuarantine({ task, stamp, timeLimit, worker });
      return quarantine;
    },
    stopped: () => stopped,
    onFault: (message) => {
      fault ??= message;
    },
  };
  return {
    // no designs: distinguishes a worker that cannot be loaded at all from a design that breaks it
    ready: async () => void (await pool.evaluate({ first: 0, count: 0, values: new Float64Array(0) })),
    ahead: threads * AHEAD_PER_THREAD,
    do: async (_number, work) =>
      'from' in work ? isolateDescent(work, evaluation) : { rows: await isolateFault(work, evaluation) },
    get fault() {
      return fault;
    },
    time: pool.time,
    giveBack: pool.giveBack,
    async stop() {
      stopped = true;
      await Promise.all([pool.stop(), quarantine?.stop()]);
    },
  };
}
