import { setTimeout as pause } from 'node:timers/promises';
import { formatDuration } from '../text/duration.ts';
import { printable } from './announcement.ts';
import { clearQueue } from './clear-queue.ts';
import { checkConnection, createLineWatch, type LineWatch } from './connection.ts';
import { resultKey } from './keys.ts';
import { LocalThreads } from './local-threads.ts';
import { PACE, type Pace } from './pace.ts';
import type { Piece } from './piece.ts';
import { CLEAR_MS, QueueLink } from './queue-link.ts';
import type { RemoteWorkforce } from './remote-settings.ts';
import { fromFields, type Returned } from './result.ts';
import { ResultCheck } from './result-check.ts';
import { createStandstill, type Standstill } from './standstill.ts';
import { WorkerCensus } from './worker-census.ts';

// Past 300 lines: what is out, what came back and what is done here share one state, which no other file may change.

/** Pieces of work looked after at a time. */
const LOOKED_AFTER = 64;
/** Work that came to nothing so often is done here. */
const TRIES = 3;
/** Pieces that workers held without a result, or times that others wrote over the queue's keys: then it is left alone. */
const MOST_HELD = 64;
const MOST_REPAIRS = 3;

/** What becomes of every piece of work that is out, whoever loses, holds or forges it. */
export class Coordinator {
  readonly local: LocalThreads;
  readonly census: WorkerCensus;
  /** What broke off the first design of a worker whose evaluation threw. */
  fault: string | null = null;
  private readonly remote: RemoteWorkforce;
  private readonly pace: Pace;
  private readonly line: LineWatch;
  private readonly standstill: Standstill;
  private readonly link: QueueLink;
  private readonly check: ResultCheck;
  private readonly out = new Map<number, Piece>();
  private timer: NodeJS.Timeout | null = null;
  private looking = false;
  private looks = 0;
  private started = false;
  private stopped = false;
  /** ms that the slowest piece was with a worker. */
  private slowest = 0;
  private held = 0;
  private repairs = 0;
  private resolveAlone = () => {};
  private readonly isAlone = new Promise<void>((resolve) => {
    this.resolveAlone = resolve;
  });

  constructor(remote: RemoteWorkforce) {
    const { address, announcement, stamp, numbered, print, now, timeout } = remote;
    const pace = { ...PACE, ...remote.pace };
    this.remote = remote;
    this.pace = pace;
    this.line = createLineWatch(address, print);
    this.standstill = createStandstill({ timeout, every: pace.standstillLine, print, now });
    const { signer } = remote.packing;
    this.link = new QueueLink({ address, announcement, stamp, signer, numbered, pace });
    this.local = new LocalThreads(remote.local);
    this.check = new ResultCheck(this.local, print);
    this.census = new WorkerCensus({ stamp, shown: address.shown, meet: pace.meet, print, now });
  }

  async begin(): Promise<void> {
    const { remote, line } = this;
    this.census.begin();
    try {
      const { warning } = await checkConnection(remote.address, remote.stamp, this.pace);
      if (warning !== null) remote.print(warning);
    } catch (error) {
      if (remote.atStart === 'refuse') throw error;
      if (remote.atStart === 'go on alone') this.goOnAlone((error as Error).message);
      else line.lost((error as Error).cause ?? error);
    }
    if (this.isOver) return;
    if (!remote.packing.signer.hasSecret) {
      remote.print(
        'results are not signed: whoever can write to the queue can send some (EDDYLIFT_QUEUE_SECRET, see docs/many-machines.md)',
      );
    }
    const lost = (error: unknown) => {
      if (!this.isOver) line.lost(error);
    };
    await Promise.race([this.connect().catch(lost), this.isAlone]);
    this.started = true;
    this.unlessOver(() => this.look());
  }

  add(piece: Piece): void {
    if (this.stopped) {
      piece.reject(new Error('stopped'));
      return;
    }
    this.out.set(piece.number, piece);
    if (this.local.all) {
      this.doHere(piece);
      return;
    }
    // an earlier coordinator may have had it done
    this.unlessOver(async () => {
      if (!(await this.take(piece))) await this.link.put(piece);
    });
  }

