import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { setTimeout as pause } from 'node:timers/promises';
import { Redis } from 'ioredis';

/** Why tests of the queue are left out; null where they run. Debian's `redis-server` is all they need. */
export const NO_REDIS =
  spawnSync('redis-server', ['--version']).status === 0
    ? null
    : 'redis-server is not installed (Debian: apt-get install redis-server)';

/** A server of our own on the loopback. */
export interface RedisServer {
  readonly port: number;
  readonly url: string;
  kill(): Promise<void>;
  start(): Promise<void>;
}

/** `lasting`: keeps what it was told when it is killed. `more`: further arguments. */
export async function redisServer(
  folder: string,
  password: string | null = null,
  lasting = true,
  more: readonly string[] = [],
): Promise<RedisServer> {
  const port = await freePort();
  let child: ChildProcess | null = null;
  mkdirSync(folder, { recursive: true });
  const settings = ['--bind', '127.0.0.1', '--port', `${port}`, '--dir', folder, '--save', ''];
  const log = lasting ? ['--appendonly', 'yes', '--appendfsync', 'always'] : [];
  const secret = password === null ? [] : ['--requirepass', password];
  const server: RedisServer = {
    port,
    url: `redis://127.0.0.1:${port}`,
    async start() {
      child = spawn('redis-server', [...settings, ...log, ...secret, ...more], { stdio: 'ignore' });
      const client = new Redis(port, '127.0.0.1', {
        ...(password !== null && { password }),
        retryStrategy: () => 50,
        maxRetriesPerRequest: null,
      });
      client.on('error', () => {});
      // answers once it has read what it had kept
      while ((await client.ping().catch(() => '')) !== 'PONG') {
        if (child.exitCode !== null) throw new Error(`redis-server ended with ${child.exitCode}`);
        await pause(50);
      }
      client.disconnect();
    },
    async kill() {
      if (child === null) return;
      const gone = new Promise((resolve) => child!.once('exit', resolve));
      child.kill('SIGKILL');
      await gone;
      child = null;
    },
  };
  await server.start();
  return server;
}

/** Below those that connections are given as they are made: one of them could have it before the server has, or while it is down. */
function freePort(): Promise<number> {
  const port = randomInt(10_000, 30_000);
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(freePort()));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(port)));
  });
}
