/** A number of a document: JSON knows neither NaN nor infinity. */
export function jsonCell(value: number): number | 'INF' | '-INF' | null {
  if (Number.isNaN(value)) return null;
  return Number.isFinite(value) ? value : value > 0 ? 'INF' : '-INF';
}
