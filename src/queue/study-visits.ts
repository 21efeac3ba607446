import { MOST_BYTES, printable, readAnnouncement } from './announcement.ts';
import { clearQueue, nameOrphans } from './clear-queue.ts';
import { describeTrouble } from './connection.ts';
import {
  ANNOUNCED_S,
  announcementKey,
  excludedKey,
  refusalsKey,
  STAMP,
  STUDIES,
  WORKER_S,
  workersKey,
} from './keys.ts';
import { type QueueClient, ServedStudy } from './served-study.ts';

/** Studies served at the same time; further ones wait. */
const MOST_STUDIES = 4;
/** Announced studies that are looked at; what is beyond is left to others. */
const MOST_ANNOUNCED = 1000;

/** Which of the announced studies a worker serves, and why not the others. */
export class StudyVisits {
  private readonly shared: QueueClient;
  private readonly served = new Map<string, ServedStudy>();
  /** As coordinators count it. */
  private readonly member: string;
  /** Stamps of studies that this worker cannot serve, and why; empty where the coordinator need not hear of it. */
  private readonly unfit = new Map<string, string>();
  /** Stamps with something under their names that is none of ours. */
  private readonly unreadable = new Set<string>();
  /** The study that is being read; one at a time. */
  private readonly opening = new Map<string, Promise<void>>();
  private nextSweep: number;

  constructor(shared: QueueClient) {
    const { threads, id, now } = shared.service;
    this.shared = shared;
    this.member = `${threads} ${id}`;
    this.nextSweep = now();
  }

  async look(): Promise<void> {
    const { client, pace, service } = this.shared;
    if (service.now() >= this.nextSweep) {
      this.nextSweep = service.now() + pace.sweep;
      await nameOrphans(client);
    }
    const stamps = (await client.smembers(STUDIES))
      .filter((stamp) => STAMP.test(stamp))
      .slice(0, MOST_ANNOUNCED);
    // what is announced again is looked at again
    for (const known of [this.unfit, this.unreadable]) {
      for (const stamp of known.keys()) if (!stamps.includes(stamp)) known.delete(stamp);
    }
    for (const stamp of stamps) {
      if (this.unreadable.has(stamp)) continue;
      await this.visit(stamp).catch((error) => this.setAside(stamp, error));
    }
    const [seconds] = await client.time();
    for (const stamp of this.served.keys()) {
      if (!stamps.includes(stamp)) await this.close(stamp);
      else {
        await client.zadd(workersKey(stamp), Number(seconds), this.member);
        await client.expire(workersKey(stamp), ANNOUNCED_S);
      }
    }
    for (const study of this.served.values()) study.report();
  }

  /** Gives back what is under way. */
  async end(): Promise<void> {
    const closing = [...this.served.keys()].map((stamp) => this.close(stamp));
    await Promise.allSettled([...closing, ...this.opening.values()]);
  }

  /** The others go on. */
  private setAside(stamp: string, error: unknown): void {
    const { signal, print } = this.shared.service;
    if (signal.aborted) return;
    this.unreadable.add(stamp);
    print(`cannot serve study ${stamp.slice(0, 8)}: ${describeTrouble(error)}`);
  }

  private async visit(stamp: string): Promise<void> {
    const { client } = this.shared;
    const { opening, served } = this;
    if ((await client.exists(announcementKey(stamp))) === 0) {
      await this.close(stamp);
      await clearQueue(client, stamp);
    } else if (this.unfit.has(stamp)) await this.refuse(stamp);
    else if (served.has(stamp)) await this.heedExclusion(stamp);
    // it may have been set aside since this look began
    else if (opening.size === 0 && served.size < MOST_STUDIES && !this.unreadable.has(stamp)) {
      const end = this.open(stamp)
        .catch((error) => this.setAside(stamp, error))
        .finally(() => opening.delete(stamp));
      opening.set(stamp, end);
    }
  }

  /** Written again as long as the study is there: its coordinator may be another one by now. */
  private async refuse(stamp: string): Promise<void> {
    const { client, service } = this.shared;
    const why = this.unfit.get(stamp)!;
    if (why === '') return;
    await client.hset(refusalsKey(stamp), service.id, why);
    await client.expire(refusalsKey(stamp), WORKER_S);
  }

  /** A coordinator that has caught this worker with wrong rows takes no more of them. */
  private async heedExclusion(stamp: string): Promise<void> {
    const { client, service } = this.shared;
    const why = await client.hget(excludedKey(stamp), service.id);
    if (why === null) return;
    const { title } = this.served.get(stamp)!.study;
    service.print(`"${title}": this worker computes something else than the coordinator (${printable(why)})`);
    this.unfit.set(stamp, '');
    await this.close(stamp);
  }

  /** Reads an announced study, and begins with it or writes why not. */
  private async open(stamp: string): Promise<void> {
    const { client, service } = this.shared;
    const { signal, print } = service;
    const key = announcementKey(stamp);
    if ((await client.strlen(key)) > MOST_BYTES) throw new Error('its text is too long');
    const announcement = readAnnouncement((await client.get(key)) ?? '', stamp, service.signer);
    if (announcement === null) throw new Error('what is announced is no study');
    const study =
      'unsigned' in announcement
        ? { unfit: `no part in this study: ${announcement.unsigned}` }
        : await service.open(announcement);
    const why =
      'unfit' in study ? study.unfit : study.stamp === stamp ? null : 'another stamp for this study';
    if ('unfit' in study || why !== null) {
      this.unfit.set(stamp, why!);
      await this.refuse(stamp);
      print(`cannot serve study ${stamp.slice(0, 8)}: this worker has ${why}`);
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
    this.served.set(stamp, new ServedStudy(study, workforce, this.shared));
    print(`taking work of "${study.title}"`);
  }

  private async close(stamp: string): Promise<void> {
    const served = this.served.get(stamp);
    if (!served) return;
    const { client, service } = this.shared;
    this.served.delete(stamp);
    await served.close();
    if (!service.signal.aborted && !this.unfit.has(stamp)) service.print(`done with "${served.study.title}"`);
    await client.zrem(workersKey(stamp), this.member);
    // the coordinator has cleared away; what this worker has put there since goes, too
    if ((await client.exists(announcementKey(stamp))) === 0) await clearQueue(client, stamp);
  }
}
