import { closest, distance } from 'fastest-levenshtein';

/** The known name that a misspelt one is likely to mean; null when none is near. */
export function nearest(name: string, known: readonly string[]): string | null {
  if (known.length === 0) return null;
  const best = closest(name, known);
  const allowed = Math.max(2, Math.floor(Math.max(name.length, best.length) / 3));
  return distance(name.toLowerCase(), best.toLowerCase()) <= allowed ? best : null;
}

export function didYouMean(name: string, known: readonly string[]): string {
  const best = nearest(name, known);
  return best === null ? '' : `; did you mean \`${best}\`?`;
}
