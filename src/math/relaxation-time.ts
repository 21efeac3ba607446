import { decay } from './decay.ts';
import { gaussLegendre } from './gauss-legendre.ts';

/**
 * Time of a quantity y with dy/dt = rate(y) to go from `from` to `to`: int dy / rate(y).
 *
 * A rest point r (rate(r) = 0) just beyond `to` makes the integrand all but singular, so the variable is
 * s = -ln|r - y|, in which a linear rate gives a constant: exact there whatever the distance.
 *
 * @param rate of the sign of to - from all along the way; its unit is the unit of y per s
 * @param rest the rest point that y tends to, beyond `to`, or any value beyond it where there is none
 * @returns seconds; Infinity when `to` is the rest point or beyond it, 0 when y need not move
 *
 * Accuracy: 4e-5 relative for smooth rates (1e-4 where there is no rest point), 1e-15 for linear ones.
 */
export function relaxationTime(rate: (y: number) => number, from: number, to: number, rest: number): number {
  if (from === to) return 0;
  const start = rest - from;
  const stop = rest - to;
  if (!(stop / start > 0)) return Number.POSITIVE_INFINITY;
  const range = Math.log(start / stop);
  const panels = Math.ceil(Math.abs(range) / PANEL);
  const step = range / panels;
  let sum = 0;
  for (let p = 0; p < panels; p++) {
    for (let i = 0; i < COUNT; i++) {
      const along = step * (p + RULE.nodes[i]!);
      const left = start * (along >= 0 ? decay(along) : Math.exp(-along));
      sum += (RULE.weights[i]! * left) / rate(rest - left);
    }
  }
  return sum * step;
}

const COUNT = 4;
const RULE = gaussLegendre(COUNT);
/** Panel width in s: over it |r - y| falls to a fiftieth. */
const PANEL = 4;
