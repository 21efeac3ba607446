/** The middle of repeated measurements, and how far they lie apart. */
export interface Spread {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

export function spreadOf(samples: readonly number[]): Spread {
  const sorted = [...samples].sort((a, b) => a - b);
  return { median: sorted[sorted.length >> 1]!, least: sorted[0]!, most: sorted.at(-1)! };
}
