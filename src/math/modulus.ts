/**
 * sqrt(re^2 + im^2). The engine's own hypot guards against overflow, for which it calls out and makes an array; here
 * squares must not overflow: both below 1e154. Accuracy: the last digit.
 */
export function modulus(re: number, im: number): number {
  return Math.sqrt(re * re + im * im);
}
