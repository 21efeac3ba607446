import { ComplexReflection } from './complex-reflection.ts';
import type { GapResponse } from './gap-response.ts';
import type { PlateLayer } from './plate-reflection.ts';

/**
 * A winding over a wide plate at one gap and complex frequencies:
 *   D(p) = sum q Gamma(k, p) e^{-2 k gap}, and with -k and k^2 for its derivatives,
 * on the nodes and weights of the steady state (winding-spectrum). `at` takes a gap, `evaluate` a p.
 */
export class WideResponse implements GapResponse {
  valueRe = 0;
  valueIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  mixedRe = 0;
  mixedIm = 0;
  private readonly reflection = new ComplexReflection();
  private layers: readonly PlateLayer[] = [];
  private layerCount = 0;
  private k: Float64Array = new Float64Array(0);
  private field = new Float64Array(256);
  private count = 0;

  at(
    spectrum: { readonly count: number; readonly k: Float64Array; readonly q: Float64Array },
    layers: readonly PlateLayer[],
    layerCount: number,
    gap: number,
  ): void {
    const { k, q } = spectrum;
    this.k = k;
    this.layers = layers;
    this.layerCount = layerCount;
    if (this.field.length < spectrum.count) this.field = new Float64Array(2 * spectrum.count);
    let seen = 0;
    for (; seen < spectrum.count; seen++) {
      const x = 2 * k[seen]! * gap;
      if (x > NOTHING) break;
      this.field[seen] = q[seen]! * Math.exp(-x);
    }
    this.count = seen;
  }

  evaluate(pRe: number, pIm: number): void {
    const { k, field, count, reflection } = this;
    reflection.fill(this.layers, this.layerCount, pRe, pIm, k, count);
    const { re, im } = reflection;
    let valueRe = 0;
    let valueIm = 0;
    let slopeRe = 0;
    let slopeIm = 0;
    let mixedRe = 0;
    let mixedIm = 0;
    for (let i = 0; i < count; i++) {
      const ki = k[i]!;
      const r = field[i]! * re[i]!;
      const j = field[i]! * im[i]!;
      valueRe += r;
      valueIm += j;
      slopeRe -= ki * r;
      slopeIm -= ki * j;
      mixedRe += ki * ki * r;
      mixedIm += ki * ki * j;
    }
    this.valueRe = valueRe;
    this.valueIm = valueIm;
    this.slopeRe = slopeRe;
    this.slopeIm = slopeIm;
    this.mixedRe = mixedRe;
    this.mixedIm = mixedIm;
  }
}

/** Nodes stand in rising k: what lies beyond e^{-40} adds nothing. */
const NOTHING = 40;
