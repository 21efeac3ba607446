/**
 * What lies in Redis. A queue is named after the stamp of its rows: study, code, catalogue and engine. So a worker with
 * others never meets its batches.
 *
 * Everything ends by itself when nobody renews it: an announcement by its coordinator, a worker's entry by the worker.
 * What BullMQ keeps is removed by whoever finds its study without announcement (clear-queue.ts).
 */

/** Of the queue's own keys. */
export const PREFIX = 'eddylift';
/** Stamps of the studies that are announced. */
export const STUDIES = 'eddylift-studies';

export const STAMP = /^[0-9a-f]{32}$/;

export const announcementKey = (stamp: string) => `eddylift-study:${stamp}`;
/** Workers at a study: members `threads id`, scored by when they last reported, s of Redis's clock. */
export const workersKey = (stamp: string) => `eddylift-workers:${stamp}`;
/** Workers that cannot serve a study, and why. */
export const refusalsKey = (stamp: string) => `eddylift-refusals:${stamp}`;
/** Workers whose rows the coordinator no longer takes, and why. */
export const excludedKey = (stamp: string) => `eddylift-excluded:${stamp}`;
export const resultKey = (stamp: string, number: number) => `eddylift-result:${stamp}:${number}`;

/** Keeps workers of the queue from looking for work whose worker is gone more often than need be. */
export const stalledCheckKey = (stamp: string) => `${PREFIX}:${stamp}:stalled-check`;

/** All that has a study in its name, for SCAN; `eddylift:STAMP:...` is BullMQ's own. */
export const studyPatterns = (stamp: string) => [`eddylift:${stamp}:*`, `eddylift-*:${stamp}*`] as const;

/** What a key must be, by Redis's name of its type; `none` where it is not there. */
export const keyTypes = (stamp: string): readonly (readonly [key: string, type: string])[] => [
  [STUDIES, 'set'],
  [announcementKey(stamp), 'string'],
  [workersKey(stamp), 'zset'],
  [refusalsKey(stamp), 'hash'],
  [excludedKey(stamp), 'hash'],
  [`${PREFIX}:${stamp}:meta`, 'hash'],
  [`${PREFIX}:${stamp}:id`, 'string'],
  [`${PREFIX}:${stamp}:wait`, 'list'],
  [`${PREFIX}:${stamp}:paused`, 'list'],
  [`${PREFIX}:${stamp}:active`, 'list'],
  [`${PREFIX}:${stamp}:stalled`, 'set'],
  [`${PREFIX}:${stamp}:stalled-check`, 'string'],
  [`${PREFIX}:${stamp}:marker`, 'zset'],
  [`${PREFIX}:${stamp}:delayed`, 'zset'],
  [`${PREFIX}:${stamp}:prioritized`, 'zset'],
  [`${PREFIX}:${stamp}:waiting-children`, 'zset'],
  [`${PREFIX}:${stamp}:completed`, 'zset'],
  [`${PREFIX}:${stamp}:failed`, 'zset'],
  [`${PREFIX}:${stamp}:events`, 'stream'],
];

/** An announcement, and all that hangs on it, lasts this long without its coordinator, s. */
export const ANNOUNCED_S = 120;
/** A result that nobody takes, s. */
export const RESULT_S = 600;
/** A worker that has not reported for this long is gone, s. */
export const WORKER_S = 15;

/** Job ids must not look like numbers. */
export const jobId = (number: number) => `batch-${number}`;

export function numberOf(id: string): number | null {
  const match = /^batch-(\d{1,15})$/.exec(id);
  return match ? Number(match[1]) : null;
}
