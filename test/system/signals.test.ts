import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { scratchFolder, start } from '../support/cli.ts';
import { designsKept, longStudy, partFiles } from '../support/disturbed-study.ts';
import { whole } from '../support/nightly.ts';

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
writeFileSync(join(folder, 'long.yaml'), longStudy('Long'));

/** A run that has finished a part. */
async function underWay(out: string) {
  const run = start(['run', 'long.yaml', '--out', out, '--quiet', '--threads', '1'], folder);
  const place = join(folder, out);
  while (partFiles(place).length === 0) await pause(5);
  return { ...run, place };
}

describe('a run that is told to end', () => {
  // all four end in the same place; SIGTERM ends other tests' runs
  it.each(whole ? (['SIGINT', 'SIGTERM', 'SIGHUP', 'SIGQUIT'] as const) : (['SIGHUP'] as const))(
    'by %s keeps what is finished, leaves no temporary file and says so in one line',
    async (signal) => {
      const { child, ended, place } = await underWay(signal);
      child.kill(signal);
      const { code, err } = await ended;
      expect(code).toBe(130);
      expect(err).toMatch(
        /^eddylift: long\.yaml: interrupted after [\d,]+ designs, which are kept; the same command continues\n$/,
      );
      expect(designsKept(place)).toBeGreaterThan(0);
      expect(readdirSync(place).sort()).toEqual(['parts', 'run.json', 'study.yaml']);
      expect(readdirSync(join(place, 'parts'))).toEqual(partFiles(place));
    },
  );
});

describe('a run that hears the same twice at once, as from a terminal and from npx', () => {
  it('ends as well', async () => {
    const { child, ended, place } = await underWay('twice');
    child.kill('SIGINT');
    child.kill('SIGTERM');
    const { code, err } = await ended;
    expect(err).toMatch(/interrupted after [\d,]+ designs, which are kept/);
    expect(code).toBe(130);
    expect(readdirSync(join(place, 'parts'))).toEqual(partFiles(place));
  });
});

describe.runIf(whole)('a run that stands still while it ends', () => {
  it('ends as well afterwards', async () => {
    const { child, ended, place } = await underWay('still');
    child.kill('SIGINT');
    // it has heard that, and has not got far
    await pause(20);
    child.kill('SIGSTOP');
    await pause(2500);
    child.kill('SIGCONT');
    const { code, err } = await ended;
    expect(err).toMatch(/interrupted after [\d,]+ designs, which are kept/);
    expect(code).toBe(130);
    expect(readdirSync(join(place, 'parts'))).toEqual(partFiles(place));
  });
});

describe('SIGUSR1', () => {
  it('opens no debugger', async () => {
    const { child, ended } = await underWay('debugged');
    child.kill('SIGUSR1');
    await pause(300);
    child.kill('SIGINT');
    const { code, err } = await ended;
    expect(err).not.toContain('Debugger');
    expect(code).toBe(130);
  });
});
