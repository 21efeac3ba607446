import { cpSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, it } from 'vitest';
import { QUANTITIES } from '../../src/model/quantities.ts';
import { FORMER_COLUMNS } from '../../src/store/former-columns.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { PROJECT } from '../support/source-files.ts';

/** Written by format 2, whose parts carry neither the study's text nor the names of codes, and know fewer quantities. */
const OLD = join(PROJECT, 'test/fixtures/old-result');
const scratch = scratchFolder();
cpSync(OLD, join(scratch, 'old'), { recursive: true });
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

type Row = Readonly<Record<string, string>>;
const read = (path: string) => parse(readFileSync(path), { columns: true }) as Row[];

/** Columns of a renamed quantity, today's and then's. */
const RENAMED = new Map(
  QUANTITIES.flatMap(({ name, column }) =>
    (FORMER_COLUMNS[name] ?? []).map((then) => [column.replace(name, then), column] as const),
  ),
);

describe('a result of an earlier version', () => {
  it('has the front that it had, figure by figure, and empty cells for what it does not know', async () => {
    const { code, out, err } = await cli(['front', 'old', '--threads', '1'], scratch);
    expect(err).toBe('');
    expect(code).toBe(0);
    const then = read(join(OLD, 'front.csv'));
    const now = read(join(scratch, /Front: (\S+)\n/.exec(out)![1]!));
    expect(now).toHaveLength(then.length);
    const known = Object.keys(then[0]!);
    const today = known.map((column) => RENAMED.get(column) ?? column);
    // the registry has grown since: without this the test would hold nothing
    const fresh = Object.keys(now[0]!).filter((column) => !today.includes(column));
    expect(fresh.length).toBeGreaterThan(0);
    then.forEach((row, i) => {
      const kept = today.flatMap((column, k) =>
        column in now[i]! ? [[column, row[known[k]!]] as const] : [],
      );
      expect(kept.length).toBeGreaterThan(0.9 * known.length);
      for (const [column, cell] of kept) expect([column, now[i]![column]]).toEqual([column, cell]);
      expect(fresh.map((column) => now[i]![column])).toEqual(fresh.map(() => ''));
    });
  });

  it('is not judged by what it does not know: that is said, with a caret', async () => {
    const [unknown] = QUANTITIES.filter(({ column }) => !(column in read(join(OLD, 'front.csv'))[0]!)).filter(
      ({ name, words }) => FORMER_COLUMNS[name] === undefined && words.length === 0,
    );
    const { code, out, err } = await cli(['front', 'old', '--minimise', unknown!.name], scratch);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(`--minimise:1:1: found \`${unknown!.name}\`, which this result does not have`);
  });

  it('has cards, which say that they are computed by another version', async () => {
    const { code, out, err } = await cli(['card', 'old', '--design', '6'], scratch);
    expect(code).toBe(0);
    expect(out).toMatch(/^Bench card of design 6: A small table for the entrance hall/);
    expect(err).toMatch(/^eddylift: old was made with another version of the physics [^\n]*\n$/);
  });
});
