import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writePngs } from '../../src/store/write-pngs.ts';
import { temporaryFolder } from './temporary-folder.ts';

const render = async (svg: string) => Buffer.from(`PNG of ${svg}`);

describe('writePngs', () => {
  it('writes one beside each figure of a result, and leaves what others put there', async () => {
    const folder = temporaryFolder();
    const figures = join(folder, 'figures');
    mkdirSync(figures);
    for (const name of ['front.svg', 'map-2.svg', 'rig-496.svg', 'mine.svg', 'notes.txt'])
      writeFileSync(join(figures, name), name);
    await writePngs(folder, render);
    expect(readdirSync(figures).filter((name) => name.endsWith('.png'))).toEqual([
      'front.png',
      'map-2.png',
      'rig-496.png',
    ]);
    expect(readFileSync(join(figures, 'map-2.png'), 'utf8')).toBe('PNG of map-2.svg');
  });

  it('refuses a folder of figures that is a link, or is not there', async () => {
    const [folder, elsewhere] = [temporaryFolder(), temporaryFolder()];
    await expect(writePngs(folder, render)).rejects.toThrow(/not there/);
    symlinkSync(elsewhere, join(folder, 'figures'));
    await expect(writePngs(folder, render)).rejects.toThrow(/is a link/);
  });
});
