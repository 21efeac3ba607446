/**
 * Combination `index` of as many digits as there are `sizes`, digit d running from 0 to sizes[d] - 1, the last one
 * fastest: a number in mixed radix. Written to `digits`.
 */
export function setDigits(sizes: readonly number[], index: number, digits: Uint32Array): void {
  let rest = index;
  for (let d = sizes.length - 1; d >= 0; d--) {
    const size = sizes[d]!;
    digits[d] = rest % size;
    rest = Math.floor(rest / size);
  }
}
