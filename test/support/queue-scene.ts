import { setTimeout as pause } from 'node:timers/promises';
import { Redis } from 'ioredis';
import type { RowBatch } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { gridDesigns } from '../../src/plan/grid.ts';
import { queueAddress } from '../../src/queue/address.ts';
import type { Pace } from '../../src/queue/pace.ts';
import { runQueueWorker } from '../../src/queue/queue-worker.ts';
import type { RemoteWorkforce } from '../../src/queue/remote-settings.ts';
import { createRemoteWorkforce } from '../../src/queue/remote-workforce.ts';
import type { OpenStudy } from '../../src/queue/service.ts';
import { createSigner } from '../../src/queue/signature.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { evaluateStudy } from '../../src/run/evaluate-study.ts';
import type { Workforce } from '../../src/run/workforce.ts';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { checksum, digest } from '../../src/store/part-checksum.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { disturbedStudy } from './disturbed-study.ts';

/**
 * A coordinator and workers of a queue in one process, over a real Redis: the code of `run --queue` and `eddylift worker`
 * without processes and threads, on a clock that a test moves. A scene takes a second where the command line takes ten.
 */

/** Some seconds become tenths. */
export const FAST: Partial<Pace> = {
  coordinatorLook: 50,
  workerLook: 30,
  meet: 300,
  out: 150,
  claim: 600,
  stalled: 300,
};

export const ORIGIN = { code: 'a', catalogue: 'b', engine: 'c' };

/** Of 300 designs of plate thickness, turns and inner radius, cut into 19 pieces. */
export function studyOf(title: string, rest = '', edit = (text: string) => text): Study {
  const text = edit(
    disturbedStudy(title, rest).replace('step: 2}', 'step: 60}').replace('step: 1 mm}', 'step: 2 mm}'),
  );
  const reading = readStudy(text, { allowHuge: true });
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  return reading.study;
}

/** As `stampOf` makes them: 32 hexadecimal digits. */
export function stampFor(study: Study): string {
  return digest(Buffer.from(study.hash));
}

export function packingOf(study: Study, secret: string | null) {
  const stamp = stampFor(study);
  const format = createPartFormat(study, stamp);
  return { stamp, format, checksum, digest, wholePart: 2048, vary: study.vary, signer: createSigner(secret) };
}

/** Evaluates on this thread. */
export function hereWorkforce(
  study: Study,
  change: (rows: RowBatch) => RowBatch = (rows) => rows,
): Workforce {
  const evaluate = createEvaluator(study);
  return {
    ready: async () => {},
    ahead: 4,
    async do(_number, work) {
      if ('from' in work) throw new Error('a scene has no descents');
      await pause(1);
      return { rows: change(evaluate(work)) };
    },
    fault: null,
    giveBack() {},
    stop: async () => {},
  };
}

/** The rows that every scene must come to. */
export async function undisturbedRows(study: Study): Promise<RowBatch[]> {
  return (await rowsBy(study, hereWorkforce(study))).rows;
}

async function rowsBy(study: Study, workforce: Workforce, signal = new AbortController().signal) {
  const rows: RowBatch[] = [];
  const { interrupted } = await evaluateStudy({
    plan: createPlan(study),
    workforce,
    signal,
    onRows(_number, found) {
      const { packed, ...plain } = found;
      rows.push(structuredClone(plain));
    },
  });
  return { rows, interrupted };
}

export interface Clock {
  now(): number;
  /** Moves the clock on, ms. */
  advance(ms: number): void;
}

export function createClock(): Clock {
  let ahead = 0;
  return {
    now: () => Date.now() + ahead,
    advance(ms) {
      ahead += ms;
    },
  };
}

export interface SceneOptions {
  readonly url: string;
  readonly study: Study;
  readonly secret?: string | null;
  readonly pace?: Partial<Pace>;
  readonly clock?: Clock;
  readonly remote?: Partial<RemoteWorkforce>;
}

/** `run --queue`: resolves with the rows. */
export function coordinate({ url, study, secret = null, pace, clock = createClock(), remote }: SceneOptions) {
  const lines: string[] = [];
  const stop = new AbortController();
  const packing = packingOf(study, secret);
  let local = 0;
  const workforce = createRemoteWorkforce({
    address: queueAddress(url, null),
    announcement: { text: study.text, hash: study.hash, origin: ORIGIN },
    stamp: packing.stamp,
    packing,
    numbered: true,
    local: () => {
      const mine = hereWorkforce(study);
      return {
        ...mine,
        do(number, work) {
          if (!('from' in work) && work.count > 1) local++;
          return mine.do(number, work);
        },
      };
    },
    threads: 2,
    timeout: 600_000,
    atStart: 'refuse',
    print: (line) => lines.push(line),
    now: clock.now,
    pace: { ...FAST, ...pace },
    ...remote,
  });
  return {
    lines,
    clock,
    stamp: packing.stamp,
    /** Batches that were done here. */
    get local() {
      return local;
    },
    done: rowsBy(study, workforce, stop.signal),
    stop: () => stop.abort(),
  };
}

export interface WorkerScene extends Omit<SceneOptions, 'remote'> {
  readonly id?: string;
  /** What it makes of its rows. */
  readonly change?: (rows: RowBatch) => RowBatch;
}

/** `eddylift worker`, honest or not. */
export function work({ url, study, secret = null, pace, clock, id = 'bench-pc:1', change }: WorkerScene) {
  const lines: string[] = [];
  const stop = new AbortController();
  const packing = packingOf(study, secret);
  const ended = runQueueWorker({
    address: queueAddress(url, null),
    threads: 1,
    id,
    signer: packing.signer,
    open: async (announcement): Promise<OpenStudy | { unfit: string }> =>
      announcement.hash === study.hash
        ? {
            title: study.title,
            stamp: packing.stamp,
            width: study.vary.length,
            objectives: study.objectives.length,
            designs: (first, count) => gridDesigns(study.vary, first, count),
            packing,
            start: () => hereWorkforce(study, change),
          }
        : { unfit: 'no use for a study that it cannot read' },
    print: (line) => lines.push(line),
    signal: stop.signal,
    now: (clock ?? createClock()).now,
    pace: { ...FAST, ...pace },
  });
  return {
    lines,
    async stop() {
      stop.abort();
      await ended;
    },
  };
}

/** Waits until something holds; fails after a while, so that a test says what it waited for. */
export async function until(
  what: string,
  holds: () => boolean | Promise<boolean>,
  instead: () => string | Promise<string> = () => '',
): Promise<void> {
  for (let n = 0; n < 15_000; n++) {
    if (await holds()) return;
    await pause(20);
  }
  throw new Error(`in vain: ${what} ${await instead()}`);
}

/** Keys of the project, in order. */
export async function keysLeft(client: Redis): Promise<string[]> {
  return (await client.keys('eddylift*')).sort();
}

const clients: Redis[] = [];

/** A client of the test's own; closeClients ends them all. */
export function clientOf(url: string): Redis {
  const client = new Redis(url, { maxRetriesPerRequest: null });
  // its server may be killed
  client.on('error', () => {});
  clients.push(client);
  return client;
}

export function closeClients(): void {
  for (const client of clients.splice(0)) client.disconnect();
}
