import type { Origin } from '../store/run-record.ts';

/** What a coordinator says of a study: a worker reads the text itself and works out the rest for itself. */
export interface Announcement {
  /** The study file as run. */
  readonly text: string;
  readonly hash: string;
  readonly origin: Origin;
}

/** More than any study may hold, as JSON. */
export const MOST_BYTES = 2 ** 22;

/** Null for anything else. */
export function readAnnouncement(json: string): Announcement | null {
  let found: Partial<Announcement> | null;
  try {
    found = JSON.parse(json);
  } catch {
    return null;
  }
  const { text, hash, origin } = found ?? {};
  const { code, catalogue, engine } = origin ?? {};
  if (![text, hash, code, catalogue, engine].every((part) => typeof part === 'string')) return null;
  return {
    text: text!,
    hash: hash!,
    origin: { code: printable(code!), catalogue: printable(catalogue!), engine: printable(engine!) },
  };
}

/** For a terminal: no control or direction characters, not endless. */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}]/gu, ' ').slice(0, 200);
}
