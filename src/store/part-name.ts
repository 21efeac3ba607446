import { digest } from './part-checksum.ts';

/** What a part holds, and the checksum of all that. */
export interface PartName {
  /** Number of its first batch, from 0 in the order of the plan, and how many follow one another in it. */
  readonly batch: number;
  readonly batches: number;
  /** Row id of its first design. */
  readonly first: number;
  readonly count: number;
  /** Of its bytes and of the numbers above: see `placedChecksum`. */
  readonly checksum: string;
}

/**
 * The checksum in a part's name: the digest of where its rows stand and of the checksum of its bytes. The bytes do not hold
 * where their rows stand, and with their checksum alone the same part would fit under the name of another.
 */
export function placedChecksum(
  { batch, batches, first, count }: Omit<PartName, 'checksum'>,
  ofBytes: string,
): string {
  return digest([batch, batches, first, count, ofBytes].join('-'));
}

/** Numbers in file names are padded, so that a listing stands in order. */
const DIGITS = 9;

/**
 * A part's file carries its own checksum in its name: the name and what it promises appear in one rename, and the
 * file stays a plain Arrow file for every reader. `000000012-4-000012000-4000-<checksum>.arrow` holds batches 12 to 15,
 * which are the 4000 designs from 12000 on.
 */
export function formatPartName({ batch, batches, first, count, checksum }: PartName): `${string}.arrow` {
  const padded = (n: number) => String(n).padStart(DIGITS, '0');
  return `${padded(batch)}-${batches}-${padded(first)}-${count}-${checksum}.arrow`;
}

/** Null for the name of anything but a part. */
export function parsePartName(name: string): PartName | null {
  const match = /^(\d{9,15})-([1-9]\d{0,8})-(\d{9,15})-([1-9]\d{0,8})-([0-9a-f]{32})\.arrow$/.exec(name);
  if (!match) return null;
  const [batch, batches, first, count] = match.slice(1, 5).map(Number) as [number, number, number, number];
  return { batch, batches, first, count, checksum: match[5]! };
}
