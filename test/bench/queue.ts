import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { redisServer } from '../support/redis.ts';

const CLI = fileURLToPath(new URL('../../src/cli.js', import.meta.url));

export interface BenchQueue {
  readonly address: string;
  stop(): Promise<void>;
}

/** A Redis server and so many servers of one thread, on this machine. */
export async function startQueue(servers: number): Promise<BenchQueue> {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-bench-queue-'));
  const redis = await redisServer(folder, null, false);
  const serving = Array.from({ length: servers }, () =>
    spawn(process.execPath, [CLI, 'serve-queue', redis.url, '--threads', '1'], { stdio: 'ignore' }),
  );
  return {
    address: redis.url,
    async stop() {
      await Promise.all(serving.map(end));
      await redis.kill();
      rmSync(folder, { recursive: true });
    },
  };
}

async function end(server: ChildProcess): Promise<void> {
  server.kill('SIGTERM');
  await once(server, 'exit');
}
