import { execFile, spawn } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, describe, expect, it } from 'vitest';
import { CLI, scratchFolder } from '../support/cli.ts';
import { nightly } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

/**
 * Runs so short that threads are ended while others still load: on Node 20 and 22 one in 25 to 75 of them took the whole
 * process along (exit 134) while a worker's module was loaded by require().
 */
const RUNS = Number(process.env.EDDYLIFT_SHORT_RUNS ?? 1000);
const NODES = ['20', '22', '24'];

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const study = join(folder, 'one.yaml');
writeFileSync(
  study,
  `study: One design
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
vary: {drive.current: [12 A]}
objectives: [{maximise: height}]
`,
);

/** Exit code and signal of a program, `null null` never. */
function endOf(node: string, args: readonly string[]): Promise<string> {
  return new Promise((resolve) => {
    const child = spawn(node, args, { cwd: folder, stdio: 'ignore' });
    child.on('close', (code, signal) => resolve(`${code ?? signal}`));
  });
}

/** How often each way to end was met in so many runs, some at the same time. */
async function endsOf(node: string, runs: number, atOnce: number): Promise<Record<string, number>> {
  const ends: Record<string, number> = {};
  let begun = 0;
  await Promise.all(
    Array.from({ length: atOnce }, async () => {
      while (begun < runs) {
        const out = `run-${begun++}`;
        const end = await endOf(node, [CLI, 'run', study, '--out', out, '--quiet', '--threads', '2']);
        ends[end] = (ends[end] ?? 0) + 1;
        rmSync(join(folder, out), { recursive: true, force: true });
      }
    }),
  );
  return ends;
}

describe('pools of two threads for one design', () => {
  it('are started and stopped 40 times in one process', async () => {
    const pools = join(PROJECT, 'test/fixtures/one-design-pools.mjs');
    expect(await endOf(process.execPath, [pools, join(PROJECT, 'dist'), study, '40', '4'])).toBe('0');
  });
});

describe.runIf(nightly).each(NODES)('runs of one design on Node %s', (version) => {
  it(
    `end well, ${RUNS} with the machine idle and ${RUNS} under load`,
    async () => {
      const place = join(folder, `node-${version}`);
      mkdirSync(place);
      await promisify(execFile)(
        'npm',
        ['install', '--no-save', '--no-audit', '--no-fund', `node@${version}`],
        { cwd: place },
      );
      const node = join(place, 'node_modules/node/bin/node');
      expect(await endsOf(node, RUNS, 1)).toEqual({ 0: RUNS });
      expect(await endsOf(node, RUNS, 8)).toEqual({ 0: RUNS });
    },
    RUNS * 20_000,
  );
});