  async stop(): Promise<void> {
    if (this.stopped) return;
    this.stopped = true;
    if (this.timer) clearInterval(this.timer);
    for (const { reject } of this.out.values()) reject(new Error('stopped'));
    await this.link.close();
    await Promise.race([this.local.stop(), pause(CLEAR_MS, undefined, { ref: false })]);
  }

  /** Whether nothing of the queue is wanted any more. */
  private get isOver(): boolean {
    return this.stopped || this.local.all !== null;
  }

  private unlessOver(act: () => Promise<unknown>): void {
    if (this.isOver) return;
    act().catch((error) => {
      if (this.isOver) return;
      if (/WRONGTYPE/.test(String(error))) void this.repair();
      else this.line.lost(error);
    });
  }

  private async connect(): Promise<void> {
    const { link, line, out } = this;
    link.open({
      lost: (error) => {
        if (!this.isOver) line.lost(error);
      },
      back: () => line.back(),
      claimed: (number) => {
        const piece = out.get(number);
        if (piece) piece.heldSince = this.remote.now();
      },
      completed: (number) => {
        const piece = out.get(number);
        if (piece) this.unlessOver(() => this.take(piece));
      },
      failed: (number) => {
        const piece = out.get(number);
        if (piece && !piece.checking) this.unlessOver(() => this.again(piece));
      },
    });
    this.timer = setInterval(() => this.tick(), this.pace.coordinatorLook);
    await link.announce(this.check.excluded);
    await link.opened();
  }

  /** Takes what has come back for a piece of work; false where there is nothing. */
  private async take(piece: Piece): Promise<boolean> {
    const { redis } = this.link;
    const { stamp, packing, print } = this.remote;
    const key = resultKey(stamp, piece.number);
    // what somebody else put there is no result
    const fields = await redis.hgetallBuffer(key).catch(() => redis.del(key).then(() => ({})));
    if (Object.keys(fields).length === 0 || this.isOver) return false;
    void redis.del(key).catch(() => {});
    // it may have come twice
    if (!this.out.has(piece.number) || piece.checking) return true;
    const returned = fromFields(fields, piece.number, piece.work, packing);
    if (typeof returned === 'string') {
      print(`batch ${piece.number} came back wrong (${returned}); it is done again`);
      await this.again(piece);
    } else if (this.check.excluded.has(returned.worker)) await this.again(piece);
    else await this.accept(piece, returned);
    return true;
  }

  /** Rows that come to the same where they are computed again are those of the piece. */
  private async accept(piece: Piece, returned: Returned): Promise<void> {
    const { check, out } = this;
    const { worker } = returned;
    const difference = await check.differenceIn(piece, returned, this.remote.now());
    if (this.isOver || !out.has(piece.number)) return;
    if (difference !== null) {
      const isNew = check.exclude(worker, `of batch ${piece.number}, ${difference}`);
      if (isNew) this.unlessOver(() => this.link.announce(check.excluded));
      await this.again(piece);
      return;
    }
    check.count(worker);
    this.slowest = Math.max(this.slowest, this.remote.now() - (piece.heldSince ?? piece.since));
    this.standstill.end();
    out.delete(piece.number);
    this.fault ??= returned.fault;
    piece.resolve(returned);
  }

  /** Hands a piece of work out again, or does it here. */
  private async again(piece: Piece): Promise<void> {
    piece.tries++;
    piece.since = this.remote.now();
    piece.heldSince = null;
    if (piece.tries < TRIES) {
      await this.link.putAgain(piece);
      return;
    }
    this.remote.print(`batch ${piece.number} did not come back in ${TRIES} tries; it is done here`);
    this.doHere(piece);
  }

  /** By all threads once this machine is alone, else by one. */
  private doHere(piece: Piece): void {
    this.out.delete(piece.number);
    this.local.do(this.local.all ?? this.local.one, piece);
  }

