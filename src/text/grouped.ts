/**
 * A number with commas between its thousands, `1,234,567`, as `toLocaleString('en')` writes it. That loads the tables of a language
 * at its first call, which takes longer than reading a study.
 */
export function grouped(n: number): string {
  // fractions are rounded there, and what String writes with an exponent is written out
  if (!Number.isInteger(n) || Math.abs(n) >= 1e21) return n.toLocaleString('en');
  return String(n).replace(/\B(?=(?:\d{3})+$)/g, ',');
}
