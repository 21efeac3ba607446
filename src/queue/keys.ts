/**
 * What lies in Redis. A queue is named after the stamp of its rows: study, code, catalogue and engine. So a worker with
 * others never meets its batches.
 *
 * Everything ends by itself when nobody renews it: an announcement by its coordinator, a worker's entry by the worker.
 */

/** Of the queue's own keys. */
export const PREFIX = 'eddylift';
/** Stamps of the studies that are announced. */
export const STUDIES = 'eddylift-studies';

export const STAMP = /^[0-9a-f]{32}$/;

export const announcementKey = (stamp: string) => `eddylift-study:${stamp}`;
/** Workers at a study: members `threads id`, scored by when they last said so, s of Redis's clock. */
export const workersKey = (stamp: string) => `eddylift-workers:${stamp}`;
/** Workers that cannot serve a study, and why. */
export const refusalsKey = (stamp: string) => `eddylift-refusals:${stamp}`;
/** The queue's own: whoever clears a queue away while others do may leave it there. */
export const metaKey = (stamp: string) => `${PREFIX}:${stamp}:meta`;
export const resultKey = (stamp: string, number: number) => `eddylift-result:${stamp}:${number}`;

/** An announcement, and all that hangs on it, lasts this long without its coordinator, s. */
export const ANNOUNCED_S = 120;
/** A result that nobody takes, s. */
export const RESULT_S = 3600;
/** A worker that has not said so for this long is gone, s. */
export const WORKER_S = 15;

/** A batch whose worker has not renewed its claim for this long goes to another, ms. */
export const CLAIM_MS = 6000;
/** How often that is looked for, ms. */
export const STALLED_MS = 3000;

/** Job ids must not look like numbers. */
export const jobId = (number: number) => `batch-${number}`;

export function numberOf(id: string): number | null {
  const match = /^batch-(\d{1,15})$/.exec(id);
  return match ? Number(match[1]) : null;
}
