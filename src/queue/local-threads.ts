import type { RowBatch } from '../model/rows.ts';
import type { Workforce } from '../run/workforce.ts';
import type { Piece } from './piece.ts';

/** What this machine computes itself: single designs, what no worker brings back, and everything once it is alone. */
export class LocalThreads {
  private readonly start: (threads: number) => Workforce;
  private single: Workforce | null = null;
  private whole: Workforce | null = null;
  /** By the memory of rows: who gets it back. */
  private readonly owners = new WeakMap<ArrayBufferLike, Workforce>();

  constructor(start: (threads: number) => Workforce) {
    this.start = start;
  }

  /** One thread, started when it is first needed. */
  get one(): Workforce {
    this.single ??= this.start(1);
    return this.single;
  }

  /** The threads that do everything; null as long as the queue is used. */
  get all(): Workforce | null {
    return this.whole;
  }

  startAll(threads: number): Workforce {
    this.whole = this.start(threads);
    return this.whole;
  }

  do(workforce: Workforce, piece: Piece): void {
    workforce.do(piece.number, piece.work).then((done) => {
      this.owners.set(done.rows.quantities.buffer, workforce);
      piece.resolve(done);
    }, piece.reject);
  }

  get fault(): string | null {
    return this.single?.fault ?? this.whole?.fault ?? null;
  }

  giveBack(rows: RowBatch): void {
    this.owners.get(rows.quantities.buffer)?.giveBack(rows);
  }

  async stop(): Promise<void> {
    await Promise.allSettled([this.single?.stop(), this.whole?.stop()]);
  }
}
