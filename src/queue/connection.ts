import { Redis } from 'ioredis';
import { UsageError } from '../errors.ts';
import type { QueueAddress } from './address.ts';
import { printable } from './announcement.ts';

/** A connection that is lost is tried again this often, ms, for ever. */
const LONGEST_PAUSE = 2000;
/** The first connection must stand within this, ms. */
const FIRST_CONNECTION = 5000;

/** Options under which a connection outlives its server: what is asked meanwhile waits. */
export function lasting({ options }: QueueAddress) {
  return {
    ...options,
    maxRetriesPerRequest: null,
    retryStrategy: (times: number) => Math.min(100 * times, LONGEST_PAUSE),
  };
}

const WHY: readonly (readonly [pattern: RegExp, words: string])[] = [
  [/NOAUTH|Authentication required/i, 'it asks for a password: give it in EDDYLIFT_QUEUE_PASSWORD'],
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
];

/** Throws UsageError when there is no queue at an address, or none that lets us in. */
export async function checkConnection(address: QueueAddress): Promise<void> {
  const client = new Redis({
    ...address.options,
    lazyConnect: true,
    connectTimeout: FIRST_CONNECTION,
    retryStrategy: () => null,
    maxRetriesPerRequest: 0,
  });
  let heard: unknown;
  client.on('error', (error) => {
    heard ??= error;
  });
  try {
    await client.connect();
    await client.ping();
  } catch (error) {
    throw new UsageError(`cannot use the queue at ${address.shown}: ${describeTrouble(heard ?? error)}`, {
      cause: error,
    });
  } finally {
    client.disconnect();
  }
}

export function describeTrouble(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  const text = `${code ?? ''} ${message ?? ''}`;
  const known = WHY.find(([pattern]) => pattern.test(text));
  return known?.[1] ?? printable((message || code || 'no answer').split('\n')[0]!);
}

/** Says once that a connection is lost, however many of its users notice, and once that it is back. */
export function createLineWatch(address: QueueAddress, say: (line: string) => void) {
  let lost = false;
  return {
    lost(error: unknown) {
      if (lost) return;
      lost = true;
      say(`lost the queue at ${address.shown} (${describeTrouble(error)}); trying again`);
    },
    back() {
      if (!lost) return;
      lost = false;
      say(`the queue at ${address.shown} is back`);
    },
  };
}
