import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder, start } from '../support/cli.ts';
import {
  DESIGNS,
  designsKept,
  disturbedStudy,
  longStudy,
  partFiles,
  tableDigests,
} from '../support/disturbed-study.ts';
import { whole } from '../support/nightly.ts';
import { heldUnderWay } from '../support/under-way.ts';

const folder = scratchFolder();
const disk = join(folder, 'disk');
mkdirSync(disk);

function mount(...options: string[]): boolean {
  return spawnSync('mount', ['-t', 'tmpfs', '-o', options.join(','), 'tmpfs', disk]).status === 0;
}

/** Some systems let nobody mount. */
const canMount = mount('size=6m');
afterAll(() => {
  if (canMount) spawnSync('umount', [disk]);
  rmSync(folder, { recursive: true, force: true });
});

let undisturbed: Record<string, string | null>;
beforeAll(async () => {
  if (!whole) return;
  writeFileSync(join(folder, 'study.yaml'), disturbedStudy('Disturbed'));
  const { code } = await cli(
    ['run', 'study.yaml', '--out', 'undisturbed', '--quiet', '--threads', '1'],
    folder,
  );
  expect(code).toBe(0);
  undisturbed = tableDigests(join(folder, 'undisturbed'));
});

describe.runIf(whole)('a disk that fails', () => {
  it.runIf(canMount)(
    'because it is full, keeps what was finished, and the same command continues',
    async () => {
      const result = join(disk, 'result');
      const run = ['run', 'study.yaml', '--out', result, '--quiet', '--threads', '1'];
      const full = await cli(run, folder);
      expect(full.code).toBe(2);
      expect(full.err).toBe(
        `eddylift: cannot write the result to ${result}: the disk is full; what was finished is kept, and the same command continues\n`,
      );
      const kept = designsKept(result);
      expect(kept).toBeGreaterThan(0);
      const before = partFiles(result);

      expect(mount('remount', 'size=100m')).toBe(true);
      const again = await cli(['run', 'study.yaml', '--out', result], folder);
      expect(again.err).toBe('');
      expect(again.code).toBe(0);
      expect(again.out).toContain(`Continuing: ${kept.toLocaleString('en')} designs there already.`);
      expect(partFiles(result)).toEqual(expect.arrayContaining(before));
      expect(tableDigests(result)).toEqual(undisturbed);
    },
  );

  it.runIf(canMount)('because it is read-only, is named in one line', async () => {
    expect(mount('remount', 'ro')).toBe(true);
    const { code, err } = await cli(['run', 'study.yaml', '--out', join(disk, 'other')], folder);
    expect(code).toBe(2);
    expect(err).toBe(`eddylift: cannot write the result to ${join(disk, 'other')}: the disk is read-only\n`);
  });
});

describe.runIf(whole)('a result folder that vanishes', () => {
  it('ends its run with one line, and the same command begins anew', async () => {
    const place = join(folder, 'vanishing');
    const run = ['run', 'study.yaml', '--out', 'vanishing', '--quiet', '--threads', '1'];
    const { child, ended } = await heldUnderWay(run, folder, () => place, DESIGNS);
    // at once: the run must not see it half removed
    renameSync(place, join(folder, 'vanished'));
    child.kill('SIGCONT');
    const { code, err } = await ended;
    expect(code).toBe(2);
    expect(err).toMatch(
      /^eddylift: vanishing: the folder is gone, removed or renamed, and with it [\d,]+ finished designs; the same command computes again what is missing\n$/,
    );
    const again = await cli(run, folder);
    expect(again.code).toBe(0);
    expect(tableDigests(place)).toEqual(undisturbed);
  });
});

describe.runIf(whole)('finished designs that vanish during a run', () => {
  it.each([
    ['the folder of parts', 'its folder parts/ is gone, and with it [\\d,]+ finished designs'],
    ['one part', '1 of \\d+ files? in parts/ are gone, and with them 4,000 of [\\d,]+ finished designs'],
  ])('are told when it happens (%s)', async (what, words) => {
    writeFileSync(join(folder, 'long.yaml'), longStudy('Long'));
    const out = `lost-${what.replaceAll(' ', '-')}`;
    const { ended } = start(['run', 'long.yaml', '--out', out, '--quiet', '--threads', '1'], folder);
    const place = join(folder, out);
    while (partFiles(place).length < 2) await pause(5);
    const victim = what === 'one part' ? partFiles(place)[0]! : '.';
    renameSync(join(place, 'parts', victim), join(folder, `${out}-away`));
    const { code, err } = await ended;
    expect(err).toMatch(
      new RegExp(`^eddylift: ${out}: ${words}; the same command computes again what is missing\\n$`),
    );
    expect(code).toBe(2);
    // long before its end
    expect(designsKept(place)).toBeLessThan(2_500_000);
  });
});

describe.runIf(whole)('two runs on one folder', () => {
  it('are one too many: the second is refused, and the first is not disturbed', async () => {
    writeFileSync(join(folder, 'long.yaml'), longStudy('Long'));
    const { child, ended } = start(
      ['run', 'long.yaml', '--out', 'shared', '--quiet', '--threads', '1'],
      folder,
    );
    const place = join(folder, 'shared');
    while (partFiles(place).length === 0) await pause(5);
    const second = await cli(['run', 'long.yaml', '--out', 'shared'], folder);
    expect(second.code).toBe(2);
    expect(second.err).toMatch(/^eddylift: \S+shared is in use by another run \(process \d+\)[^\n]*\n$/);
    const before = designsKept(place);
    child.kill('SIGTERM');
    expect((await ended).code).toBe(130);
    expect(designsKept(place)).toBeGreaterThanOrEqual(before);
    expect(readdirSync(place).filter((name) => name.endsWith('.lock'))).toEqual([]);
  });
});
