import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FolderError } from '../../src/store/folder-error.ts';
import { writeReport } from '../../src/store/write-report.ts';
import { temporaryFolder } from './temporary-folder.ts';

const report = {
  html: '<!DOCTYPE html>\n',
  figures: [
    { name: 'front.svg', svg: '<svg>1</svg>' },
    { name: 'rig-3.svg', svg: '<svg>2</svg>' },
  ],
} as const;

describe('writeReport', () => {
  it('writes the page and its pictures, over earlier ones, and leaves nothing else', async () => {
    const folder = temporaryFolder();
    await writeReport(folder, { ...report, html: 'earlier' });
    await writeReport(folder, report);
    expect(readdirSync(folder).sort()).toEqual(['figures', 'report.html']);
    expect(readdirSync(join(folder, 'figures')).sort()).toEqual(['front.svg', 'rig-3.svg']);
    expect(readFileSync(join(folder, 'report.html'), 'utf8')).toBe(report.html);
    expect(readFileSync(join(folder, 'figures/rig-3.svg'), 'utf8')).toBe('<svg>2</svg>\n');
  });

  it('says what is in the way of the folder of pictures', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'figures'), '');
    await expect(writeReport(folder, report)).rejects.toThrow(FolderError);
    expect(readdirSync(folder)).toEqual(['figures']);
  });
});
