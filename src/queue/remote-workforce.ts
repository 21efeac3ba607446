import { setTimeout as pause } from 'node:timers/promises';
import { Queue, QueueEvents } from 'bullmq';
import { Redis } from 'ioredis';
import { createRandom } from '../math/random.ts';
import type { RowBatch } from '../model/rows.ts';
import type { Work } from '../plan/plan.ts';
import type { Done, Workforce } from '../run/workforce.ts';
import { formatDuration } from '../text/duration.ts';
import type { QueueAddress } from './address.ts';
import { type Announcement, printable, writeAnnouncement } from './announcement.ts';
import { clearQueue } from './clear-queue.ts';
import { checkConnection, createLineWatch, describeTrouble, lasting } from './connection.ts';
import {
  ANNOUNCED_S,
  announcementKey,
  excludedKey,
  jobId,
  numberOf,
  PREFIX,
  refusalsKey,
  resultKey,
  STUDIES,
  stalledCheckKey,
  WORKER_S,
  workersKey,
} from './keys.ts';
import { PACE, type Pace } from './pace.ts';
import { chooseRows, differenceOf, singleDesign } from './recompute.ts';
import { fromFields, type Packing, type Returned } from './result.ts';
import { createStandstill } from './standstill.ts';
import { sealWork } from './work-message.ts';

/** Past 300 lines: what becomes of a piece of work, whoever loses, holds or forges it, is one state in one place. */

export interface RemoteWorkforce {
  readonly address: QueueAddress;
  readonly announcement: Announcement;
  /** Names the queue. */
  readonly stamp: string;
  readonly packing: Packing;
  /** Threads of this machine: one, to compute single designs again and what no worker brings back, or all of them. */
  readonly local: (threads: number) => Workforce;
  readonly threads: number;
  /** How long to wait for a queue from which nothing comes back, ms. */
  readonly patience: number;
  /** What becomes of a run whose queue cannot be used at the start. */
  readonly atStart: 'refuse' | 'wait' | 'go on alone';
  /** Hears that this machine goes on by itself. */
  readonly onAlone?: () => void;
  /** Takes a line for the user. */
  readonly say: (line: string) => void;
  /** ms. */
  readonly now: () => number;
  /** For tests. */
  readonly pace?: Partial<Pace>;
}

/** Pieces of work looked after at a time. */
const LOOKED_AFTER = 64;
/** Work that came to nothing so often is done here. */
const TRIES = 3;
/** Pieces of work under way: a few a thread of the workers, ... */
const AHEAD_PER_THREAD = 6;
const FEWEST_AHEAD = 8;
const MOST_AHEAD = 1024;
/** ... and no more rows than these, some 150 MB, here and in Redis. */
const MOST_ROWS = 2 ** 18;
const FEWEST_AT_ANY_SIZE = 16;
/**
 * Of each piece of work a design or two are computed again here. Of pieces of fewer designs than this that is so of one
 * in so many designs, and always the first of a worker: generations of a search come in pieces of one or two, and computing each
 * again would leave nothing for the workers to gain. No piece of a grid is smaller.
 */
const CHECK_EVERY = 16;
/** Pieces that workers held without a result, or times that others wrote over the queue's keys: then it is left alone. */
const MOST_HELD = 64;
const MOST_REPAIRS = 3;
/** The end of a program is not held up for longer, ms. */
const CLEAR_MS = 700;

interface Piece {
  readonly number: number;
  readonly work: Work;
  readonly resolve: (done: Done) => void;
  readonly reject: (error: unknown) => void;
  /** When it was handed out, and when a worker claimed it. */
  since: number;
  heldSince: number | null;
  /** Its turn among those that are looked after. */
  looked: number;
  tries: number;
  /** A result is being computed again. */
  checking: boolean;
}

/**
 * Workers at a queue. What is under way is known here alone, piece by piece: whatever becomes of queue and workers, a
 * piece is handed out until it has come back, and counts once. When nothing comes back any more, threads of this
 * machine do it all.
 */
