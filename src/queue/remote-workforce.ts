import { setTimeout as pause } from 'node:timers/promises';
import { Queue, QueueEvents } from 'bullmq';
import { Redis } from 'ioredis';
import type { Work } from '../plan/plan.ts';
import type { Done, Workforce } from '../run/workforce.ts';
import type { QueueAddress } from './address.ts';
import { type Announcement, printable } from './announcement.ts';
import { checkConnection, createLineWatch, lasting } from './connection.ts';
import {
  ANNOUNCED_S,
  announcementKey,
  jobId,
  metaKey,
  numberOf,
  PREFIX,
  refusalsKey,
  resultKey,
  STUDIES,
  WORKER_S,
  workersKey,
} from './keys.ts';
import { fromFields, type Packing } from './result.ts';
import { toMessage } from './work-message.ts';

export interface RemoteWorkforce {
  readonly address: QueueAddress;
  readonly announcement: Announcement;
  /** Names the queue. */
  readonly stamp: string;
  readonly packing: Packing;
  /** One thread here, for work that no worker brings back. */
  readonly local: () => Workforce;
  /** Takes a line for the user. */
  readonly say: (line: string) => void;
  /** ms. */
  readonly now: () => number;
}

/** How often what events may have missed is looked after, ms. */
const LOOK_MS = 2000;
/** Workers that are there have seen an announcement and started their threads within this, ms. */
const MEET_MS = 1500;
/** Work that is out for so long is looked after; below it nothing can have gone wrong with it, ms. */
const OUT_MS = 4000;
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

interface Out {
  readonly number: number;
  readonly work: Work;
  readonly resolve: (done: Done) => void;
  readonly reject: (error: unknown) => void;
  since: number;
  tries: number;
}

/**
 * Workers at a queue. What is under way is known here alone, piece by piece: whatever becomes of queue and workers, a
 * piece is handed out until it has come back, and counts once.
 */
