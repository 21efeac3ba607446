import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { check } from '../../src/commands/check.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

describe('check', () => {
  const cwd = join(PROJECT, 'test/fixtures/bad-studies');
  const files = readdirSync(cwd);

  it('has at least 40 bad studies to be tried on', () => {
    expect(files.length).toBeGreaterThanOrEqual(40);
  });

  it.each(files)('refuses %s: its line, what was found and what is wanted, exit code 2', async (file) => {
    const io = testIo({ cwd });
    expect(await check([file], { allowHuge: false }, io)).toBe(2);
    expect(io.out()).toBe('');
    expect(io.err().startsWith(`${file}:`)).toBe(true);
    for (const problem of io.err().trimEnd().split('\n\n')) {
      const [headline, ...more] = problem.split('\n');
      // problems of one place share its line
      const [line, caret] = more.slice(-2);
      expect(headline!.slice(file.length)).toMatch(/^:\d+:\d+: found .+; wanted .+/);
      expect(line).toMatch(/^ +\d+ \|/);
      expect(caret).toMatch(/^ +\| *\^+$/);
    }
  });

  it('refuses a limit and an objective that are empty in every design, each with its caret', async () => {
    const io = testIo({ cwd: join(PROJECT, 'test/fixtures') });
    expect(await check(['always-empty.yaml'], { allowHuge: false }, io)).toBe(2);
    expect(io.err()).toBe(`\
always-empty.yaml:15:5: found \`fuse_margin\`, which is empty in every design probed; wanted what it depends on: supply.fuse (and supply.line_voltage for one on the line)
  15 |   - fuse_margin >= 1.2
     |     ^^^^^^^^^^^

always-empty.yaml:18:15: found \`fuse_margin\`, which is empty in every design probed; wanted what it depends on: supply.fuse (and supply.line_voltage for one on the line)
  18 |   - maximise: room
     |               ^^^^
`);
  });

  it('goes on with a long line below its own beginning on a narrow terminal', async () => {
    const io = testIo({ cwd: join(PROJECT, 'studies'), columns: 60 });
    expect(await check(['seven-choices.yaml'], { allowHuge: false }, io)).toBe(0);
    const lines = io.out().split('\n');
    const at = lines.findIndex((line) => line.includes('coil.wire '));
    const column = lines[at]!.indexOf('1.4 mm');
    expect(lines[at + 1]).toMatch(new RegExp(`^ {${column}}\\S`));
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(60);
  });

  it('stops between studies when it is interrupted', async () => {
    const io = testIo({ cwd, signal: AbortSignal.abort() });
    expect(await check([files[0]!, files[1]!], { allowHuge: false }, io)).toBe(130);
  });
});
