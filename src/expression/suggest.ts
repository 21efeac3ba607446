import { closest, distance } from 'fastest-levenshtein';
import { RENAMED } from '../model/renamed.ts';

/** The known name that a misspelt one is likely to mean; null when none is near. */
export function nearest(name: string, known: readonly string[]): string | null {
  if (known.length === 0) return null;
  const best = closest(name, known);
  const allowed = Math.max(2, Math.floor(Math.max(name.length, best.length) / 3));
  return distance(name.toLowerCase(), best.toLowerCase()) <= allowed ? best : null;
}

/** The end of a message that refuses a name: what it is called now, or what it probably means. Empty where no known name is near. */
export function didYouMean(name: string, known: readonly string[]): string {
  const now = RENAMED.get(name);
  if (now !== undefined && known.includes(now)) return `; \`${name}\` is now called \`${now}\``;
  const best = nearest(name, known);
  return best === null ? '' : `; did you mean \`${best}\`?`;
}
