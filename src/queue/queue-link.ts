import { setTimeout as pause } from 'node:timers/promises';
import { Queue, QueueEvents } from 'bullmq';
import { Redis } from 'ioredis';
import type { QueueAddress } from './address.ts';
import { type Announcement, writeAnnouncement } from './announcement.ts';
import { clearQueue } from './clear-queue.ts';
import { describeTrouble, lasting } from './connection.ts';
import {
  ANNOUNCED_S,
  announcementKey,
  excludedKey,
  jobId,
  numberOf,
  PREFIX,
  STUDIES,
  stalledCheckKey,
} from './keys.ts';
import type { Pace } from './pace.ts';
import type { Piece } from './piece.ts';
import type { Signer } from './signature.ts';
import { sealWork } from './work-message.ts';

/** The end of a program is not held up for longer, ms. */
export const CLEAR_MS = 700;

export interface LinkOptions {
  readonly address: QueueAddress;
  readonly announcement: Announcement;
  readonly stamp: string;
  readonly signer: Signer;
  /** As in RemoteWorkforce. */
  readonly numbered: boolean;
  readonly pace: Pace;
}

/** What a coordinator hears of its queue; pieces of work by their numbers. */
export interface LinkListener {
  lost(error: unknown): void;
  back(): void;
  claimed(piece: number): void;
  completed(piece: number): void;
  failed(piece: number): void;
}

/** A coordinator's connections to its queue, and what it does there. Whatever is used after `close` throws. */
export class QueueLink {
  private readonly options: LinkOptions;
  private client: Redis | null = null;
  private queue: Queue | null = null;
  private events: QueueEvents | null = null;
  private pinging = false;

  constructor(options: LinkOptions) {
    this.options = options;
  }

  /** What the keys of the study are read and written with. */
  get redis(): Redis {
    return this.client!;
  }

  get isReady(): boolean {
    return this.client?.status === 'ready';
  }

  /** Begins to connect; `opened` resolves once events are heard. */
  open(listener: LinkListener): void {
    const { address, stamp, pace } = this.options;
    const connection = lasting(address, pace);
    this.client = new Redis(connection);
    this.queue = new Queue(stamp, { connection, prefix: PREFIX, streams: { events: { maxLen: 2000 } } });
    const events = new QueueEvents(stamp, { connection, prefix: PREFIX });
    this.events = events;
    this.client.on('error', (error) => listener.lost(error));
    // the client hears of a lost line, too
    this.queue.on('error', () => {});
    events.on('error', () => {});
    this.client.on('ready', () => listener.back());
    const numbered = (hear: (piece: number) => void) => (event: { jobId: string }) => {
      const number = numberOf(event.jobId);
      if (number !== null) hear(number);
    };
    events.on('active', numbered(listener.claimed));
    events.on('completed', numbered(listener.completed));
    events.on('failed', numbered(listener.failed));
  }

  async opened(): Promise<void> {
    await this.events!.waitUntilReady();
  }

  async announce(excluded: ReadonlyMap<string, string>): Promise<void> {
    const { announcement, stamp, signer } = this.options;
    if ((await this.redis.expire(announcementKey(stamp), ANNOUNCED_S)) === 0) {
      const text = writeAnnouncement(announcement, stamp, signer);
      await this.redis.set(announcementKey(stamp), text, 'EX', ANNOUNCED_S);
    }
    if (excluded.size > 0) {
      await this.redis.hset(excludedKey(stamp), Object.fromEntries(excluded));
      await this.redis.expire(excludedKey(stamp), ANNOUNCED_S);
    }
    // each time: a worker may be clearing away what an earlier run of the study has left
    await this.redis.sadd(STUDIES, stamp);
  }

  /** What others may have done to the queue so that workers get nothing from it. */
  async keepOpen(): Promise<void> {
    const { stamp, pace } = this.options;
    if (await this.queue!.isPaused()) await this.queue!.resume();
    // nor may anybody keep the workers from looking for work whose worker is gone
    const rest = await this.redis.pttl(stalledCheckKey(stamp));
    if (rest === -1 || rest > 2 * pace.stalled) await this.redis.del(stalledCheckKey(stamp));
  }

  async put({ number, work }: Piece): Promise<void> {
    const { stamp, signer, numbered } = this.options;
    await this.queue!.add('work', sealWork(work, number, stamp, signer, numbered), {
      jobId: jobId(number),
      removeOnComplete: true,
      removeOnFail: true,
    });
  }

  async putAgain(piece: Piece): Promise<void> {
    await this.queue!.remove(jobId(piece.number)).catch(() => 0);
    await this.put(piece);
  }

  async stateOf({ number }: Piece): Promise<string> {
    return this.queue!.getJobState(jobId(number));
  }

  /** The worker that claims a piece; null where nobody knows. */
  async holderOf({ number }: Piece): Promise<string | null> {
    return (await this.queue!.getJob(jobId(number)))?.processedBy ?? null;
  }

  /** A connection notices that nothing comes any more only while an answer is due on it; a look may wait on another one. */
  async ping(): Promise<void> {
    if (this.pinging || this.client === null) return;
    this.pinging = true;
    await this.client.ping().finally(() => {
      this.pinging = false;
    });
  }

  /** Removes the study's keys and hangs up. Where the queue cannot be reached, all of it ends by itself. */
  async close(): Promise<void> {
    const { client, queue, events } = this;
    this.client = null;
    this.queue = null;
    this.events = null;
    if (client?.status === 'ready') {
      const cleared = clearQueue(client, this.options.stamp).catch((error) => describeTrouble(error));
      await Promise.race([cleared, pause(CLEAR_MS, undefined, { ref: false })]);
    }
    client?.disconnect();
    await Promise.race([
      Promise.allSettled([queue?.disconnect(), events?.disconnect()]),
      pause(CLEAR_MS, undefined, { ref: false }),
    ]);
  }
}
