import { Redis } from 'ioredis';
import { UsageError } from '../errors.ts';
import type { QueueAddress } from './address.ts';
import { printable } from './announcement.ts';
import { keyTypes, STUDIES } from './keys.ts';
import type { Pace } from './pace.ts';

/** A connection that is lost is tried again this often, ms, for ever. */
const LONGEST_PAUSE = 2000;

/** Oldest Redis whose commands the queue needs. */
const OLDEST = [5, 0] as const;

/**
 * Options under which a connection outlives its server: what is sent meanwhile waits. One on which nothing comes any more
 * is closed and made again. The version and the eviction policy are checked once, by `checkConnection`: left to BullMQ,
 * each connection writes its own warning to the terminal.
 */
export function lasting({ options }: QueueAddress, pace: Pace) {
  return {
    ...options,
    maxRetriesPerRequest: null,
    connectTimeout: pace.silence,
    socketTimeout: pace.silence,
    retryStrategy: (times: number) => Math.min(100 * times, LONGEST_PAUSE),
    skipVersionCheck: true,
  };
}

const WHY: readonly (readonly [pattern: RegExp, words: string])[] = [
  [/NOAUTH|Authentication required/i, 'it requires a password: give it in EDDYLIFT_QUEUE_PASSWORD'],
  [/WRONGPASS|invalid password|invalid username/i, 'user name or password are wrong'],
  [/ECONNREFUSED/, 'nothing listens there'],
  [/ENOTFOUND|EAI_AGAIN/, 'there is no such host'],
  [/ETIMEDOUT|EHOSTUNREACH|ENETUNREACH|timed? ?out/i, 'no answer'],
  [
    /certificate|self.signed/i,
    'its certificate is not trusted (NODE_EXTRA_CA_CERTS names a file of further ones)',
  ],
  [/NOPERM/, 'this user may not use it'],
  [/ECONNRESET|EPIPE/, 'it hangs up; a port for TLS is written rediss://'],
  [/\bOOM\b/, 'its memory is full'],
  [/MISCONF/, 'it cannot write to its disk'],
  [/WRONGTYPE/, 'something else is kept under a key of the queue (WRONGTYPE)'],
];

/** What is wrong with a queue that can be used all the same. */
export interface QueueCheck {
  /** A line for the user; null where all is well. */
  readonly warning: string | null;
}

/**
 * Throws UsageError when there is no queue at an address, or none that lets us in, or when something else is kept under
 * its keys. `stamp`: the study whose queue it is; null for a worker, which serves any.
 */
export async function checkConnection(
  address: QueueAddress,
  stamp: string | null,
  pace: Pace,
): Promise<QueueCheck> {
  const client = new Redis({
    ...address.options,
    lazyConnect: true,
    connectTimeout: pace.firstConnection,
    socketTimeout: pace.firstConnection,
    retryStrategy: () => null,
    maxRetriesPerRequest: 0,
  });
  let heard: unknown;
  client.on('error', (error) => {
    heard ??= error;
  });
  const refuse = (why: string, cause?: unknown) =>
    new UsageError(`cannot use the queue at ${address.shown}: ${why}`, { cause });
  try {
    await client.connect();
    await client.ping();
    const wanted = stamp === null ? keyTypes('').filter(([key]) => key === STUDIES) : keyTypes(stamp);
    for (const [key, type] of wanted) {
      const found = await client.type(key);
      if (found === type || found === 'none') continue;
      throw refuse(
        `its key ${key} holds a ${printable(found)}, which is not ours; remove it (redis-cli DEL ${key}) or use another database (redis://HOST:PORT/1)`,
      );
    }
    return { warning: await eviction(client) };
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw refuse(describeTrouble(heard ?? error), error);
  } finally {
    client.disconnect();
  }

  async function eviction(client: Redis): Promise<string | null> {
    // a user of the queue need not have the right to read it
    const info = await client.info().catch(() => '');
    const field = (name: string) => new RegExp(`^${name}:(\\S+)`, 'm').exec(info)?.[1];
    const [major = 0, minor = 0] = (field('redis_version') ?? '').split('.').map(Number);
    if (field('redis_version') && (major < OLDEST[0] || (major === OLDEST[0] && minor < OLDEST[1]))) {
      throw refuse(`it is Redis ${major}.${minor}; ${OLDEST.join('.')} or newer is needed`);
    }
    const policy = field('maxmemory_policy');
    if (policy === undefined || policy === 'noeviction') return null;
    return `the queue at ${address.shown} may drop work when its memory is full (maxmemory-policy ${printable(policy)}): set it to noeviction; what is dropped is handed out again`;
  }
}

export function describeTrouble(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const text = `${code ?? ''} ${message ?? ''}`;
  const known = WHY.find(([pattern]) => pattern.test(text));
  return known?.[1] ?? printable((message || code || 'no answer').split('\n')[0]!);
}

export interface LineWatch {
  /** What the connection was lost for; null while it stands. */
  readonly trouble: string | null;
  lost(error: unknown): void;
  back(): void;
}

/** Prints once that a connection is lost, however many of its users notice, and once that it is back. */
export function createLineWatch(address: QueueAddress, print: (line: string) => void): LineWatch {
  let trouble: string | null = null;
  return {
    get trouble() {
      return trouble;
    },
    lost(error) {
      if (trouble !== null) return;
      trouble = describeTrouble(error);
      print(`lost the queue at ${address.shown} (${trouble}); trying again`);
    },
    back() {
      if (trouble === null) return;
      trouble = null;
      print(`the queue at ${address.shown} is back`);
    },
  };
}
