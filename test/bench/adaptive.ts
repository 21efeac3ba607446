import { MU0 } from '../../src/kernel/constants.ts';
import { besselMoment, momentTailP, momentTailQ } from '../../src/math/bessel-moment.ts';

/**
 * The same rig by the straightforward way: every integral by adaptive Simpson to a relative tolerance, each force of
 * the equilibrium search an integral of its own. What the kernel's time is compared with.
 */
export interface AdaptiveRig {
  innerRadius: number;
  outerRadius: number;
  height: number;
  turns: number;
  conductivity: number;
  thickness: number;
  omega: number;
  weight: number;
  current: number;
  standoff: number;
}

export interface AdaptiveResult {
  liftoffCurrent: number;
  gap: number;
  inductance: number;
  plateResistance: number;
}

const TOLERANCE = 1e-6;

export function evaluateAdaptively(rig: AdaptiveRig): AdaptiveResult {
  const { innerRadius: r1, outerRadius: r2, height: h, turns, omega, weight, current, standoff } = rig;
  const scale = Math.PI * MU0 * (turns / ((r2 - r1) * h)) ** 2;

  const spectrum = (k: number): number => {
    const s = (moment(k * r2) - moment(k * r1)) / (k * k);
    return scale * s * s;
  };
  const reflected = (gap: number, part: 're' | 'im', power: number): number =>
    integrate((k) => {
      const axial = Math.expm1(-k * h) / k;
      const gamma = reflect(rig, k);
      return spectrum(k) * axial * axial * gamma[part] * (-2 * k) ** power * Math.exp(-2 * k * gap);
    }, 1 / r2);
  const free = integrate((k) => (spectrum(k) * 2 * (k * h + Math.expm1(-k * h))) / (k * k), 1 / r2);

  const slope = (gap: number) => reflected(gap, 're', 1);
  const liftoffCurrent = Math.sqrt((2 * weight) / slope(standoff));
  const target = (2 * weight) / (current * current);
  let gap = standoff;
  for (let i = 0; i < 30; i++) {
    const here = slope(gap);
    const step = (-here * Math.log(here / target)) / reflected(gap, 're', 2);
    gap += step;
    if (Math.abs(step) < 1e-8) break;
  }
  return {
    liftoffCurrent,
    gap,
    inductance: free + reflected(gap, 're', 0),
    plateResistance: -omega * reflected(gap, 'im', 0),
  };
}

function moment(x: number): number {
  if (x < 100) return besselMoment(x);
  const phase = x - 0.75 * Math.PI;
  return (
    1 + Math.sqrt((2 * x) / Math.PI) * (momentTailQ(x) * Math.cos(phase) + momentTailP(x) * Math.sin(phase))
  );
}

/** (k^2 - k1^2)(1 - E) / ((k + k1)^2 - (k - k1)^2 E) in plain complex arithmetic. */
function reflect(rig: AdaptiveRig, k: number): { re: number; im: number } {
  const b = rig.omega * MU0 * rig.conductivity;
  const modulus = Math.hypot(k * k, b);
  const re = Math.sqrt((modulus + k * k) / 2);
  const im = b / (2 * re);
  const decay = Math.exp(-2 * re * rig.thickness);
  const er = decay * Math.cos(2 * im * rig.thickness);
  const ei = -decay * Math.sin(2 * im * rig.thickness);
  const plus = [(k + re) ** 2 - im * im, 2 * (k + re) * im] as const;
  const minus = [(k - re) ** 2 - im * im, -2 * (k - re) * im] as const;
  const dr = plus[0] - (minus[0] * er - minus[1] * ei);
  const di = plus[1] - (minus[0] * ei + minus[1] * er);
  const nr = -b * ei;
  const ni = -b * (1 - er);
  const d = dr * dr + di * di;
  return { re: (nr * dr + ni * di) / d, im: (ni * dr - nr * di) / d };
}

/** Adaptive Simpson over pieces of the given width, until a piece adds nothing. */
function integrate(f: (k: number) => number, width: number): number {
  let total = 0;
  for (let piece = 0; piece < 100000; piece++) {
    const a = piece * width + (piece === 0 ? 1e-9 * width : 0);
    const b = (piece + 1) * width;
    const fa = f(a);
    const fb = f(b);
    const fm = f((a + b) / 2);
    const whole = ((b - a) / 6) * (fa + 4 * fm + fb);
    const part = simpson(
      f,
      a,
      fa,
      b,
      fb,
      fm,
      whole,
      TOLERANCE * Math.max(Math.abs(total), Math.abs(whole)),
      40,
    );
    total += part;
    if (piece > 4 && Math.abs(part) * (piece + 1) < TOLERANCE * Math.abs(total)) break;
  }
  return total;
}

function simpson(
  f: (k: number) => number,
  a: number,
  fa: number,
  b: number,
  fb: number,
  fm: number,
  whole: number,
  tolerance: number,
  depth: number,
): number {
  const m = (a + b) / 2;
  const fl = f((a + m) / 2);
  const fr = f((m + b) / 2);
  const left = ((m - a) / 6) * (fa + 4 * fl + fm);
  const right = ((b - m) / 6) * (fm + 4 * fr + fb);
  const error = left + right - whole;
  if (depth === 0 || Math.abs(error) <= 15 * tolerance) return left + right + error / 15;
  return (
    simpson(f, a, fa, m, fm, fl, left, tolerance / 2, depth - 1) +
    simpson(f, m, fm, b, fb, fr, right, tolerance / 2, depth - 1)
  );
}
