import { spawn, spawnSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CLI, scratchFolder } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { screenAfter } from '../support/screen.ts';
import { PROJECT } from '../support/source-files.ts';

/** What a run leaves on a real terminal. `script` makes one, and a Ctrl-C that is typed there reaches the run as at a desk. */

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

beforeAll(() => {
  const study = readFileSync(join(PROJECT, 'studies/metal-and-turns.yaml'), 'utf8');
  // long enough that nothing finishes it before it is interrupted
  const long = study.replace(/coil\.turns: .*/, 'coil.turns: {from: 300, to: 600, step: 1}');
  writeFileSync(
    join(folder, 'long.yaml'),
    long.replace(/drive\.current: .*/, 'drive.current: {from: 6 A, to: 16 A, count: 2000}'),
  );
});

interface Seen {
  readonly output: string;
  readonly screen: string[];
}

let runs = 0;

function interruptedOn(columns: number, term: string): Promise<Seen> {
  const out = `out-${runs++}`;
  const command = `stty cols ${columns}; exec '${process.execPath}' '${CLI}' run long.yaml --threads 1 --out ${out}`;
  const child = spawn('script', ['-qefc', command, '/dev/null'], {
    cwd: folder,
    env: { ...process.env, TERM: term },
  });
  let output = '';
  return new Promise((resolve) => {
    let typed = false;
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      output += text;
      // a bar, or where there is none the heading
      const begun = term === 'dumb' ? /designs,/.test(output) : /\d %/.test(output);
      if (begun && !typed) {
        typed = true;
        setTimeout(() => child.stdin.write('\u0003'), term === 'dumb' ? 3000 : 300);
      }
    });
    child.on('close', () => resolve({ output, screen: screenAfter(output, columns) }));
  });
}

describe.skipIf(spawnSync('script', ['--version']).status !== 0)('a terminal', () => {
  it.each(whole ? [30, 60, 80, 200] : [30, 200])(
    'of %i columns keeps no piece of the bar after Ctrl-C',
    async (columns) => {
      const { output, screen } = await interruptedOn(columns, 'xterm');
      expect(output).toMatch(/\d %/);
      // broken where the terminal ends
      expect(screen.join('')).toMatch(/interrupted/);
      expect(screen.filter((line) => /\d %|\[=|\^C./.test(line))).toEqual([]);
    },
  );

  it.runIf(whole)('that is dumb gets no bar and no escape sequence', async () => {
    const { output } = await interruptedOn(80, 'dumb');
    expect(output).toMatch(/interrupted/);
    expect(output).not.toContain('\u001b');
    expect(output).not.toMatch(/\d %/);
  });
});
