import { cpSync, rmSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { scratchFolder } from './cli.ts';
import { PROJECT } from './source-files.ts';

/** The folder of a copy of the built program, for tests that change its files; gone when they have run. */
export function copiedProgram(): string {
  const scratch = scratchFolder();
  afterAll(() => rmSync(scratch, { recursive: true, force: true }));
  const program = join(scratch, 'dist/program');
  cpSync(join(PROJECT, 'dist/program'), program, { recursive: true });
  cpSync(join(PROJECT, 'package.json'), join(scratch, 'package.json'));
  symlinkSync(join(PROJECT, 'node_modules'), join(scratch, 'node_modules'));
  return program;
}
