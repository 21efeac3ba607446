import type { Redis } from 'ioredis';
import { printable } from './announcement.ts';
import { refusalsKey, WORKER_S, workersKey } from './keys.ts';

/** More refusals than these are not printed. */
const MOST_REFUSALS = 1024;

export interface CensusOptions {
  readonly stamp: string;
  /** The queue's address, as it is shown. */
  readonly shown: string;
  /** Workers that are there have come within this, ms. */
  readonly meet: number;
  readonly print: (line: string) => void;
  /** ms. */
  readonly now: () => number;
}

/** Who is at the queue: how many workers and threads serve the study, and which workers cannot. */
export class WorkerCensus {
  workers = 0;
  threads = 0;
  private readonly options: CensusOptions;
  private began = 0;
  private waited = false;
  /** Workers that reported why they cannot help. */
  private readonly refused = new Set<string>();

  constructor(options: CensusOptions) {
    this.options = options;
  }

  begin(): void {
    this.began = this.options.now();
  }

  async count(client: Redis): Promise<void> {
    const { stamp, shown, meet, print, now } = this.options;
    const [seconds] = await client.time();
    const found = await client.zrangebyscore(workersKey(stamp), Number(seconds) - WORKER_S, '+inf');
    this.workers = found.length;
    this.threads = found.reduce((sum, member) => sum + (Number.parseInt(member, 10) || 0), 0);
    if (this.workers === 0 && !this.waited && now() - this.began >= meet) {
      this.waited = true;
      print(`no worker is at the queue; start one with: eddylift worker ${shown}`);
    } else if (this.workers > 0) {
      if (this.waited) print(`workers at the queue: ${this.workers}`);
      this.waited = false;
    }
    for (const [worker, why] of Object.entries(await client.hgetall(refusalsKey(stamp)))) {
      if (this.refused.has(worker) || this.refused.size >= MOST_REFUSALS) continue;
      this.refused.add(worker);
      print(`worker ${printable(worker)} cannot help: it has ${printable(why)}`);
    }
  }
}
