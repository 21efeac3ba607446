import { isIP } from 'node:net';
import { UsageError } from '../errors.ts';

/** Where a queue is. */
export interface QueueAddress {
  /** For people: without user name and password. */
  readonly shown: string;
  readonly options: {
    readonly host: string;
    readonly port: number;
    readonly db: number;
    readonly username?: string;
    readonly password?: string;
    /** Certificates name hosts; where an address is a bare number, it is what they must name. */
    readonly tls?: { readonly servername?: string };
  };
}

const DEFAULT_PORT = 6379;

/**
 * `redis://[[USER]:PASSWORD@]HOST[:PORT][/DATABASE]`, or `rediss://` for TLS. `password`: from the environment, where it
 * is not in the list of processes; used where the address has none. Throws UsageError, which never contains a password.
 */
export function queueAddress(text: string, password: string | null): QueueAddress {
  const wanted = 'wanted redis://HOST:PORT, or rediss://HOST:PORT for TLS';
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    throw new UsageError(`the address of the queue cannot be read; ${wanted}`);
  }
  if (url.protocol !== 'redis:' && url.protocol !== 'rediss:') {
    throw new UsageError(`the address of the queue begins with ${url.protocol}//; ${wanted}`);
  }
  if (url.hostname === '') throw new UsageError(`the address of the queue names no host; ${wanted}`);
  const database = /^\/?(\d{0,3})$/.exec(url.pathname);
  if (!database || url.search !== '' || url.hash !== '') {
    throw new UsageError(`the address of the queue has something after its port; ${wanted}`);
  }
  const host = url.hostname.replace(/^\[(.*)\]$/, '$1');
  const port = url.port === '' ? DEFAULT_PORT : Number(url.port);
  const username = decoded(url.username);
  const secret = url.password === '' ? password : decoded(url.password);
  return {
    shown: `${url.protocol}//${url.hostname}:${port}${database[1] ? `/${database[1]}` : ''}`,
    options: {
      host,
      port,
      db: Number(database[1]),
      ...(url.username !== '' && { username }),
      ...(secret !== null && { password: secret }),
      ...(url.protocol === 'rediss:' && { tls: isIP(host) === 0 ? { servername: host } : {} }),
    },
  };
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    throw new UsageError("a % in the queue's user name or password is written %25");
  }
}
