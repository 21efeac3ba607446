import { decay } from '../math/decay.ts';
import type { GapCoupling } from './gap-coupling.ts';
import { GapDecays } from './gap-decays.ts';
import type { PlateReflection } from './plate-reflection.ts';

/** A source's weights q (H) at rising spatial frequencies k (1/m): see WindingSpectrum. */
export interface SampledSpectrum {
  readonly count: number;
  readonly k: Float64Array;
  readonly q: Float64Array;
}

/** What a coupling is at one gap: H, H/m, H/m2, H/m3. */
export interface CouplingPoint {
  inductanceRe: number;
  inductanceIm: number;
  slopeRe: number;
  slopeIm: number;
  curvatureRe: number;
  jerkRe: number;
}

/**
 * A winding over a plate as a function of the gap: dL(gap) = sum q Gamma e^{-2 k gap} and its gap derivatives.
 * dL is the inductance that the plate adds (its real part is negative over a good conductor); -w Im dL is the
 * plate's resistance seen by the coil; forces follow from the first derivative (see lift).
 */
export class PlateCoupling implements GapCoupling, CouplingPoint {
  private count = 0;
  /** Fills it, once something besides what it was given is wanted. */
  private fillLater: (() => void) | null = null;
  private k: Float64Array = new Float64Array(0);
  /** Of the gap last evaluated in full, or that somebody else asked for since. */
  readonly decays = new GapDecays();
  /** Of the even and of the odd station last summed up: two that follow one another are asked for together. */
  private readonly even = new GapDecays();
  private readonly odd = new GapDecays();
  /** q Re Gamma and q Im Gamma; each gap derivative is 2k times the one before. */
  private re = new Float64Array(256);
  private im = new Float64Array(256);
  /**
   * The two gaps last evaluated in full, the later first, and what was found there: every design evaluates at its standoff,
   * the search for the gap begins there, and a design that differs in its drive alone evaluates there again.
   */
  private latest = new Float64Array(POINT);
  private earlier = new Float64Array(POINT);

  /** Values at the gap last evaluated: H, H/m, H/m2, H/m3. */
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  jerkRe = 0;

  fill(spectrum: SampledSpectrum, reflection: PlateReflection): void {
    const { count, k, q } = spectrum;
    if (this.re.length < count) {
      this.re = new Float64Array(2 * count);
      this.im = new Float64Array(2 * count);
    }
    const { re, im } = this;
    const { re: gammaRe, im: gammaIm } = reflection;
    for (let i = 0; i < count; i++) {
      const weight = q[i]!;
      re[i] = weight * gammaRe[i]!;
      im[i] = weight * gammaIm[i]!;
    }
    this.k = k;
    this.count = count;
    this.decays.prepare(k, count);
    this.even.prepare(k, count);
    this.odd.prepare(k, count);
    this.forget();
  }

  /**
   * Takes a gap and what was found there before: it is good for that gap, and calls `fill` before it is evaluated anywhere
   * else.
   */
  remember(gap: number, point: CouplingPoint, fill: () => void): void {
    this.earlier[0] = Number.NaN;
    this.copy(point);
    this.keep(gap);
    this.earlier[0] = Number.NaN;
    this.fillLater = fill;
  }

  /** It is filled for what it remembers already. */
  resume(): void {
    this.fillLater = null;
  }

  /** It is filled, but for something else than what it remembers. */
  forget(): void {
    this.fillLater = null;
    this.latest[0] = Number.NaN;
    this.earlier[0] = Number.NaN;
  }

  /** Writes what was found at the gap last evaluated in full; false where that is another one. */
  read(gap: number, out: CouplingPoint): boolean {
    const { latest } = this;
    if (latest[0] !== gap) return false;
    copyPoint(latest, out);
    return true;
  }

  /** What the lift needs: real parts of the first three derivatives. */
  evaluateLift(gap: number): void {
    if (this.recall(gap)) return;
    this.fillLater?.();
    const { count, k, re } = this;
    let slope = 0;
    let curvature = 0;
    let jerk = 0;
    for (let i = 0; i < count; i++) {
      const two = 2 * k[i]!;
      const x = gap * two;
      if (x > NOTHING) break;
      const first = re[i]! * decay(x) * two;
      const second = first * two;
      slope += first;
      curvature += second;
      jerk += second * two;
    }
    this.slopeRe = -slope;
    this.curvatureRe = curvature;
    this.jerkRe = -jerk;
  }

