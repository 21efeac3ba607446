import { createHash } from 'node:crypto';
import type { FoundRecord } from './run-record.ts';

/** Characters of a line that are shown around the place where it differs. */
const SHOWN = 60;

export type Recorded = Pick<FoundRecord, 'hash' | 'text'>;

/**
 * What is wrong with the study beside a run record, in words; null where it is the study that was run, to the bit. A
 * result's rows are read with its study: with any other they would be shown under wrong names.
 */
export function studyChanges(source: Uint8Array, { hash, text }: Recorded): string | null {
  const found = sha256(source);
  if (found === hash) return null;
  const recorded = text === null ? null : new TextEncoder().encode(text);
  if (recorded !== null && sha256(recorded) === found) {
    return 'run.json is damaged: the hash that it names is not that of the study';
  }
  const changed = 'study.yaml is not the study that was run';
  if (text !== null && sha256(recorded!) === hash) {
    return `${changed}: ${differingLine(new TextDecoder().decode(source), text)}`;
  }
  return `${changed}: its SHA-256 begins with ${found.slice(0, 8)}, that of the run's study with ${hash.slice(0, 8)}`;
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** The first line that differs, as it is and as it was. */
function differingLine(now: string, then: string): string {
  const is = now.split('\n');
  const was = then.split('\n');
  const line = is.findIndex((text, i) => text !== was[i]);
  // a study that was cut off at the end of a line differs in the first line that it lacks
  const at = line < 0 ? is.length : line;
  const from = commonStart(is[at] ?? '', was[at] ?? '');
  return `line ${at + 1} is ${quoted(is[at], from)} and was ${quoted(was[at], from)}`;
}

function commonStart(a: string, b: string): number {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return at;
}

/** A piece of a line around a place; it goes to a terminal, so without control and direction characters. */
function quoted(line: string | undefined, around: number): string {
  if (line === undefined) return 'not there';
  const start = line.length <= SHOWN ? 0 : Math.max(0, Math.min(around - SHOWN / 2, line.length - SHOWN));
  const piece = line.slice(start, start + SHOWN).replace(/[\p{Cc}\p{Cf}\p{Cs}]/gu, '\ufffd');
  const before = start > 0 ? '...' : '';
  const after = start + SHOWN < line.length ? '...' : '';
  return `\`${before}${piece.trim()}${after}\``;
}
