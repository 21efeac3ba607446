import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { redisServer } from '../support/redis.ts';

const CLI = fileURLToPath(new URL('../../program/cli.js', import.meta.url));

export interface BenchQueue {
  readonly address: string;
  stop(): Promise<void>;
}

/** A Redis server and so many workers of one thread, on this machine. */
export async function startQueue(workers: number): Promise<BenchQueue> {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-bench-queue-'));
  const redis = await redisServer(folder, null, false);
  const working = Array.from({ length: workers }, () =>
    spawn(process.execPath, [CLI, 'worker', redis.url, '--threads', '1'], { stdio: 'ignore' }),
  );
  return {
    address: redis.url,
    async stop() {
      await Promise.all(working.map(end));
      await redis.kill();
      rmSync(folder, { recursive: true });
    },
  };
}

async function end(worker: ChildProcess): Promise<void> {
  worker.kill('SIGTERM');
  await once(worker, 'exit');
}
