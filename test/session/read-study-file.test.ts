import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { UsageError } from '../../src/errors.ts';
import { readStudyFile } from '../../src/session/read-study-file.ts';

const folder = mkdtempSync(join(tmpdir(), 'eddylift-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function refusal(path: string): Promise<string> {
  const error: unknown = await readStudyFile(path, { cwd: folder }).catch((caught) => caught);
  expect(error).toBeInstanceOf(UsageError);
  return (error as UsageError).message;
}

describe('readStudyFile', () => {
  it('reads a file relative to where the command was called', async () => {
    writeFileSync(join(folder, 'a.yaml'), 'study: Ω');
    expect(new TextDecoder().decode(await readStudyFile('a.yaml', { cwd: folder }))).toBe('study: Ω');
  });

  it('says in one line that a file is missing, a folder, or below a file', async () => {
    expect(await refusal('missing.yaml')).toBe('cannot read missing.yaml: there is no such file');
    expect(await refusal('.')).toBe('cannot read .: that is a folder; name the study file in it');
    writeFileSync(join(folder, 'file'), '');
    expect(await refusal('file/a.yaml')).toBe(
      'cannot read file/a.yaml: part of the path is a file, not a folder',
    );
    expect(await refusal('a'.repeat(5000))).toContain('the path is too long');
  });

  it.skipIf(process.platform === 'win32')('refuses a pipe and a device, which may have no end', async () => {
    execFileSync('mkfifo', [join(folder, 'pipe.yaml')]);
    for (const path of ['pipe.yaml', '/dev/zero']) {
      expect(await refusal(path)).toBe(
        `cannot read ${path}: it is a pipe or a device; save the study as a file, or write - and pipe it to stdin`,
      );
    }
  });
});
