import type { Redis } from 'ioredis';
import { announcementKey, PREFIX, STAMP, STUDIES, studyPatterns } from './keys.ts';

/** Keys that a step of a scan looks at. */
const AT_ONCE = 1000;
/** Studies without announcement that are named at a time. */
const MOST_ORPHANS = 1000;

/** Announces nothing, but names every study that has keys and no announcement, so that workers clear it away. */
export async function nameOrphans(client: Redis): Promise<void> {
  const stamps = new Set<string>();
  let cursor = '0';
  do {
    const [next, keys] = await client.scan(cursor, 'MATCH', `${PREFIX}:*:*`, 'COUNT', AT_ONCE);
    for (const key of keys) stamps.add(key.split(':')[1]!);
    cursor = next;
  } while (cursor !== '0' && stamps.size < MOST_ORPHANS);
  for (const stamp of stamps) {
    if (STAMP.test(stamp) && (await client.exists(announcementKey(stamp))) === 0) {
      await client.sadd(STUDIES, stamp);
    }
  }
}

/**
 * Removes all that has a study in its name, whoever put it there and whatever it is. What is cut off is begun again by
 * the next worker that finds the study without announcement.
 */
export async function clearQueue(client: Redis, stamp: string): Promise<void> {
  // workers see first that there is nothing to serve
  await client.del(announcementKey(stamp));
  for (const pattern of studyPatterns(stamp)) {
    let cursor = '0';
    do {
      const [next, keys] = await client.scan(cursor, 'MATCH', pattern, 'COUNT', AT_ONCE);
      if (keys.length > 0) await client.unlink(...keys);
      cursor = next;
    } while (cursor !== '0');
  }
  // last: a study without announcement is one to clear away, should this be cut off
  await client.srem(STUDIES, stamp);
}
