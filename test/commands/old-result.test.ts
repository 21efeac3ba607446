import { cpSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, it } from 'vitest';
import { QUANTITIES } from '../../src/model/quantities.ts';
import { RENAMED } from '../../src/model/renamed.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { PROJECT } from '../support/source-files.ts';

/** Written by format 2, whose parts carry neither the study's text nor the names of codes, and know fewer quantities. */
const FIXTURES = join(PROJECT, 'test/fixtures');
const OLD = join(FIXTURES, 'old-result');
const scratch = scratchFolder();
// the search was made with terms that have other names since
for (const name of ['old-result', 'old-search']) {
  cpSync(join(FIXTURES, name), join(scratch, name), { recursive: true });
}
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

type Row = Readonly<Record<string, string>>;
const read = (path: string) => parse(readFileSync(path), { columns: true }) as Row[];

/** Today's name of a column of then. */
function today(column: string): string {
  const then = [...RENAMED.keys()].find((name) => column === name || column.startsWith(`${name}_`));
  return then === undefined ? column : column.replace(then, RENAMED.get(then)!);
}

describe('a result of an earlier version', () => {
  it.each(['old-result', 'old-search'])(
    'has the front that it had (%s), figure by figure, and empty cells for what it does not know',
    async (name) => {
      const { code, out, err } = await cli(['front', name, '--threads', '1'], scratch);
      // limits that a study has of itself since, by quantities that came with them
      expect(err).toMatch(
        /^(?:eddylift: old-\w+ has no \w+ \(an earlier version made it\): not judged by '[^\n]*'\n)*$/,
      );
      expect(code).toBe(0);
      const then = read(join(FIXTURES, name, 'front.csv'));
      const now = read(join(scratch, /Front: (\S+)\n/.exec(out)![1]!));
      expect(now).toHaveLength(then.length);
      const known = Object.keys(then[0]!);
      // the registry has grown since: without this the test would hold nothing
      const fresh = Object.keys(now[0]!).filter((column) => !known.map(today).includes(column));
      expect(fresh.length).toBeGreaterThan(0);
      const kept = known.filter((column) => today(column) in now[0]!);
      expect(kept.length).toBeGreaterThan(0.9 * known.length);
      then.forEach((row, i) => {
        const cells = (from: Row, columns: readonly string[]) => columns.map((column) => from[column]);
        expect(cells(now[i]!, kept.map(today))).toEqual(cells(row, kept));
        expect(cells(now[i]!, fresh)).toEqual(fresh.map(() => ''));
      });
    },
  );

  it('is not judged by what it does not know: that is said, with a caret', async () => {
    const [unknown] = QUANTITIES.filter(({ column }) => !(column in read(join(OLD, 'front.csv'))[0]!)).filter(
      ({ name, words }) => ![...RENAMED.values()].includes(name) && words.length === 0,
    );
    const { code, out, err } = await cli(['front', 'old-result', '--minimise', unknown!.name], scratch);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain(`--minimise:1:1: found \`${unknown!.name}\`, which this result does not have`);
  });

  it.each([
    ['old-result', 'A small table for the entrance hall'],
    ['old-search', 'A small table, searched for'],
  ])('has cards (%s), which say that they are computed by another version', async (name, title) => {
    const { code, out, err } = await cli(['card', name, '--design', '6'], scratch);
    expect(code).toBe(0);
    expect(out).toContain(`Bench card of design 6: ${title}`);
    expect(err).toMatch(/^eddylift: old-\w+ was made with another version of the physics [^\n]*\n$/);
  });
});
