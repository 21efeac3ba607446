import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Spread, spreadOf } from './statistics.ts';

const SOURCE = fileURLToPath(new URL('../../../test/bench/lift.c', import.meta.url));

/** Microseconds a design of `lift.c`, built by the C compiler of this machine; null where it has none. */
export function timeInC(rounds = 9): Spread | null {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-bench-'));
  try {
    const program = join(folder, 'lift');
    const built = spawnSync('cc', ['-O3', '-o', program, SOURCE, '-lm'], { encoding: 'utf8' });
    if (built.error) return null;
    if (built.status !== 0) throw new Error(`lift.c cannot be compiled: ${built.stderr}`);
    return spreadOf(Array.from({ length: rounds }, () => microseconds(program)));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function microseconds(program: string): number {
  const { stdout, status } = spawnSync(program, { encoding: 'utf8' });
  const taken = Number(stdout.split(' ')[0]);
  if (status !== 0 || !(taken > 0)) throw new Error(`lift.c printed: ${stdout}`);
  return taken;
}