  /** Events get lost where Redis does; this finds out what became of each piece of work. */
  private async look(): Promise<void> {
    if (this.looking || this.isOver) return;
    this.looking = true;
    try {
      await this.link.announce(this.check.excluded);
      await this.link.keepOpen();
      await this.census.count(this.link.redis);
      const now = this.remote.now();
      const old = [...this.out.values()]
        .filter(({ since, checking }) => !checking && now - since >= this.pace.out)
        .sort((a, b) => a.looked - b.looked)
        .slice(0, LOOKED_AFTER);
      for (const piece of old) {
        piece.looked = ++this.looks;
        if (this.isOver) return;
        if (this.isOut(piece)) await this.lookAfter(piece);
      }
      this.line.back();
    } finally {
      this.looking = false;
    }
  }

  private isOut(piece: Piece): boolean {
    return this.out.has(piece.number) && !piece.checking;
  }

  private async lookAfter(piece: Piece): Promise<void> {
    if (await this.take(piece)) return;
    const state = await this.link.stateOf(piece);
    if (state === 'waiting') piece.heldSince = null;
    else if (state === 'active') {
      piece.heldSince ??= this.remote.now();
      const time = this.remote.now() - piece.heldSince;
      const { held, heldTimes } = this.pace;
      // before anything has come back nobody knows how long a piece takes
      const limit = this.slowest === 0 ? this.remote.timeout : Math.max(held, heldTimes * this.slowest);
      if (time >= limit) await this.takeFrom(piece, time);
    }
    // what a job leaves behind comes before its end; one that is delayed or waits for others was put there by somebody else
    else if (!(await this.take(piece)) && this.isOut(piece)) await this.again(piece);
  }

  /** A worker renews its claim on a piece and never brings it. */
  private async takeFrom(piece: Piece, time: number): Promise<void> {
    const holder = await this.link.holderOf(piece);
    if (this.isOver || !this.isOut(piece)) return;
    const whose = holder ? `worker ${printable(holder)}` : 'a worker';
    this.remote.print(
      `batch ${piece.number} has been with ${whose} for ${formatDuration(time / 1000)} without a result; it is done here`,
    );
    this.doHere(piece);
    if (++this.held >= MOST_HELD) this.goOnAlone(`${this.held} batches were held without a result`);
  }

  /** What others have put under the keys of this study is removed; what was under way is handed out again. */
  private async repair(): Promise<void> {
    this.repairs++;
    if (this.repairs > MOST_REPAIRS) {
      this.goOnAlone('others keep writing under the keys of the queue (WRONGTYPE)');
      return;
    }
    if (this.repairs === 1) {
      this.remote.print('others have written under a key of the queue (WRONGTYPE); it is made anew');
    }
    await clearQueue(this.link.redis, this.remote.stamp).catch(() => {});
    this.unlessOver(() => this.look());
  }

  private whatIsAwaited(): string {
    const { line, census } = this;
    const { shown } = this.remote.address;
    if (line.trouble !== null) return `the queue at ${shown} does not answer (${line.trouble})`;
    if (!this.link.isReady) return `the queue at ${shown} does not answer`;
    if (census.workers === 0) return 'no worker is at the queue';
    return `${census.workers === 1 ? 'one worker is' : `${census.workers} workers are`} at the queue and no result comes back`;
  }

  private tick(): void {
    this.unlessOver(() => this.link.ping());
    this.unlessOver(() => this.look());
    if (this.isOver) return;
    const { standstill } = this;
    const awaited = () => this.whatIsAwaited();
    if (this.started && this.out.size === 0) standstill.end();
    else if (standstill.check(awaited)) {
      this.goOnAlone(`nothing came back for ${formatDuration(standstill.waited / 1000)}: ${awaited()}`);
    }
  }

  private goOnAlone(why: string): void {
    if (this.isOver) return;
    const { threads, print, onAlone } = this.remote;
    print(
      `${why}; this machine goes on by itself with ${threads === 1 ? 'one thread' : `${threads} threads`}, and leaves the queue alone`,
    );
    this.local.startAll(threads);
    if (this.timer) clearInterval(this.timer);
    for (const piece of [...this.out.values()]) this.doHere(piece);
    void this.link.close();
    onAlone?.();
    this.resolveAlone();
  }
}
