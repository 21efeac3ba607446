/**
 * Speed after a fall from rest through a height against a drag in proportion to speed, m/s:
 *   v = v0 (1 - e^{-x}), h = v0 (m / c) (x - 1 + e^{-x}),  v0 = m g / c,  x = c t / m,
 * solved for x by Newton's method; sqrt(2 g h) without drag. An open circuit: no current, no force.
 * @param mass kg @param drag N s/m @param height m @param gravity m/s2
 */
export function fallSpeed(mass: number, drag: number, height: number, gravity: number): number {
  const free = Math.sqrt(2 * gravity * Math.max(0, height));
  const rate = drag / mass;
  // x^2 / 2 - x^3 / 6: below this the drag takes less than a double shows
  if (!(rate * free > 1e-8 * gravity)) return free;
  const wanted = (height * rate * rate) / gravity;
  let x = wanted < 1 ? Math.sqrt(2 * wanted) : wanted + 1;
  for (let i = 0; i < 50; i++) {
    const rise = fallen(x);
    const next = x - (rise - wanted) / -Math.expm1(-x);
    if (Math.abs(next - x) <= 1e-14 * x) break;
    x = next;
  }
  return (gravity / rate) * -Math.expm1(-x);
}

/** x - 1 + e^{-x}. */
function fallen(x: number): number {
  if (x > 0.1) return x + Math.expm1(-x);
  return ((x * x) / 2) * (1 - (x / 3) * (1 - (x / 4) * (1 - (x / 5) * (1 - (x / 6) * (1 - x / 7)))));
}
