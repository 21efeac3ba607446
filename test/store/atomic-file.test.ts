import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openAtomicFile } from '../../src/store/atomic-file.ts';
import { openDirectWriter } from '../../src/store/direct-writer.ts';
import { RESULT_FILES } from '../../src/store/result-files.ts';
import { temporaryFolder } from './temporary-folder.ts';

/** Bytes of which no two stretches of a block look alike. */
function bytesOf(length: number, from: number): Uint8Array {
  const bytes = new Uint8Array(length);
  for (let i = 0; i < length; i++) bytes[i] = Math.imul(from + i, 0x9e3779b1) >>> 24;
  return bytes;
}

const MEBI = 2 ** 20;
/** Pieces that end before, at and after a block of 2 MiB, one of several blocks, and a rest. */
const PIECES = [1, 2 * MEBI - 1, 2 * MEBI, 0, 7 * MEBI + 13, 2 * MEBI - 13, 5];

function pieces(): Uint8Array[] {
  let at = 0;
  return PIECES.map((length) => {
    at += length;
    return bytesOf(length, at - length);
  });
}

async function emptyFile(): Promise<{ path: string; file: FileHandle }> {
  const path = join(temporaryFolder(), 'file');
  const file = await open(path, 'wx');
  onTestFinished(() => file.close());
  return { path, file };
}

describe('a large file', () => {
  it('holds what was written, in order, although the writer of a piece changes it afterwards', async () => {
    const folder = temporaryFolder();
    const file = await openAtomicFile(folder, RESULT_FILES.csv, true);
    await file.write('id,ä\n');
    for (const piece of pieces()) {
      await file.write(piece);
      piece.fill(0);
    }
    expect(existsSync(join(folder, RESULT_FILES.csv))).toBe(false);
    await file.commit();
    const expected = Buffer.concat([Buffer.from('id,ä\n'), ...pieces()]);
    expect(readFileSync(join(folder, RESULT_FILES.csv)).equals(expected)).toBe(true);
    expect(readdirSync(folder)).toEqual([RESULT_FILES.csv]);
  });

  it('leaves nothing behind when it is abandoned while blocks are written', async () => {
    const folder = temporaryFolder();
    const file = await openAtomicFile(folder, RESULT_FILES.csv, true);
    for (const piece of pieces()) await file.write(piece);
    await file.abandon();
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('writing past the page cache', () => {
  it('goes on through the file where the file system refuses later', async ({ skip }) => {
    const { path, file } = await emptyFile();
    const writer = await openDirectWriter(path, file, async (...to) => {
      const handle = await open(...to);
      let writes = 0;
      const write = handle.write.bind(handle) as (...args: unknown[]) => Promise<unknown>;
      Object.defineProperty(handle, 'write', {
        value: (...args: unknown[]) =>
          ++writes > 2
            ? Promise.reject(Object.assign(new Error('refused'), { code: 'EINVAL' }))
            : write(...args),
      });
      return handle;
    });
    if (writer === null) return skip('no direct writing here');
    for (const piece of pieces()) await writer.write(piece);
    await writer.end();
    await writer.close();
    expect(readFileSync(path).equals(Buffer.concat(pieces()))).toBe(true);
  });

  it('goes on through the file where two blocks are refused at a time', async ({ skip }) => {
    const { path, file } = await emptyFile();
    let refused: FileHandle | null = null;
    const writer = await openDirectWriter(path, file, async (...to) => {
      const handle = await open(...to);
      refused = handle;
      const refusals: (() => void)[] = [];
      const refuse = () =>
        new Promise((_, reject) => {
          refusals.push(() => reject(Object.assign(new Error('refused'), { code: 'EINVAL' })));
          if (refusals.length === 2) for (const each of refusals) each();
        });
      Object.defineProperty(handle, 'write', { value: refuse });
      return handle;
    });
    if (writer === null) return skip('no direct writing here');
    for (const piece of pieces()) await writer.write(piece);
    await writer.end();
    // it is closed by then
    expect(refused!.fd).toBe(-1);
    await writer.close();
    expect(readFileSync(path).equals(Buffer.concat(pieces()))).toBe(true);
  });

  it('tells of any other error when the next blocks are written', async ({ skip }) => {
    const { path, file } = await emptyFile();
    const writer = await openDirectWriter(path, file, async (...to) => {
      const handle = await open(...to);
      const full = () => Promise.reject(Object.assign(new Error('full'), { code: 'ENOSPC' }));
      Object.defineProperty(handle, 'write', { value: full });
      return handle;
    });
    if (writer === null) return skip('no direct writing here');
    await writer.write(bytesOf(4 * MEBI, 0));
    // until then a rejection that nobody heard would have ended the process
    await new Promise((resolve) => setImmediate(resolve));
    await expect(writer.write(bytesOf(4 * MEBI, 0))).rejects.toThrow('full');
    await writer.close();
  });

  it('is not there where the file system refuses from the start', async () => {
    const { path, file } = await emptyFile();
    const refuse = () => Promise.reject(Object.assign(new Error('refused'), { code: 'EINVAL' }));
    expect(await openDirectWriter(path, file, refuse)).toBeNull();
  });
});
