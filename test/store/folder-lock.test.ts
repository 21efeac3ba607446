import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lockFolder } from '../../src/store/folder-lock.ts';
import { temporaryFolder } from './temporary-folder.ts';

const claims = (folder: string) => readdirSync(folder).filter((name) => name.endsWith('.lock'));

/** The claim that this process would make, with another process in it. */
async function claimOf(folder: string, change: (own: string[]) => string[]): Promise<string> {
  const unlock = await lockFolder(folder);
  const [own] = claims(folder);
  await unlock();
  const [, pid, start, boot] = /^\.run-(\d+)-(\w+)-(\w+)\.lock$/.exec(own!)!;
  return `.run-${change([pid!, start!, boot!]).join('-')}.lock`;
}

describe('lockFolder', () => {
  it('leaves nothing behind once it is given free', async () => {
    const folder = temporaryFolder();
    const unlock = await lockFolder(folder);
    expect(claims(folder)).toHaveLength(1);
    await unlock();
    expect(readdirSync(folder)).toEqual([]);
  });

  it.runIf(existsSync('/proc/1/stat'))(
    'refuses a folder that a running process claims, and leaves that claim',
    async () => {
      const folder = temporaryFolder();
      const parent = process.ppid;
      // where a start time is not known, the process id decides
      const other = await claimOf(folder, ([, , boot]) => [String(parent), 'x', boot!]);
      writeFileSync(join(folder, other), '');
      await expect(lockFolder(folder)).rejects.toThrow(
        `${folder} is in use by another run (process ${parent}); wait for it or choose another folder`,
      );
      expect(claims(folder)).toEqual([other]);
    },
  );

  it.runIf(existsSync('/proc/1/stat')).each<[string, (own: string[]) => string[]]>([
    ['a process that is gone', ([, start, boot]) => ['4194305', start!, boot!]],
    ['an earlier process of the same id', ([, start, boot]) => [String(process.ppid), `${start}9`, boot!]],
    ['a process before the last boot', ([pid, start]) => [pid!, start!, 'f'.repeat(32)]],
  ])('takes over from %s', async (_, change) => {
    const folder = temporaryFolder();
    const stale = await claimOf(folder, change);
    writeFileSync(join(folder, stale), '');
    const unlock = await lockFolder(folder);
    expect(claims(folder)).toHaveLength(1);
    expect(claims(folder)).not.toContain(stale);
    await unlock();
  });
});
