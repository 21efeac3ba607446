import { cpSync, existsSync, readFileSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder, start } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** A copy of the program whose reports fail. */
const copy = join(scratch, 'copy');
const broken = join(copy, 'dist/src/cli.js');
const RUN = ['run', 'small.yaml', '--out', 'result', '--quiet', '--threads', '1'];
const TABLES = ['designs.csv', 'designs.parquet', 'front.csv', 'run.json'];

beforeAll(() => {
  if (!whole) return;
  for (const part of ['dist', 'package.json'])
    cpSync(join(PROJECT, part), join(copy, part), { recursive: true });
  symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'));
  const report = join(copy, 'dist/src/report/build-report.js');
  const text = readFileSync(report, 'utf8');
  const failing = text.replace(
    /(export async function buildReport\([^)]*\) \{)/,
    "$1 throw new Error('no ink');",
  );
  expect(failing).not.toBe(text);
  writeFileSync(report, failing);
  cpSync(join(PROJECT, 'test/fixtures/old-result/study.yaml'), join(scratch, 'small.yaml'));
});

// the copy reads its modules one by one, six times
describe.runIf(whole)('a report that fails', () => {
  it('leaves finished tables, is told in a line, and is made again by the same command', async () => {
    const first = await start(RUN, scratch, broken).ended;
    expect(first.err).toBe(
      'eddylift: small.yaml: no report: Error: no ink, please report it; the tables are finished, and the same command makes the report again\n',
    );
    expect(first.code).toBe(1);
    const place = (name: string) => join(scratch, 'result', name);
    expect(existsSync(place('report.html'))).toBe(false);
    expect(JSON.parse(readFileSync(place('run.json'), 'utf8')).finished).toMatch(/^\d{4}-/);
    const state = () =>
      TABLES.map((name) => [name, statSync(place(name)).ino, readFileSync(place(name), 'utf8')]);
    const tables = state();
    expect((await cli(['front', 'result', '--no-limits'], scratch)).code).toBe(0);

    const again = await start(RUN, scratch, broken).ended;
    expect([again.code, again.err]).toEqual([1, first.err]);
    const mended = await cli(RUN, scratch);
    expect(mended.err).toBe('');
    expect(mended.code).toBe(0);
    expect(mended.out).toBe(
      'small.yaml: already done, see result; its report was missing and has been made\n',
    );
    expect(readFileSync(place('report.html'), 'utf8')).toContain('A small table for the entrance hall');
    expect(state()).toEqual(tables);

    const done = await cli(RUN, scratch);
    expect(done.out).toBe('small.yaml: already done, see result (--fresh runs it again in a new place)\n');
  });
});
