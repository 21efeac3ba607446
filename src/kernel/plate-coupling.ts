import type { GapCoupling } from './gap-coupling.ts';
import { GapDecay } from './gap-decay.ts';
import type { PlateReflection } from './plate-reflection.ts';
import type { NodeSet } from './spectrum-nodes.ts';
import type { WindingSpectrum } from './winding-spectrum.ts';

/**
 * A winding over a plate as a function of the gap: dL(gap) = sum q Gamma e^{-2 k gap} and its gap derivatives.
 * dL is the inductance that the plate adds (its real part is negative over a good conductor); -w Im dL is the
 * plate's resistance seen by the coil; forces follow from the first derivative (see lift).
 */
export class PlateCoupling implements GapCoupling {
  private nodes: NodeSet | null = null;
  private k = new Float64Array(0);
  /** q Re Gamma times (2k)^0..3, and q Im Gamma times (2k)^0..1, one after the other. */
  private re0 = new Float64Array(256);
  private re1 = new Float64Array(256);
  private re2 = new Float64Array(256);
  private re3 = new Float64Array(256);
  private im0 = new Float64Array(256);
  private im1 = new Float64Array(256);
  private readonly decay = new GapDecay();

  /** Values at the gap last asked for: H, H/m, H/m2, H/m3. */
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  jerkRe = 0;

  fill(spectrum: WindingSpectrum, reflection: PlateReflection, nodes: NodeSet): void {
    const { count, k, q } = spectrum;
    if (this.re0.length < count) {
      for (const name of ['re0', 're1', 're2', 're3', 'im0', 'im1'] as const) {
        this[name] = new Float64Array(2 * count);
      }
    }
    const { re, im } = reflection;
    const { re0, re1, re2, re3, im0, im1 } = this;
    for (let i = 0; i < count; i++) {
      const qi = q[i]!;
      const two = 2 * k[i]!;
      const r = qi * re[i]!;
      const j = qi * im[i]!;
      const slope = two * r;
      const curvature = two * slope;
      re0[i] = r;
      re1[i] = slope;
      re2[i] = curvature;
      re3[i] = two * curvature;
      im0[i] = j;
      im1[i] = two * j;
    }
    this.k = k;
    this.nodes = nodes;
  }

  /** What the lift needs: real parts of the first three derivatives. Returns the number of nodes that count. */
  evaluateLift(gap: number): number {
    const { decay, re1, re2, re3 } = this;
    const count = decay.fill(this.nodes!, this.k, gap);
    const e = decay.values;
    let slope = 0;
    let curvature = 0;
    let jerk = 0;
    for (let i = 0; i < count; i++) {
      const ei = e[i]!;
      slope += re1[i]! * ei;
      curvature += re2[i]! * ei;
      jerk += re3[i]! * ei;
    }
    this.slopeRe = -slope;
    this.curvatureRe = curvature;
    this.jerkRe = -jerk;
    return count;
  }

  evaluate(gap: number): void {
    const count = this.evaluateLift(gap);
    const { re0, im0, im1 } = this;
    const e = this.decay.values;
    let inductance = 0;
    let reactive = 0;
    let slope = 0;
    for (let i = 0; i < count; i++) {
      const ei = e[i]!;
      inductance += re0[i]! * ei;
      reactive += im0[i]! * ei;
      slope += im1[i]! * ei;
    }
    this.inductanceRe = inductance;
    this.inductanceIm = reactive;
    this.slopeIm = -slope;
  }
}
