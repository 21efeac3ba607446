import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PROJECT } from './source-files.ts';

/** The built command line: `npm test` builds first. */
export const CLI = join(PROJECT, 'dist/program/cli.js');

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Starts the built command line, or another build of it, in a folder. */
export function start(
  args: readonly string[],
  cwd: string,
  program = CLI,
): { child: ChildProcess; ended: Promise<Ended> } {
  const child = spawn(process.execPath, [program, ...args], { cwd, stdio: ['ignore', 'pipe', 'pipe'] });
  let out = '';
  let err = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => {
    err += text;
  });
  const ended = new Promise<Ended>((resolve) => {
    child.on('close', (code) => resolve({ code, out, err }));
  });
  return { child, ended };
}

export function cli(args: readonly string[], cwd: string): Promise<Ended> {
  return start(args, cwd).ended;
}

export function scratchFolder(): string {
  return mkdtempSync(join(tmpdir(), 'eddylift-'));
}
