import { setTimeout as pause } from 'node:timers/promises';
import { type Job, WaitingError, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import type { Workforce } from '../run/workforce.ts';
import type { QueueAddress } from './address.ts';
import { type Announcement, MOST_BYTES, printable, readAnnouncement } from './announcement.ts';
import { clearQueue, nameOrphans } from './clear-queue.ts';
import { checkConnection, createLineWatch, describeTrouble, lasting } from './connection.ts';
import {
  ANNOUNCED_S,
  announcementKey,
  excludedKey,
  numberOf,
  PREFIX,
  RESULT_S,
  refusalsKey,
  resultKey,
  STAMP,
  STUDIES,
  WORKER_S,
  workersKey,
} from './keys.ts';
import { PACE, type Pace } from './pace.ts';
import { type Packing, toFields } from './result.ts';
import type { Signer } from './signature.ts';
import { openWork } from './work-message.ts';

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
  readonly signer: Signer;
  /**
   * What an announcement comes to here, or why this program cannot serve it. Takes no longer and no more memory than it
   * should, whatever the text is.
   */
  readonly open: (announcement: Announcement) => Promise<OpenStudy | { readonly unfit: string }>;
  readonly say: (line: string) => void;
  readonly signal: AbortSignal;
  readonly now: () => number;
  /** For tests. */
  readonly pace?: Partial<Pace>;
}

/** While it works a worker says so this often, ms. */
const SAY_MS = 60_000;
/** Batches that a thread may hold at once. With two, the next lies ready while rows are sent. */
const BATCHES_PER_THREAD = 2;
/** Studies served at the same time; further ones wait. */
const MOST_STUDIES = 4;
/** Announced studies that are looked at; what is beyond is left to others. */
const MOST_ANNOUNCED = 1000;
/** To give back what is under way takes less than this, ms; what is not given back stalls and goes to others. */
const LONGEST_END_MS = 1200;

interface Served extends OpenStudy {
  readonly worker: Worker;
  readonly workforce: Workforce;
  /** Since it was last told. */
  done: { batches: number; designs: number; since: number };
}

