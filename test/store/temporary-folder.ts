import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** A folder of the test's own, removed after it. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