export function createRemoteWorkforce(remote: RemoteWorkforce): Workforce {
  const { address, announcement, stamp, packing, say, now, patience } = remote;
  const pace = { ...PACE, ...remote.pace };
  const line = createLineWatch(address, say);
  const standstill = createStandstill({ patience, every: pace.say, say, now });
  const out = new Map<number, Piece>();
  /** Workers that said why they cannot help; of each how many results were taken; whose results are not taken, and why. */
  const refused = new Set<string>();
  const taken = new Map<string, number>();
  const excluded = new Map<string, string>();
  let client: Redis | null = null;
  let queue: Queue | null = null;
  let events: QueueEvents | null = null;
  let timer: NodeJS.Timeout | null = null;
  let looking = false;
  let pinging = false;
  let looks = 0;
  let started = false;
  /** One thread here. */
  let checker: Workforce | null = null;
  /** All threads here, once the queue is left alone. */
  let alone: Workforce | null = null;
  const owners = new WeakMap<ArrayBufferLike, Workforce>();
  let workers = 0;
  let threads = 0;
  let waited = false;
  let began = 0;
  let rows = 1;
  /** ms that the slowest piece was with a worker. */
  let slowest = 0;
  let held = 0;
  let repairs = 0;
  let stopped = false;
  let fault: string | null = null;
  let onAlone = () => {};
  const isAlone = new Promise<void>((resolve) => {
    onAlone = resolve;
  });

  const over = () => stopped || alone !== null;
  const unlessOver = (act: () => Promise<unknown>) => {
    if (over()) return;
    act().catch((error) => {
      if (over()) return;
      if (/WRONGTYPE/.test(String(error))) void repair();
      else line.lost(error);
    });
  };

  async function announce(): Promise<void> {
    if ((await client!.expire(announcementKey(stamp), ANNOUNCED_S)) === 0) {
      const text = writeAnnouncement(announcement, stamp, packing.signer);
      await client!.set(announcementKey(stamp), text, 'EX', ANNOUNCED_S);
    }
    if (excluded.size > 0) {
      await client!.hset(excludedKey(stamp), Object.fromEntries(excluded));
      await client!.expire(excludedKey(stamp), ANNOUNCED_S);
    }
    // each time: a worker may be clearing away what an earlier run of the study has left
    await client!.sadd(STUDIES, stamp);
  }

  async function put({ number, work }: Piece): Promise<void> {
    await queue!.add('work', sealWork(work, number, stamp, packing.signer), {
      jobId: jobId(number),
      removeOnComplete: true,
      removeOnFail: true,
    });
  }

  /** Takes what has come back for a piece of work; false where there is nothing. */
  async function take(piece: Piece): Promise<boolean> {
    const key = resultKey(stamp, piece.number);
    // what somebody else put there is no result
    const fields = await client!.hgetallBuffer(key).catch(() => client!.del(key).then(() => ({})));
    if (Object.keys(fields).length === 0 || over()) return false;
    void client!.del(key).catch(() => {});
    // it may have come twice
    if (!out.has(piece.number) || piece.checking) return true;
    const returned = fromFields(fields, piece.number, piece.work, packing);
    if (typeof returned === 'string') {
      say(`batch ${piece.number} came back wrong (${returned}); it is done again`);
      await again(piece);
    } else if (excluded.has(returned.worker)) await again(piece);
    else await check(piece, returned);
    return true;
  }

  async function firstDifference(rows: RowBatch, chosen: readonly number[]): Promise<string | null> {
    for (const index of chosen) {
      const here = await oneThread().do(0, singleDesign(rows, index));
      const difference = differenceOf(rows, index, here.rows);
      if (difference !== null) return `row ${index} has ${difference}`;
    }
    return null;
  }

  /** Computes designs again, and takes the rows where they come to the same. */
  async function check(piece: Piece, returned: Returned): Promise<void> {
    const { worker, rows } = returned;
    const random = createRandom(Math.floor(now()), piece.number);
    if (!taken.has(worker) || random.unit() * CHECK_EVERY < rows.count) {
      piece.checking = true;
      let difference: string | null;
      try {
        difference = await firstDifference(rows, chooseRows(rows, random));
      } finally {
        piece.checking = false;
      }
      if (over() || !out.has(piece.number)) return;
      if (difference !== null) {
        exclude(worker, `of batch ${piece.number}, ${difference}`);
        await again(piece);
        return;
      }
    }
    taken.set(worker, (taken.get(worker) ?? 0) + 1);
    slowest = Math.max(slowest, now() - (piece.heldSince ?? piece.since));
    standstill.end();
    out.delete(piece.number);
    fault ??= returned.fault;
    piece.resolve(returned);
  }

  function oneThread(): Workforce {
    checker ??= remote.local(1);
    return checker;
  }

  function exclude(worker: string, why: string): void {
    // several of its results may be computed again at once
    if (excluded.has(worker)) return;
    excluded.set(worker, why);
    say(
      `worker ${worker} computes something else than this machine: ${why}; its work is done again, and nothing more of it is taken${earlierOf(worker)}`,
    );
    unlessOver(announce);
  }

  /** What was taken before a worker was found out is in the tables, and in what a search did next. */
  function earlierOf(worker: string): string {
    const batches = taken.get(worker) ?? 0;
    if (batches === 0) return '';
    return `; ${batches} of its batches were taken before, each with a design or two that came to the same here: run once more with --fresh unless you know why they are right`;
  }

  /** Hands a piece of work out again, or does it here. */
  async function again(piece: Piece): Promise<void> {
    piece.tries++;
    piece.since = now();
    piece.heldSince = null;
    if (piece.tries < TRIES) {
      await queue!.remove(jobId(piece.number)).catch(() => 0);
      await put(piece);
      return;
    }
    say(`batch ${piece.number} did not come back in ${TRIES} tries; it is done here`);
    doBy(oneThread(), piece);
  }

  function doBy(workforce: Workforce, piece: Piece): void {
    out.delete(piece.number);
    workforce.do(piece.number, piece.work).then((done) => {
      if (done.rows.packed) owners.set(done.rows.packed.bytes.buffer, workforce);
      piece.resolve(done);
    }, piece.reject);
  }

  async function countWorkers(): Promise<void> {
    const [seconds] = await client!.time();
    const found = await client!.zrangebyscore(workersKey(stamp), Number(seconds) - WORKER_S, '+inf');
    workers = found.length;
    threads = found.reduce((sum, member) => sum + (Number.parseInt(member, 10) || 0), 0);
    if (workers === 0 && !waited && now() - began >= pace.meet) {
      waited = true;
      say(`no worker is at the queue; start one with: eddylift worker ${address.shown}`);
    } else if (workers > 0) {
      if (waited) say(`workers at the queue: ${workers}`);
      waited = false;
    }
    for (const [worker, why] of Object.entries(await client!.hgetall(refusalsKey(stamp)))) {
      if (refused.has(worker) || refused.size >= MOST_AHEAD) continue;
      refused.add(worker);
      say(`worker ${printable(worker)} cannot help: it has ${printable(why)}`);
    }
  }

  /** Events get lost where Redis does; this finds out what became of each piece of work. */
  async function look(): Promise<void> {
    if (looking || over()) return;
    looking = true;
    try {
      await announce();
      // somebody may have paused it
      if (await queue!.isPaused()) await queue!.resume();
      // nor may anybody keep the workers from looking for work whose worker is gone
      const rest = await client!.pttl(stalledCheckKey(stamp));
      if (rest === -1 || rest > 2 * pace.stalled) await client!.del(stalledCheckKey(stamp));
      await countWorkers();
      const old = [...out.values()]
        .filter(({ since, checking }) => !checking && now() - since >= pace.out)
        .sort((a, b) => a.looked - b.looked)
        .slice(0, LOOKED_AFTER);
      for (const piece of old) {
        piece.looked = ++looks;
        if (over()) return;
        if (out.has(piece.number) && !piece.checking) await lookAfter(piece);
      }
      line.back();
    } finally {
      looking = false;
    }
  }

  async function lookAfter(piece: Piece): Promise<void> {
    if (await take(piece)) return;
    const state = await queue!.getJobState(jobId(piece.number));
    if (state === 'waiting') piece.heldSince = null;
    else if (state === 'active') {
      piece.heldSince ??= now();
      const time = now() - piece.heldSince;
      // before anything has come back nobody knows how long a piece takes
      const limit = slowest === 0 ? patience : Math.max(pace.held, pace.heldTimes * slowest);
      if (time >= limit) await takeFrom(piece, time);
    }
    // what a job leaves behind comes before its end; one that is delayed or waits for others was put there by somebody else
    else if (!(await take(piece)) && out.has(piece.number) && !piece.checking) await again(piece);
  }

  /** A worker renews its claim on a piece and never brings it. */
  async function takeFrom(piece: Piece, time: number): Promise<void> {
    const job = await queue!.getJob(jobId(piece.number));
    if (over() || !out.has(piece.number) || piece.checking) return;
    const whose = job?.processedBy ? `worker ${printable(job.processedBy)}` : 'a worker';
    say(
      `batch ${piece.number} has been with ${whose} for ${formatDuration(time / 1000)} without a result; it is done here`,
    );
    doBy(oneThread(), piece);
    if (++held >= MOST_HELD) goOnAlone(`${held} batches were held without a result`);
  }

  /** What others have put under the keys of this study is removed; what was under way is handed out again. */
  async function repair(): Promise<void> {
    repairs++;
    if (repairs > MOST_REPAIRS) {
      goOnAlone('others keep writing under the keys of the queue (WRONGTYPE)');
      return;
    }
    if (repairs === 1) say('others have written under a key of the queue (WRONGTYPE); it is made anew');
    await clearQueue(client!, stamp).catch(() => {});
    unlessOver(look);
  }

  function whatIsAwaited(): string {
    if (line.trouble !== null) return `the queue at ${address.shown} does not answer (${line.trouble})`;
    if (client?.status !== 'ready') return `the queue at ${address.shown} does not answer`;
    if (workers === 0) return 'no worker is at the queue';
    return `${workers === 1 ? 'one worker is' : `${workers} workers are`} at the queue and no result comes back`;
  }

  /** A connection notices that nothing comes any more only while an answer is due on it; a look may wait on another one. */
  async function ping(): Promise<void> {
    if (pinging || client === null) return;
    pinging = true;
    await client.ping().finally(() => {
      pinging = false;
    });
  }

  function tick(): void {
    unlessOver(ping);
    unlessOver(look);
    if (over()) return;
    if (started && out.size === 0) standstill.end();
    else if (standstill.check(whatIsAwaited)) {
      goOnAlone(`nothing came back for ${formatDuration(standstill.waited / 1000)}: ${whatIsAwaited()}`);
    }
  }

  function goOnAlone(why: string): void {
    if (over()) return;
    const { threads: many } = remote;
    say(
      `${why}; this machine goes on by itself with ${many === 1 ? 'one thread' : `${many} threads`}, and leaves the queue alone`,
    );
    alone = remote.local(many);
    if (timer) clearInterval(timer);
    for (const piece of [...out.values()]) doBy(alone, piece);
    void leave();
    remote.onAlone?.();
    onAlone();
  }

  async function connect(): Promise<void> {
    const connection = lasting(address, pace);
    client = new Redis(connection);
    queue = new Queue(stamp, { connection, prefix: PREFIX, streams: { events: { maxLen: 2000 } } });
    events = new QueueEvents(stamp, { connection, prefix: PREFIX });
    client.on('error', (error) => {
      if (!over()) line.lost(error);
    });
    // the client hears of a lost line, too
    queue.on('error', () => {});
    events.on('error', () => {});
    client.on('ready', () => line.back());
    const pieceOf = (id: string) => out.get(numberOf(id) ?? -1);
    events.on('active', ({ jobId: id }) => {
      const piece = pieceOf(id);
      if (piece) piece.heldSince = now();
    });
    events.on('completed', ({ jobId: id }) => {
      const piece = pieceOf(id);
      if (piece) unlessOver(() => take(piece));
    });
    events.on('failed', ({ jobId: id }) => {
      const piece = pieceOf(id);
      if (piece && !piece.checking) unlessOver(() => again(piece));
    });
    timer = setInterval(tick, pace.coordinatorLook);
    await announce();
    await events.waitUntilReady();
  }

  return {
    async ready() {
      began = now();
      try {
        const { warning } = await checkConnection(address, stamp, pace);
        if (warning !== null) say(warning);
      } catch (error) {
        if (remote.atStart === 'refuse') throw error;
        if (remote.atStart === 'go on alone') goOnAlone((error as Error).message);
        else line.lost((error as Error).cause ?? error);
      }
      if (over()) return;
      if (!packing.signer.hasSecret) {
        say(
          'results are not signed: whoever can write to the queue can send some (EDDYLIFT_QUEUE_SECRET, see docs/many-machines.md)',
        );
      }
      await Promise.race([
        connect().catch((error) => {
          if (!over()) line.lost(error);
        }),
        isAlone,
      ]);
      started = true;
      unlessOver(look);
    },
    get ahead() {
      if (alone) return alone.ahead;
      const wanted = Math.min(MOST_AHEAD, Math.max(FEWEST_AHEAD, AHEAD_PER_THREAD * threads));
      return Math.min(wanted, Math.max(FEWEST_AT_ANY_SIZE, Math.floor(MOST_ROWS / rows)));
    },
    do(number, work) {
      rows = 'from' in work ? work.settings.evaluations : work.count;
      return new Promise((resolve, reject) => {
        if (stopped) {
          reject(new Error('stopped'));
          return;
        }
        const piece: Piece = {
          ...{ number, work, resolve, reject, since: now(), heldSince: null },
          ...{ looked: 0, tries: 0, checking: false },
        };
        out.set(number, piece);
        if (alone) {
          doBy(alone, piece);
          return;
        }
        // an earlier coordinator may have had it done
        unlessOver(async () => {
          if (!(await take(piece))) await put(piece);
        });
      });
    },
    get fault() {
      return fault ?? checker?.fault ?? alone?.fault ?? null;
    },
    giveBack(rows) {
      if (rows.packed) owners.get(rows.packed.bytes.buffer)?.giveBack(rows);
    },
    async stop() {
      if (stopped) return;
      stopped = true;
      if (timer) clearInterval(timer);
      for (const { reject } of out.values()) reject(new Error('stopped'));
      await leave();
      await Promise.race([
        Promise.allSettled([checker?.stop(), alone?.stop()]),
        pause(CLEAR_MS, undefined, { ref: false }),
      ]);
    },
  };

  /** Nobody need work for us any longer. Where the queue cannot be reached, all of it ends by itself. */
  async function leave(): Promise<void> {
    const [mine, jobs, told] = [client, queue, events];
    [client, queue, events] = [null, null, null];
    if (mine?.status === 'ready') {
      const cleared = clearQueue(mine, stamp).catch((error) => describeTrouble(error));
      await Promise.race([cleared, pause(CLEAR_MS, undefined, { ref: false })]);
    }
    mine?.disconnect();
    await Promise.race([
      Promise.allSettled([jobs?.disconnect(), told?.disconnect()]),
      pause(CLEAR_MS, undefined, { ref: false }),
    ]);
  }
}
