import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { forecastStudies, formatForecast } from '../../src/session/forecast.ts';
import { resultFolderName } from '../../src/store/result-folder.ts';
import { scratchFolder } from '../support/cli.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { studyFrom } from '../support/finished-study.ts';
import { testIo } from '../support/test-io.ts';

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SETTINGS = {
  out: null,
  several: true,
  fresh: false,
  threads: 2,
  sparing: true,
  allowHuge: false,
  share: null,
};

const grid = disturbedStudy('Grid');
writeFileSync(join(folder, 'grid.yaml'), grid);
writeFileSync(
  join(folder, 'search.yaml'),
  `${disturbedStudy('Search')}plan: {genetic: {population: 20, generations: 10, seed: 1}}\n`,
);
writeFileSync(join(folder, 'typo.yaml'), 'study: Typo\n');

const { title, hash } = studyFrom(grid);

function leaveResult(place: string, finished: string | null): void {
  const result = join(folder, place, resultFolderName({ title, hash }));
  mkdirSync(join(result, 'parts'), { recursive: true });
  writeFileSync(join(result, 'run.json'), JSON.stringify({ format: 2, study: { title, hash }, finished }));
  const name = `000000000-1-000000000-14000-${'0'.repeat(32)}.arrow`;
  if (finished === null) writeFileSync(join(result, 'parts', name), '');
}

describe('a forecast for several studies', () => {
  it('adds up designs and times of those that are to run, and says nothing on stderr', async () => {
    const io = testIo({ cwd: folder });
    const forecasts = await forecastStudies(
      ['grid.yaml', 'typo.yaml', 'search.yaml', 'gone.yaml'],
      SETTINGS,
      io,
    );
    expect(forecasts.map(({ state }) => state)).toEqual([
      'to run',
      'cannot be run',
      'to run',
      'cannot be run',
    ]);
    expect(forecasts.map(({ designs }) => designs)).toEqual([14520, 0, 200, 0]);
    expect(forecasts.map(({ least }) => least > 0)).toEqual([true, false, true, false]);
    expect(io.err() + io.out()).toBe('');
    expect(formatForecast(forecasts, 2, 80)).toMatch(
      /^4 studies: at most 14,720 designs, .* on 2 threads\nCannot be run \(eddylift check shows why\): typo\.yaml, gone\.yaml$/,
    );
  });

  it('counts a share of a grid, and no search, which cannot be shared out', async () => {
    const io = testIo({ cwd: folder });
    const settings = { ...SETTINGS, share: { part: 2, of: 10 } };
    expect(await forecastStudies(['grid.yaml', 'search.yaml'], settings, io)).toMatchObject([
      { state: 'to run', designs: 1452 },
      { state: 'cannot be run', designs: 0 },
    ]);
  });

  it('counts nothing for a finished result, save with --fresh', async () => {
    leaveResult('finished', '2026-01-01T00:00:00Z');
    const io = testIo({ cwd: folder });
    const settings = { ...SETTINGS, out: 'finished' };
    const there = await forecastStudies(['grid.yaml'], settings, io);
    expect(there).toMatchObject([{ state: 'already done', designs: 0, least: 0, most: 0 }]);
    expect(formatForecast([...there, ...there], 2, 80)).toBe('2 studies: nothing to compute; 2 already done');
    const anew = await forecastStudies(['grid.yaml'], { ...settings, fresh: true }, io);
    expect(anew).toMatchObject([{ state: 'to run', designs: 14520 }]);
  });

  it('expects less time where a part of the designs is there already', async () => {
    leaveResult('begun', null);
    // the clock of this world moves 10 ms a look, so that both take equally long a design
    const io = testIo({ cwd: folder });
    const [whole] = await forecastStudies(['grid.yaml'], SETTINGS, io);
    const [rest] = await forecastStudies(['grid.yaml'], { ...SETTINGS, out: 'begun' }, io);
    expect(rest!.designs).toBe(14520);
    expect(rest!.least).toBeLessThan(0.2 * whole!.least);
  });
});
