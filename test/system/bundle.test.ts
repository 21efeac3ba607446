import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { copiedProgram } from '../support/copied-program.ts';

/** The program as it is shipped: modules joined into a few files. */

const program = copiedProgram();

describe('the bundled program', () => {
  it('prints of a bug one line, and on demand a stack of functions, files and lines of the sources', () => {
    const start = 'function quantities(io, { json = false } = {}) {';
    const place = readdirSync(program)
      .filter((name) => name.endsWith('.js'))
      .map((name) => join(program, name))
      .find((path) => readFileSync(path, 'utf8').includes(start))!;
    writeFileSync(place, readFileSync(place, 'utf8').replace(start, `${start} throw new Error('no ink');`));
    const stderr = (debug: string) =>
      spawnSync(process.execPath, [join(program, 'cli.js'), 'quantities'], {
        encoding: 'utf8',
        env: { ...process.env, EDDYLIFT_DEBUG: debug },
      }).stderr;
    const line = 'eddylift: unexpected error, please report it: no ink\n';
    expect(stderr('0')).toBe(line);
    const stack = stderr('1');
    expect(stack).toMatch(/^Error: no ink\n +at quantities \(.*src\/commands\/quantities\.ts:\d+:\d+\)/);
    expect(stack.endsWith(line)).toBe(true);
  });

  it('ships the licence of every package that is joined in', () => {
    const notices = readFileSync(join(program, 'packages.txt'), 'utf8');
    for (const name of ['commander', 'yaml', 'zod', 'mathjs', 'vega', 'hyparquet-writer']) {
      expect(notices).toMatch(
        new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\((MIT|ISC|BSD-3-Clause|Apache-2.0)\\)$`, 'm'),
      );
    }
    // each comes with a text
    const entries = notices.split(/^-{72}$/m);
    expect(entries.filter((entry) => entry.trim().split('\n').length < 5)).toEqual([]);
  });
});
