import type { PlateReflection } from './plate-reflection.ts';
import type { WindingSpectrum } from './winding-spectrum.ts';

/**
 * A winding over a plate as a function of the gap: dL(gap) = sum q Gamma e^{-2 k gap} and its gap derivatives.
 * dL is the inductance that the plate adds (its real part is negative over a good conductor); -w Im dL is the
 * plate's resistance seen by the coil; I^2/2 times the real part of the first derivative is the average lift for
 * an rms current I, and I^2/2 times its modulus the amplitude of the force at twice the supply frequency
 * (both from the coil's energy i^2 L / 2: see mechanics).
 */
export class PlateCoupling {
  private count = 0;
  private k = new Float64Array(256);
  private re = new Float64Array(256);
  private im = new Float64Array(256);

  /** Values at the gap last asked for: H, H/m, H/m2. */
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  curvatureIm = 0;

  fill(spectrum: WindingSpectrum, reflection: PlateReflection): void {
    const { count, k, q } = spectrum;
    if (this.re.length < count) {
      this.re = new Float64Array(2 * count);
      this.im = new Float64Array(2 * count);
    }
    const { re, im } = reflection;
    for (let i = 0; i < count; i++) {
      const qi = q[i]!;
      this.re[i] = qi * re[i]!;
      this.im[i] = qi * im[i]!;
    }
    this.k = k;
    this.count = count;
  }

  /** Real parts alone: what the lift needs. */
  evaluateLift(gap: number): void {
    const { count, k, re } = this;
    let inductance = 0;
    let slope = 0;
    let curvature = 0;
    for (let i = 0; i < count; i++) {
      const two = 2 * k[i]!;
      const x = two * gap;
      if (x > NOTHING) break;
      const r = re[i]! * Math.exp(-x);
      inductance += r;
      slope -= two * r;
      curvature += two * two * r;
    }
    this.inductanceRe = inductance;
    this.slopeRe = slope;
    this.curvatureRe = curvature;
  }

  evaluate(gap: number): void {
    this.evaluateLift(gap);
    const { count, k, im } = this;
    let inductance = 0;
    let slope = 0;
    let curvature = 0;
    for (let i = 0; i < count; i++) {
      const two = 2 * k[i]!;
      const x = two * gap;
      if (x > NOTHING) break;
      const r = im[i]! * Math.exp(-x);
      inductance += r;
      slope -= two * r;
      curvature += two * two * r;
    }
    this.inductanceIm = inductance;
    this.slopeIm = slope;
    this.curvatureIm = curvature;
  }
}

/** Nodes stand in rising k: past e^{-60} the rest adds nothing that a double would notice. */
const NOTHING = 60;
