/**
 * The value below which a fraction of a sample lies: straight lines between the order statistics, at (n - 1) fraction
 * (definition 7 of R. J. Hyndman, Y. Fan, Am. Stat. 50 (1996) 361-365). NaN where any of the sample is. Sorts `sample`.
 */
export function quantile(sample: Float64Array, fraction: number): number {
  return quantileOfSorted(sample.sort(), fraction);
}

/** The same of a sample that `sort` of its array has sorted: what is no number stands at its end. */
export function quantileOfSorted(sample: Float64Array, fraction: number): number {
  if (Number.isNaN(sample[sample.length - 1])) return Number.NaN;
  const at = fraction * (sample.length - 1);
  const low = sample[Math.floor(at)]!;
  const high = sample[Math.ceil(at)]!;
  return low === high ? low : low + (at - Math.floor(at)) * (high - low);
}