/** Takes work from a queue and brings back rows, for every study that is announced there, until the signal aborts. */
export async function runQueueWorker(service: Service): Promise<void> {
  const { address, threads, id, signer, say, signal, now } = service;
  const pace = { ...PACE, ...service.pace };
  const line = createLineWatch(address, say);
  const { warning } = await checkConnection(address, null, pace);
  if (warning !== null) say(warning);
  const connection = lasting(address, pace);
  const client = new Redis(connection);
  client.on('error', line.lost);
  client.on('ready', () => line.back());
  const served = new Map<string, Served>();
  const member = `${threads} ${id}`;
  /** Stamps of studies that this worker cannot serve, and why. */
  const unfit = new Map<string, string>();
  /** Stamps with something under their names that is none of ours. */
  const unreadable = new Set<string>();
  /** The study that is being read; one at a time. */
  let nextSweep = now();
  const opening = new Map<string, Promise<void>>();
  say(`serving ${address.shown} with ${threads} ${threads === 1 ? 'thread' : 'threads'}`);
  if (!signer.hasSecret) {
    say(
      'work and results are not signed: whoever can write to the queue can send some (EDDYLIFT_QUEUE_SECRET, see docs/many-machines.md)',
    );
  }

  async function look(): Promise<void> {
    if (now() >= nextSweep) {
      nextSweep = now() + pace.sweep;
      await nameOrphans(client);
    }
    const stamps = (await client.smembers(STUDIES))
      .filter((stamp) => STAMP.test(stamp))
      .slice(0, MOST_ANNOUNCED);
    // what is announced again is looked at again
    for (const known of [unfit, unreadable]) {
      for (const stamp of known.keys()) if (!stamps.includes(stamp)) known.delete(stamp);
    }
    for (const stamp of stamps) {
      if (unreadable.has(stamp)) continue;
      await visit(stamp).catch((error) => setAside(stamp, error));
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

  /** The others go on. */
  function setAside(stamp: string, error: unknown): void {
    if (signal.aborted) return;
    unreadable.add(stamp);
    say(`cannot serve study ${stamp.slice(0, 8)}: ${describeTrouble(error)}`);
  }

  async function visit(stamp: string): Promise<void> {
    if ((await client.exists(announcementKey(stamp))) === 0) {
      await close(stamp);
      await clearQueue(client, stamp);
    } else if (unfit.has(stamp)) await refuse(stamp);
    else if (served.has(stamp)) await heedExclusion(stamp);
    else if (opening.size === 0 && served.size < MOST_STUDIES) {
      const end = meet(stamp)
        .catch((error) => setAside(stamp, error))
        .finally(() => opening.delete(stamp));
      opening.set(stamp, end);
    }
  }

  /** Said again as long as the study is there: its coordinator may be another one by now. */
  async function refuse(stamp: string): Promise<void> {
    const why = unfit.get(stamp)!;
    if (why === '') return;
    await client.hset(refusalsKey(stamp), id, why);
    await client.expire(refusalsKey(stamp), WORKER_S);
  }

  /** A coordinator that has caught this worker with wrong rows takes no more of them. */
  async function heedExclusion(stamp: string): Promise<void> {
    const why = await client.hget(excludedKey(stamp), id);
    if (why === null) return;
    say(
      `"${served.get(stamp)!.title}": this worker computes something else than the coordinator (${printable(why)})`,
    );
    // the coordinator has said so, and need not hear of it
    unfit.set(stamp, '');
    await close(stamp);
  }

  /** Reads an announced study, and begins with it or says why not. */
  async function meet(stamp: string): Promise<void> {
    const key = announcementKey(stamp);
    if ((await client.strlen(key)) > MOST_BYTES) throw new Error('its text is too long');
    const announcement = readAnnouncement((await client.get(key)) ?? '', stamp, signer);
    if (announcement === null) throw new Error('what is announced is no study');
    const study =
      'unsigned' in announcement
        ? { unfit: `no part in this study: ${announcement.unsigned}` }
        : await service.open(announcement);
    const why =
      'unfit' in study ? study.unfit : study.stamp === stamp ? null : 'another stamp for this study';
    if ('unfit' in study || why !== null) {
      unfit.set(stamp, why!);
      await refuse(stamp);
      say(`cannot serve study ${stamp.slice(0, 8)}: this worker has ${why}`);
      return;
    }
    if (signal.aborted) return;
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
      name: id,
      concurrency: threads * BATCHES_PER_THREAD,
      lockDuration: pace.claim,
      stalledInterval: pace.stalled,
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
    const { stamp, packing } = study;
    const number = numberOf(job.id ?? '');
    const wanted = number === null ? null : openWork(job.data, number, { ...study, signer });
    if (number === null || wanted === null) throw new Error('no work for this study');
    try {
      const done = await workforce.do(number, wanted);
      const key = resultKey(stamp, number);
      try {
        // together, so that no result stays for ever; and none of a study whose coordinator has gone meanwhile
        if ((await client.exists(announcementKey(stamp))) === 1) {
          const fields = toFields(done, number, workforce.fault, id, packing);
          await client
            .multi()
            .hset(key, { ...fields })
            .expire(key, RESULT_S)
            .exec();
        }
      } finally {
        workforce.giveBack(done.rows);
      }
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
    if (!signal.aborted && !unfit.has(stamp)) say(`done with "${study.title}"`);
    await client.zrem(workersKey(stamp), member);
    // the coordinator has cleared away; what this worker has put there since goes, too
    if ((await client.exists(announcementKey(stamp))) === 0) await clearQueue(client, stamp);
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
    await pause(pace.workerLook, undefined, { signal }).catch(() => {});
  }
  await Promise.race([
    Promise.allSettled([...[...served.keys()].map(close), ...opening.values()]),
    pause(LONGEST_END_MS, undefined, { ref: false }),
  ]);
  client.disconnect();
}
