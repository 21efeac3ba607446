/**
 * The value that a standard normal variate stays below with probability `p`: M. J. Wichura, Algorithm AS 241, Appl.
 * Stat. 37 (1988) 477-484, PPND7 (coefficients from memory, checked in the test). For p from 2e-11 to 1 - 2e-11 within
 * 1e-6 relative.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    const over = ((59.10937472 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179;
    const under = ((67.1875636 * r + 78.757757664) * r + 17.895169469) * r + 1;
    return (q * over) / under;
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p)) - 1.6;
  const over = ((0.17023821103 * r + 1.3067284816) * r + 2.756815399) * r + 1.4234372777;
  const under = (0.12021132975 * r + 0.7370016425) * r + 1;
  return (Math.sign(q) * over) / under;
}
