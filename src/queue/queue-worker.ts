import { setTimeout as pause } from 'node:timers/promises';
import { type Job, Queue, WaitingError, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import type { Workforce } from '../run/workforce.ts';
import type { QueueAddress } from './address.ts';
import { type Announcement, MOST_BYTES, readAnnouncement } from './announcement.ts';
import { checkConnection, createLineWatch, describeTrouble, lasting } from './connection.ts';
import {
  ANNOUNCED_S,
  announcementKey,
  CLAIM_MS,
  metaKey,
  numberOf,
  PREFIX,
  RESULT_S,
  refusalsKey,
  resultKey,
  STALLED_MS,
  STAMP,
  STUDIES,
  WORKER_S,
  workersKey,
} from './keys.ts';
import { type Packing, toFields } from './result.ts';
import { fromMessage } from './work-message.ts';

/** A study as the worker itself makes it out of an announced text. */
export interface OpenStudy {
  readonly title: string;
  readonly stamp: string;
  /** How many inputs vary, and how many objectives there are. */
  readonly width: number;
  readonly objectives: number;
  readonly packing: Packing;
  /** Starts its threads, once it is clear that they are wanted. */
  readonly start: () => Workforce;
}

export interface Service {
  readonly address: QueueAddress;
  readonly threads: number;
  /** Names this worker to coordinators: host and process. */
  readonly id: string;
  /** What an announcement comes to here, or why this program cannot serve it. */
  readonly open: (announcement: Announcement) => OpenStudy | { readonly unfit: string };
  readonly say: (line: string) => void;
  readonly signal: AbortSignal;
  readonly now: () => number;
}

/** How often studies are looked for, ms. */
const LOOK_MS = 250;
/** While it works a worker says so this often, ms. */
const SAY_MS = 60_000;
/** Batches that a thread may hold at once. With two, the next lies ready while rows are sent. */
const BATCHES_PER_THREAD = 2;
/** Studies served at the same time; further ones wait. */
const MOST_STUDIES = 4;

interface Served extends OpenStudy {
  readonly worker: Worker;
  readonly workforce: Workforce;
  done: { batches: number; designs: number; since: number };
}

/** Takes work from a queue and brings back rows, for every study that is announced there, until the signal aborts. */
export async function runQueueWorker(service: Service): Promise<void> {
  const { address, threads, id, say, signal, now } = service;
  const line = createLineWatch(address, say);
  await checkConnection(address);
  const connection = lasting(address);
  const client = new Redis(connection);
  client.on('error', line.lost);
  client.on('ready', () => line.back());
  const served = new Map<string, Served>();
  const member = `${threads} ${id}`;
  /** Stamps of studies that this worker cannot serve, and why. */
  const unfit = new Map<string, string>();
  /** Stamps with something under their names that is none of ours. */
  const unreadable = new Set<string>();
  say(`serving ${address.shown} with ${threads} ${threads === 1 ? 'thread' : 'threads'}`);

  async function look(): Promise<void> {
    const stamps = (await client.smembers(STUDIES)).filter((stamp) => STAMP.test(stamp));
    // what is announced again is looked at again
    for (const known of [unfit, unreadable]) {
      for (const stamp of known.keys()) if (!stamps.includes(stamp)) known.delete(stamp);
    }
    for (const stamp of stamps) {
      if (unreadable.has(stamp)) continue;
      await visit(stamp).catch((error) => {
        if (signal.aborted) return;
        // the others go on
        unreadable.add(stamp);
        say(`cannot serve study ${stamp.slice(0, 8)}: ${describeTrouble(error)}`);
      });
    }
    const [seconds] = await client.time();
    for (const stamp of served.keys()) {
      if (!stamps.includes(stamp)) await close(stamp);
      else {
        await client.zadd(workersKey(stamp), Number(seconds), member);
        await client.expire(workersKey(stamp), ANNOUNCED_S);
      }
    }
    for (const study of served.values()) report(study);
  }

  async function visit(stamp: string): Promise<void> {
    if ((await client.exists(announcementKey(stamp))) === 0) await clearAway(stamp);
    else if (unfit.has(stamp)) await refuse(stamp);
    else if (!served.has(stamp) && served.size < MOST_STUDIES) await meet(stamp);
  }

  /** Said again as long as the study is there: its coordinator may be another one by now. */
  async function refuse(stamp: string): Promise<void> {
    await client.hset(refusalsKey(stamp), id, unfit.get(stamp)!);
    await client.expire(refusalsKey(stamp), WORKER_S);
  }

  /** Reads an announced study, and begins with it or says why not. */
  async function meet(stamp: string): Promise<void> {
    const key = announcementKey(stamp);
    if ((await client.strlen(key)) > MOST_BYTES) return;
    const announcement = readAnnouncement((await client.get(key)) ?? '');
    if (announcement === null) return;
    const study = service.open(announcement);
    const why =
      'unfit' in study ? study.unfit : study.stamp === stamp ? null : 'another stamp for this study';
    if ('unfit' in study || why !== null) {
      unfit.set(stamp, why!);
      await refuse(stamp);
      say(`cannot serve study ${stamp.slice(0, 8)}: this worker has ${why}`);
      return;
    }
    const workforce = study.start();
    try {
      await workforce.ready();
    } catch (error) {
      await workforce.stop();
      throw error;
    }
    if (signal.aborted) return void (await workforce.stop());
    const worker = new Worker(stamp, (job, token) => work(study, workforce, job, token), {
      connection,
      prefix: PREFIX,
      concurrency: threads * BATCHES_PER_THREAD,
      lockDuration: CLAIM_MS,
      stalledInterval: STALLED_MS,
    });
    // of a lost line the client hears, too; what else there is, a claim that went to another, others see to
    worker.on('error', () => {});
    served.set(stamp, { ...study, worker, workforce, done: { batches: 0, designs: 0, since: now() } });
    say(`taking work of "${study.title}"`);
  }

  async function work(
    study: OpenStudy,
    workforce: Workforce,
    job: Job,
    token: string | undefined,
  ): Promise<void> {
    const { stamp, packing, width, objectives } = study;
    const number = numberOf(job.id ?? '');
    const asked = fromMessage(job.data, width, objectives);
    if (number === null || asked === null) throw new Error('no work for this study');
    try {
      const done = await workforce.do(number, asked);
      const key = resultKey(stamp, number);
      try {
        await client.hset(key, { ...toFields(done, workforce.fault, id, packing) });
      } finally {
        workforce.giveBack(done.rows);
      }
      await client.expire(key, RESULT_S);
      const count = served.get(stamp)?.done;
      if (!count) return;
      count.batches++;
      count.designs += done.rows.count;
    } catch (error) {
      if (!signal.aborted && served.has(stamp)) throw error;
      // given back, for others to take at once
      await job.moveToWait(token);
      throw new WaitingError();
    }
  }

  function report(study: Served): void {
    const { done, title } = study;
    const seconds = (now() - done.since) / 1000;
    if (seconds * 1000 < SAY_MS) return;
    study.done = { batches: 0, designs: 0, since: now() };
    if (done.batches === 0) return;
    const count = (n: number) => Math.round(n).toLocaleString('en');
    say(`"${title}": ${count(done.batches)} batches, ${count(done.designs / seconds)} designs/s`);
  }

  async function close(stamp: string): Promise<void> {
    const study = served.get(stamp);
    if (!study) return;
    served.delete(stamp);
    await study.workforce.stop();
    await study.worker.close();
    // the coordinator may have cleared away before this worker last said that it is there
    await client.zrem(workersKey(stamp), member);
    if (!signal.aborted) say(`done with "${study.title}"`);
  }

  /** What is left of a study whose coordinator is no more. */
  async function clearAway(stamp: string): Promise<void> {
    await close(stamp);
    // it would otherwise note its version, perhaps after all else is gone
    const queue = new Queue(stamp, { connection, prefix: PREFIX, skipMetasUpdate: true });
    queue.on('error', () => {});
    // where another worker or the coordinator is at it, too, one of them gets through
    await queue.obliterate({ force: true }).catch(() => {});
    await queue.close();
    await client.del(metaKey(stamp));
    // last, so that what is cut off is begun again
    await client.srem(STUDIES, stamp);
  }

  const aborted = new Promise<void>((resolve) => {
    signal.addEventListener('abort', () => resolve(), { once: true });
  });
  while (!signal.aborted) {
    const looked = look().then(line.back, (error) => {
      if (!signal.aborted) line.lost(error);
    });
    // where the line is lost, a look has no end
    await Promise.race([looked, aborted]);
    await pause(LOOK_MS, undefined, { signal }).catch(() => {});
  }
  await Promise.race([
    Promise.allSettled([...served.keys()].map(close)),
    pause(LONGEST_END_MS, undefined, { ref: false }),
  ]);
  client.disconnect();
}

/** To give back what is under way takes less than this, ms; what is not given back stalls and goes to others. */
const LONGEST_END_MS = 1200;
