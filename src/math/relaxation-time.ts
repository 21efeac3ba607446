import { decay } from './decay.ts';
import { gaussLegendre } from './gauss-legendre.ts';

/**
 * Time of a quantity y with dy/dt = rate(y) to go from `from` to `to`: int dy / rate(y).
 *
 * A rest point r (rate(r) = 0) just beyond `to` makes the integrand all but singular, so the variable is
 * s = -ln|r - y|, in which a linear rate gives a constant: exact there whatever the distance. Panels of equal width in s
 * have Gauss points, the fewer the narrower they are.
 *
 * @param rate of the sign of to - from all along the way; its unit is the unit of y per s
 * @param rest the rest point that y tends to, beyond `to`, or any value beyond it where there is none
 * @param isPower the rate is about a power of |r - y| not far from 1: two points then do for most of a decade
 * @returns seconds; Infinity when `to` is the rest point or beyond it, 0 when y need not move
 *
 * Accuracy: 4e-5 relative for smooth rates (1e-4 where there is no rest point), 1e-15 for linear ones. For the power 1 + a
 * with `isPower`: (2.5 a)^4 / 4320, 4e-5 at 5/4.
 */
export function relaxationTime(
  rate: (y: number) => number,
  from: number,
  to: number,
  rest: number,
  isPower = false,
): number {
  if (from === to) return 0;
  const start = rest - from;
  const stop = rest - to;
  if (!(stop / start > 0)) return Number.POSITIVE_INFINITY;
  const range = Math.log(start / stop);
  const panels = Math.ceil(Math.abs(range) / (isPower ? NARROW : WIDE));
  const step = range / panels;
  const width = Math.abs(step);
  const rule = isPower || width <= NARROWEST ? TWO : width <= NARROWER ? THREE : FOUR;
  const { nodes, weights } = rule;
  let sum = 0;
  for (let p = 0; p < panels; p++) {
    for (let i = 0; i < nodes.length; i++) {
      const along = step * (p + nodes[i]!);
      const left = start * (along >= 0 ? decay(along) : Math.exp(-along));
      sum += (weights[i]! * left) / rate(rest - left);
    }
  }
  return sum * step;
}

const TWO = gaussLegendre(2);
const THREE = gaussLegendre(3);
const FOUR = gaussLegendre(4);
/** Widths of panels in s: over the widest |r - y| falls to a fiftieth, over the others to a twelfth, to 0.6 and to 0.9. */
const WIDE = 4;
const NARROW = 2.5;
const NARROWER = 0.5;
const NARROWEST = 0.1;
