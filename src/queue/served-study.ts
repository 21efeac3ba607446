import { type Job, WaitingError, Worker } from 'bullmq';
import type { Redis } from 'ioredis';
import type { Done, Workforce } from '../run/workforce.ts';
import { grouped } from '../text/grouped.ts';
import type { lasting } from './connection.ts';
import { announcementKey, numberOf, PREFIX, RESULT_S, resultKey } from './keys.ts';
import type { Pace } from './pace.ts';
import { toFields } from './result.ts';
import type { OpenStudy, Service } from './service.ts';
import { openWork } from './work-message.ts';

/** While it works a worker prints a line so often, ms. */
const REPORT_MS = 60_000;
/** Batches that a thread may hold at once. With two, the next lies ready while rows are sent. */
const BATCHES_PER_THREAD = 2;

/** What all studies of a worker share. */
export interface QueueClient {
  readonly service: Service;
  readonly client: Redis;
  readonly connection: ReturnType<typeof lasting>;
  readonly pace: Pace;
}

/** A study that a worker serves: takes its work from the queue, has it done and sends the rows. */
export class ServedStudy {
  readonly study: OpenStudy;
  private readonly workforce: Workforce;
  private readonly shared: QueueClient;
  private readonly worker: Worker;
  private closed = false;
  /** Since the last line that was printed. */
  private batches = 0;
  private designs = 0;
  private since: number;

  constructor(study: OpenStudy, workforce: Workforce, shared: QueueClient) {
    const { service, connection, pace } = shared;
    this.study = study;
    this.workforce = workforce;
    this.shared = shared;
    this.since = service.now();
    this.worker = new Worker(study.stamp, (job, token) => this.work(job, token), {
      connection,
      prefix: PREFIX,
      name: service.id,
      concurrency: service.threads * BATCHES_PER_THREAD,
      lockDuration: pace.claim,
      stalledInterval: pace.stalled,
    });
    // of a lost line the client hears, too; what else there is, a claim that went to another, others see to
    this.worker.on('error', () => {});
  }

  /** Prints how much was done, once a minute. */
  report(): void {
    const { print, now } = this.shared.service;
    const { batches, designs } = this;
    const milliseconds = now() - this.since;
    if (milliseconds < REPORT_MS) return;
    this.batches = 0;
    this.designs = 0;
    this.since = now();
    if (batches === 0) return;
    const count = (n: number) => grouped(Math.round(n));
    print(
      `"${this.study.title}": ${count(batches)} batches, ${count((1000 * designs) / milliseconds)} designs/s`,
    );
  }

  async close(): Promise<void> {
    this.closed = true;
    await this.workforce.stop();
    await this.worker.close();
  }

  private async work(job: Job, token: string | undefined): Promise<void> {
    const { signer, signal } = this.shared.service;
    const number = numberOf(job.id ?? '');
    const wanted = number === null ? null : openWork(job.data, number, { ...this.study, signer });
    if (number === null || wanted === null) throw new Error('no work for this study');
    try {
      const done = await this.workforce.do(number, wanted);
      try {
        await this.send(number, done);
      } finally {
        this.workforce.giveBack(done.rows);
      }
      this.batches++;
      this.designs += done.rows.count;
    } catch (error) {
      if (!signal.aborted && !this.closed) throw error;
      // given back, for others to take at once
      await job.moveToWait(token);
      throw new WaitingError();
    }
  }

  /** Together, so that no result stays for ever; and none of a study whose coordinator has gone meanwhile. */
  private async send(number: number, done: Done): Promise<void> {
    const { client, service } = this.shared;
    const { stamp, packing } = this.study;
    if ((await client.exists(announcementKey(stamp))) === 0) return;
    const key = resultKey(stamp, number);
    const fields = toFields(done, number, this.workforce.fault, service.id, packing);
    // one after the other, since a transaction that is sent as a whole copies the rows once more
    const opened = client.multi({ pipeline: false });
    const sent = [opened, client.hset(key, { ...fields }), client.expire(key, RESULT_S), client.exec()];
    await Promise.all(sent);
  }
}
