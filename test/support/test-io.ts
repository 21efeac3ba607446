import { join } from 'node:path';
import { Writable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import type { Io, Output } from '../../src/session/io.ts';
import { PROJECT } from './source-files.ts';

export interface TestIo extends Io {
  /** What was written so far. */
  out(): string;
  err(): string;
}

/** A world for a command: no terminal, a clock that moves 10 ms a look, output to read back. */
export function testIo(options: { cwd?: string; columns?: number; signal?: AbortSignal } = {}): TestIo {
  const out = collector(options.columns);
  const err = collector(options.columns);
  let now = Date.UTC(2024, 0, 1);
  return {
    stdout: out.stream,
    stderr: err.stream,
    cwd: options.cwd ?? process.cwd(),
    now: () => {
      now += 10;
      return now;
    },
    signal: options.signal ?? new AbortController().signal,
    worker: pathToFileURL(join(PROJECT, 'dist/workers/evaluate.js')),
    out: out.text,
    err: err.text,
  };
}

function collector(columns: number | undefined): { stream: Output; text: () => string } {
  let text = '';
  const writable = new Writable({
    decodeStrings: false,
    write(chunk: string, _encoding, done) {
      text += chunk;
      done();
    },
  });
  const stream = columns === undefined ? writable : Object.assign(writable, { columns });
  return { stream, text: () => text };
}
