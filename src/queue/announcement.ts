import type { Origin } from '../store/run-record.ts';
import type { Signer } from './signature.ts';

/** What a coordinator announces of a study: a worker reads the text itself and works out the rest for itself. */
export interface Announcement {
  /** The study file as run. */
  readonly text: string;
  readonly hash: string;
  readonly origin: Origin;
}

/** More than any study may hold, as JSON. */
export const MOST_BYTES = 2 ** 22;

export function writeAnnouncement(announcement: Announcement, stamp: string, signer: Signer): string {
  return JSON.stringify({
    ...announcement,
    signature: signer.sign('study', stamp, ...partsOf(announcement)),
  });
}

/** Null for anything else; a text where the signature is wrong. */
export function readAnnouncement(
  json: string,
  stamp: string,
  signer: Signer,
): Announcement | { readonly unsigned: string } | null {
  let found: (Partial<Announcement> & { signature?: unknown }) | null;
  try {
    found = JSON.parse(json);
  } catch {
    return null;
  }
  const { text, hash, origin, signature } = found ?? {};
  const { code, catalogue, engine } = origin ?? {};
  if (![text, hash, code, catalogue, engine].every((part) => typeof part === 'string')) return null;
  const parts = partsOf({ text: text!, hash: hash!, origin: origin! });
  const unsigned = signer.check(typeof signature === 'string' ? signature : '', 'study', stamp, ...parts);
  if (unsigned !== null) return { unsigned };
  return {
    text: text!,
    hash: hash!,
    origin: { code: printable(code!), catalogue: printable(catalogue!), engine: printable(engine!) },
  };
}

function partsOf({ text, hash, origin }: Announcement): string[] {
  return [text, hash, origin.code, origin.catalogue, origin.engine];
}

/** For a terminal: no control or direction characters, not endless. */
export function printable(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}]/gu, ' ').slice(0, 200);
}
