import type { GapCoupling } from '../gap-coupling.ts';
import { PlateCoupling, type SampledSpectrum } from '../plate-coupling.ts';
import type { PlateReflection } from '../plate-reflection.ts';
import type { DiscCoupling } from './disc-coupling.ts';
import { fadedPart } from './spatial-nodes.ts';

/**
 * A coil over a disc whose rims feel the coarse part of its field alone. With a(k) = a_c + a_f, a_c = w(k) a faded out
 * towards the disc's cut, dL is a quadratic form in a, and
 *   dL = dL_disc(a_c) + [dL_wide(a) - dL_wide(a_c)],  the bracket: sum q (1 - w^2) Gamma e^{-2 k gap}.
 * Left out is how the rims change the answer to a_f. As w is smooth, a_f's field falls off within a few 1/cut of the edges
 * of the windings' sections, and the cut is chosen so that the rims are farther away (see resolveBelowCut). A disc much
 * wider than a narrow hoop close over it so needs a few dozen polynomials instead of hundreds.
 *
 * Accuracy: that of the disc and 1e-3 more, in dL, loss and lift; see the tests. The derivation is our own.
 */
export class SplitCoupling implements GapCoupling {
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  jerkRe = 0;
  /** The coarse part over the disc, and the fine one over a wide plate. */
  coarse: DiscCoupling;
  private readonly fine = new PlateCoupling();
  /** The fine part of the spectrum. */
  readonly spectrum = {
    count: 0,
    k: new Float64Array(256),
    q: new Float64Array(256),
  };

  constructor(coarse: DiscCoupling) {
    this.coarse = coarse;
  }

  get work(): number {
    return this.coarse.work;
  }

  /** What a coil's field at spatial frequency k has in its coarse part. */
  coarsePart(k: number): number {
    return fadedPart(k / this.coarse.cut);
  }

  /** Takes a disc with a coil filled in, the whole spectrum of the same coil, and the wide plate's reflection at its nodes. */
  fill(coarse: DiscCoupling, { count, k, q }: SampledSpectrum, reflection: PlateReflection): void {
    const { spectrum } = this;
    this.coarse = coarse;
    if (spectrum.k.length < count) {
      spectrum.k = new Float64Array(2 * count);
      spectrum.q = new Float64Array(2 * count);
    }
    for (let i = 0; i < count; i++) {
      const coarse = this.coarsePart(k[i]!);
      spectrum.k[i] = k[i]!;
      spectrum.q[i] = q[i]! * (1 - coarse * coarse);
    }
    spectrum.count = count;
    this.fine.fill(spectrum, reflection);
  }

  evaluateLift(gap: number): void {
    const { coarse, fine } = this;
    coarse.evaluateLift(gap);
    fine.evaluateLift(gap);
    this.slopeRe = coarse.slopeRe + fine.slopeRe;
    this.curvatureRe = coarse.curvatureRe + fine.curvatureRe;
    this.jerkRe = coarse.jerkRe + fine.jerkRe;
  }

  evaluate(gap: number): void {
    const { coarse, fine } = this;
    coarse.evaluate(gap);
    fine.evaluate(gap);
    for (const name of NAMES) this[name] = coarse[name] + fine[name];
  }
}

const NAMES = ['inductanceRe', 'inductanceIm', 'slopeRe', 'slopeIm', 'curvatureRe', 'jerkRe'] as const;
