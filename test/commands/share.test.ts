import { cpSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder } from '../support/cli.ts';
import { designsKept, disturbedStudy, TABLES, tableDigests } from '../support/disturbed-study.ts';
import { whole } from '../support/nightly.ts';
import { heldUnderWay } from '../support/under-way.ts';

/** Every other of 64 batches of 227 designs, the last of which has 219. */
const HALF = 31 * 227 + 219;

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('eddylift run --share', () => {
  it.runIf(whole)('leaves the work of one run to several, whose parts together give its tables', async () => {
    writeFileSync(join(folder, 'study.yaml'), disturbedStudy('Shared'));
    const alone = await cli(['run', 'study.yaml', '--out', 'whole', '--quiet'], folder);
    expect(alone.code).toBe(0);
    for (const share of ['1/3', '2/3', '3/3']) {
      const out = `share-${share[0]}`;
      const { code, out: said } = await cli(
        ['run', 'study.yaml', '--share', share, '--out', out, '--quiet'],
        folder,
      );
      expect(code).toBe(0);
      expect(said).toContain(`study.yaml: share ${share[0]} of 3, `);
      // no table of a share looks like one of the study
      expect(Object.values(tableDigests(join(folder, out)))).toEqual(TABLES.map(() => null));
      cpSync(join(folder, out), join(folder, 'together'), { recursive: true });
    }
    expect(designsKept(join(folder, 'together'))).toBe(designsKept(join(folder, 'whole')));
    const { code, out } = await cli(['run', 'study.yaml', '--out', 'together'], folder);
    expect(code).toBe(0);
    expect(out).toContain('Continuing: 14,520 designs there already.');
    expect(tableDigests(join(folder, 'together'))).toEqual(tableDigests(join(folder, 'whole')));
  });

  it.runIf(whole)('goes on where it was broken off, in a folder that is named after the share', async () => {
    writeFileSync(join(folder, 'broken.yaml'), disturbedStudy('Broken'));
    const run = ['run', 'broken.yaml', '--share', '2/2', '--json'];
    const results = join(folder, 'results');
    const place = () => join(results, existsSync(results) ? (readdirSync(results)[0] ?? '') : '');
    const { child, ended } = await heldUnderWay([...run, '--threads', '1'], folder, place, HALF);
    child.kill('SIGKILL');
    await ended;
    const kept = designsKept(place());
    expect(kept).toBeGreaterThan(0);
    expect(kept).toBeLessThan(HALF);
    const { out } = await cli(run, folder);
    const report = JSON.parse(out.trimEnd().split('\n').at(-1)!) as { status: string; folder: string };
    expect(report).toMatchObject({ status: 'share done', designs: HALF, feasible: null, front: null });
    expect(report.folder).toMatch(/^results\/broken-[0-9a-f]{8}-share-2-of-2$/);
    expect(designsKept(join(folder, report.folder))).toBe(HALF);
    expect(JSON.parse(readFileSync(join(folder, report.folder, 'run.json'), 'utf8'))).toMatchObject({
      finished: null,
    });
  });

  it('refuses a search, a share that is none, and a queue beside it', async () => {
    writeFileSync(
      join(folder, 'search.yaml'),
      disturbedStudy('Search', 'plan: {genetic: {population: 20, generations: 3}}\n'),
    );
    for (const [args, why] of [
      [
        ['search.yaml', '--share', '1/2'],
        'cannot be shared out beforehand; --queue runs it on several machines',
      ],
      [['study.yaml', '--share', '3/2'], 'wanted which share of how many, such as 3/10'],
      [['study.yaml', '--share', '0/2'], 'wanted which share of how many'],
      [['study.yaml', '--share', '1/2', '--queue', 'redis://lab'], 'cannot be used with'],
    ] as const) {
      const { code, err } = await cli(['run', ...args], folder);
      expect(err).toContain(why);
      expect(code).toBe(2);
    }
  });
});
