/** A winding over an infinitely wide, non-magnetic slab in air; SI. */
export interface WidePlateCase {
  innerRadius: number;
  outerRadius: number;
  height: number;
  turns: number;
  gap: number;
  thickness: number;
  resistivity: number;
  angularFrequency: number;
}

/**
 * Dodd and Deeds's integral (J. Appl. Phys. 39 (1968) 2829) by brute force, sharing nothing with the code under
 * test: J1 by the trapezoidal rule on Bessel's integral, S(k) by the midpoint rule corrected to fourth order, the
 * slab's reflection as it stands in the paper, k by Simpson's rule. [Re, Im] of dL and of d dL/d gap; about 1e-5.
 */
export function widePlateReference(rig: WidePlateCase): {
  inductance: [number, number];
  slope: [number, number];
} {
  const { innerRadius: r1, outerRadius: r2, height: h, turns, gap, thickness, resistivity } = rig;
  const density = turns / ((r2 - r1) * h);
  const scale = Math.PI * MU0 * density * density;
  const b = (rig.angularFrequency * MU0) / resistivity;
  const end = Math.min(14 / gap, 160 / r2);
  const steps = 1600;
  const total = { inductance: [0, 0] as [number, number], slope: [0, 0] as [number, number] };
  for (let i = 1; i <= steps; i++) {
    // k = end u^2 crowds the steps where the integrand is large
    const u = i / steps;
    const k = end * u * u;
    const weight = ((i === steps ? 1 : i % 2 === 1 ? 4 : 2) / (3 * steps)) * 2 * u * end;
    const axial = (1 - Math.exp(-k * h)) / k;
    const part = weight * scale * (radialMoment(k, r1, r2) * axial) ** 2 * Math.exp(-2 * k * gap);
    const [gammaRe, gammaIm] = slabReflection(k, b, thickness);
    total.inductance[0] += part * gammaRe;
    total.inductance[1] += part * gammaIm;
    total.slope[0] -= 2 * k * part * gammaRe;
    total.slope[1] -= 2 * k * part * gammaIm;
  }
  return total;
}

const MU0 = 4e-7 * Math.PI;

/** int_{r1}^{r2} r J1(kr) dr by Simpson's rule. */
function radialMoment(k: number, r1: number, r2: number): number {
  const steps = 2 * Math.ceil(20 + 3 * k * (r2 - r1));
  const step = (r2 - r1) / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const r = r1 + i * step;
    sum += (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * r * bessel1(k * r);
  }
  return (sum * step) / 3;
}

/** J1(x) = (1/pi) int_0^pi cos(t - x sin t) dt; the trapezoidal rule converges faster than any power. */
function bessel1(x: number): number {
  const steps = Math.ceil(x / 2 + 16);
  let sum = 0;
  // the integrand at 0 and pi is 1 and -1: the end terms cancel
  for (let i = 1; i < steps; i++) {
    const t = (Math.PI * i) / steps;
    sum += Math.cos(t - x * Math.sin(t));
  }
  return sum / steps;
}

/** (k^2 - k1^2)(1 - E) / ((k + k1)^2 - (k - k1)^2 E), k1^2 = k^2 + jb, E = e^{-2 k1 t}. */
function slabReflection(k: number, b: number, thickness: number): [number, number] {
  const modulus = Math.hypot(k * k, b);
  const re = Math.sqrt((modulus + k * k) / 2);
  const im = b / (2 * re);
  const fall = Math.exp(-2 * re * thickness);
  const eRe = fall * Math.cos(2 * im * thickness);
  const eIm = -fall * Math.sin(2 * im * thickness);
  // numerator -jb (1 - E)
  const nRe = -b * eIm;
  const nIm = -b * (1 - eRe);
  const sum = { re: (k + re) ** 2 - im * im, im: 2 * (k + re) * im };
  const difference = { re: (k - re) ** 2 - im * im, im: -2 * (k - re) * im };
  const dRe = sum.re - (difference.re * eRe - difference.im * eIm);
  const dIm = sum.im - (difference.re * eIm + difference.im * eRe);
  const square = dRe * dRe + dIm * dIm;
  return [(nRe * dRe + nIm * dIm) / square, (nIm * dRe - nRe * dIm) / square];
}