export function createRemoteWorkforce(remote: RemoteWorkforce): Workforce {
  const { address, announcement, stamp, packing, say, now } = remote;
  const line = createLineWatch(address, say);
  const out = new Map<number, Out>();
  const refused = new Set<string>();
  let client: Redis | null = null;
  let queue: Queue | null = null;
  let events: QueueEvents | null = null;
  let timer: NodeJS.Timeout | null = null;
  let looking = false;
  let local: Workforce | null = null;
  let threads = 0;
  let waited = false;
  let began = 0;
  let rows = 1;
  let stopped = false;
  let fault: string | null = null;

  async function announce(): Promise<void> {
    if ((await client!.expire(announcementKey(stamp), ANNOUNCED_S)) === 0) {
      await client!.set(announcementKey(stamp), JSON.stringify(announcement), 'EX', ANNOUNCED_S);
    }
    // each time: a worker may be clearing away what an earlier run of the study has left
    await client!.sadd(STUDIES, stamp);
  }

  async function put({ number, work }: Out): Promise<void> {
    await queue!.add('work', toMessage(work), {
      jobId: jobId(number),
      removeOnComplete: true,
      removeOnFail: true,
    });
  }

  /** Takes what has come back for a piece of work; false where there is nothing. */
  async function take(piece: Out): Promise<boolean> {
    const key = resultKey(stamp, piece.number);
    // what somebody else put there is no result
    const fields = await client!.hgetallBuffer(key).catch(() => client!.del(key).then(() => ({})));
    if (Object.keys(fields).length === 0 || stopped) return false;
    void client!.del(key);
    // it may have come twice
    if (!out.has(piece.number)) return true;
    const returned = fromFields(fields, piece.work, packing);
    if (typeof returned === 'string') {
      say(`batch ${piece.number} came back wrong (${returned}); it is done again`);
      await again(piece);
      return true;
    }
    out.delete(piece.number);
    fault ??= returned.fault;
    piece.resolve(returned);
    return true;
  }

  /** Hands a piece of work out again, or does it here. */
  async function again(piece: Out): Promise<void> {
    piece.tries++;
    piece.since = now();
    if (piece.tries < TRIES) {
      await queue!.remove(jobId(piece.number)).catch(() => 0);
      await put(piece);
      return;
    }
    say(`batch ${piece.number} did not come back in ${TRIES} tries; it is done here`);
    out.delete(piece.number);
    local ??= remote.local();
    local.do(piece.number, piece.work).then(piece.resolve, piece.reject);
  }

  async function countWorkers(): Promise<void> {
    const [seconds] = await client!.time();
    const found = await client!.zrangebyscore(workersKey(stamp), Number(seconds) - WORKER_S, '+inf');
    threads = found.reduce((sum, member) => sum + (Number.parseInt(member, 10) || 0), 0);
    if (threads === 0 && !waited && now() - began >= MEET_MS) {
      waited = true;
      say(`no worker is at the queue; start one with: eddylift worker ${address.shown}`);
    } else if (threads > 0) {
      if (waited) say(`workers at the queue: ${found.length}`);
      waited = false;
    }
    for (const [worker, why] of Object.entries(await client!.hgetall(refusalsKey(stamp)))) {
      if (refused.has(worker)) continue;
      refused.add(worker);
      say(`worker ${printable(worker)} cannot help: it has ${printable(why)}`);
    }
  }

  /** Events get lost where Redis does; this finds out what became of each piece of work. */
  async function look(): Promise<void> {
    if (looking || stopped) return;
    looking = true;
    try {
      await announce();
      // whoever clears a queue away pauses it first, and may have been cut off there
      if (await queue!.isPaused()) await queue!.resume();
      await countWorkers();
      const old = [...out.values()].filter(({ since }) => now() - since >= OUT_MS).slice(0, LOOKED_AFTER);
      for (const piece of old) {
        if (stopped || !out.has(piece.number) || (await take(piece))) continue;
        const state = await queue!.getJobState(jobId(piece.number));
        // what a job leaves behind comes before its end
        if (['unknown', 'completed', 'failed'].includes(state)) {
          if (!(await take(piece)) && out.has(piece.number)) await again(piece);
        }
      }
      line.back();
    } finally {
      looking = false;
    }
  }

  const unlessStopped = (act: () => Promise<unknown>) => {
    if (stopped) return;
    act().catch((error) => {
      if (!stopped) line.lost(error);
    });
  };

  return {
    async ready() {
      await checkConnection(address);
      if (stopped) return;
      const connection = lasting(address);
      client = new Redis(connection);
      queue = new Queue(stamp, { connection, prefix: PREFIX, streams: { events: { maxLen: 2000 } } });
      events = new QueueEvents(stamp, { connection, prefix: PREFIX });
      client.on('error', line.lost);
      // the client hears of a lost line, too
      queue.on('error', () => {});
      events.on('error', () => {});
      client.on('ready', () => line.back());
      events.on('completed', ({ jobId }) => {
        const piece = out.get(numberOf(jobId) ?? -1);
        if (piece) unlessStopped(() => take(piece));
      });
      events.on('failed', ({ jobId }) => {
        const piece = out.get(numberOf(jobId) ?? -1);
        if (piece) unlessStopped(() => again(piece));
      });
      await announce();
      began = now();
      await events.waitUntilReady();
      timer = setInterval(() => unlessStopped(look), LOOK_MS);
      unlessStopped(look);
    },
    get ahead() {
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
        const piece = { number, work, resolve, reject, since: now(), tries: 0 };
        out.set(number, piece);
        // an earlier coordinator may have had it done
        unlessStopped(async () => {
          if (!(await take(piece))) await put(piece);
        });
      });
    },
    get fault() {
      return fault ?? local?.fault ?? null;
    },
    giveBack: (rows) => local?.giveBack(rows),
    async stop() {
      if (stopped) return;
      stopped = true;
      if (timer) clearInterval(timer);
      for (const { reject } of out.values()) reject(new Error('stopped'));
      await Promise.race([clearAway(), pause(CLEAR_MS, undefined, { ref: false })]);
      client?.disconnect();
      await Promise.race([
        Promise.allSettled([queue?.disconnect(), events?.disconnect(), local?.stop()]),
        pause(CLEAR_MS, undefined, { ref: false }),
      ]);
    },
  };

  /** Nobody need work for us any longer. Where the queue cannot be reached, all of it ends by itself. */
  async function clearAway(): Promise<void> {
    try {
      if (client?.status !== 'ready') return;
      await client.del(announcementKey(stamp), refusalsKey(stamp), workersKey(stamp));
      // where a worker is at it, too, one of both gets through
      await queue?.obliterate({ force: true }).catch(() => {});
      await client.del(metaKey(stamp), ...[...out.keys()].map((number) => resultKey(stamp, number)));
      // last: a study without announcement is one to clearAway, should this be cut off
      await client.srem(STUDIES, stamp);
    } catch {
      // it ends by itself
    }
  }
}

/** The end of a program is not held up for longer, ms. */
const CLEAR_MS = 700;