  evaluate(gap: number): void {
    if (this.recall(gap)) return;
    this.fillLater?.();
    const { decays, k, re, im } = this;
    decays.at(gap);
    const { fall, seen } = decays;
    let inductance = 0;
    let slope = 0;
    let curvature = 0;
    let jerk = 0;
    let reactive = 0;
    let reactiveSlope = 0;
    for (let i = 0; i < seen; i++) {
      const e = fall[i]!;
      const two = 2 * k[i]!;
      const value = re[i]! * e;
      const first = value * two;
      const second = first * two;
      inductance += value;
      slope += first;
      curvature += second;
      jerk += second * two;
      const other = im[i]! * e;
      reactive += other;
      reactiveSlope += other * two;
    }
    this.inductanceRe = inductance;
    this.inductanceIm = reactive;
    this.slopeRe = -slope;
    this.slopeIm = -reactiveSlope;
    this.curvatureRe = curvature;
    this.jerkRe = -jerk;
    this.keep(gap);
  }

  /** Exponentials at the gap of a station. */
  decaysAt(gap: number, station: number): GapDecays {
    const decays = (station & 1) === 0 ? this.even : this.odd;
    decays.at(gap);
    return decays;
  }

  /** At the gap of a station: Re dL and its first three gap derivatives, and those of Im dL. */
  sumAt(gap: number, station: number, out: Float64Array): void {
    this.fillLater?.();
    const { k, re, im } = this;
    const { fall, seen } = this.decaysAt(gap, station);
    let inductance = 0;
    let slope = 0;
    let curvature = 0;
    let jerk = 0;
    let reactive = 0;
    let reactiveSlope = 0;
    let reactiveCurvature = 0;
    let reactiveJerk = 0;
    for (let i = 0; i < seen; i++) {
      const e = fall[i]!;
      const two = 2 * k[i]!;
      const value = re[i]! * e;
      const first = value * two;
      const second = first * two;
      inductance += value;
      slope += first;
      curvature += second;
      jerk += second * two;
      const other = im[i]! * e;
      const otherFirst = other * two;
      const otherSecond = otherFirst * two;
      reactive += other;
      reactiveSlope += otherFirst;
      reactiveCurvature += otherSecond;
      reactiveJerk += otherSecond * two;
    }
    out[0] = inductance;
    out[1] = -slope;
    out[2] = curvature;
    out[3] = -jerk;
    out[4] = reactive;
    out[5] = -reactiveSlope;
    out[6] = reactiveCurvature;
    out[7] = -reactiveJerk;
  }

  /** Brings back what was found at this very gap; false where that is not known. */
  private recall(gap: number): boolean {
    if (this.earlier[0] === gap) this.swap();
    const { latest } = this;
    if (latest[0] !== gap) return false;
    copyPoint(latest, this);
    return true;
  }

  private copy(point: CouplingPoint): void {
    this.inductanceRe = point.inductanceRe;
    this.inductanceIm = point.inductanceIm;
    this.slopeRe = point.slopeRe;
    this.slopeIm = point.slopeIm;
    this.curvatureRe = point.curvatureRe;
    this.jerkRe = point.jerkRe;
  }

  private keep(gap: number): void {
    this.swap();
    const { latest } = this;
    latest[0] = gap;
    latest[1] = this.inductanceRe;
    latest[2] = this.inductanceIm;
    latest[3] = this.slopeRe;
    latest[4] = this.slopeIm;
    latest[5] = this.curvatureRe;
    latest[6] = this.jerkRe;
  }

  private swap(): void {
    const { latest } = this;
    this.latest = this.earlier;
    this.earlier = latest;
  }
}

function copyPoint(from: Float64Array, to: CouplingPoint): void {
  to.inductanceRe = from[1]!;
  to.inductanceIm = from[2]!;
  to.slopeRe = from[3]!;
  to.slopeIm = from[4]!;
  to.curvatureRe = from[5]!;
  to.jerkRe = from[6]!;
}

/** k rises from node to node: past e^{-60}, less than a double would notice, the rest is left out. */
const NOTHING = 60;

/** A gap and the six values there. */
const POINT = 7;
