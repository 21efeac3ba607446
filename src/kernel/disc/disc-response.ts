import type { GapResponse } from '../gap-response.ts';
import { type CoilWinding, coilSource } from './coil-source.ts';
import type { DiscModes } from './disc-modes.ts';

/** A coil over a disc at one gap and complex frequencies, from the disc's modes. `fill` takes a coil, `at` a gap. */
export class DiscResponse implements GapResponse {
  valueRe = 0;
  valueIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  mixedRe = 0;
  mixedIm = 0;
  /** s and its derivative by the gap at the gap last given to `at`. */
  readonly coupling: Float64Array;
  readonly couplingSlope: Float64Array;
  private readonly modes: DiscModes;
  private readonly source: Float64Array;

  constructor(modes: DiscModes) {
    this.modes = modes;
    this.source = new Float64Array(modes.nodes.count);
    this.coupling = new Float64Array(modes.count);
    this.couplingSlope = new Float64Array(modes.count);
  }

  fill(windings: readonly CoilWinding[]): void {
    const { k, count } = this.modes.nodes;
    for (let q = 0; q < count; q++) this.source[q] = coilSource(windings, k[q]!);
  }

  at(gap: number): void {
    const { source, coupling, couplingSlope } = this;
    const { nodes, excitation, count } = this.modes;
    const { k } = nodes;
    for (let n = 0; n < count; n++) {
      const row = n * nodes.count;
      let value = 0;
      let slope = 0;
      for (let q = 0; q < nodes.count; q++) {
        const x = k[q]! * gap;
        if (x > NOTHING) break;
        const part = excitation[row + q]! * source[q]! * Math.exp(-x);
        value += part;
        slope -= k[q]! * part;
      }
      coupling[n] = value;
      couplingSlope[n] = slope;
    }
  }

  evaluate(pRe: number, pIm: number): void {
    const { coupling, couplingSlope } = this;
    const { rates, count } = this.modes;
    this.valueRe = 0;
    this.valueIm = 0;
    this.slopeRe = 0;
    this.slopeIm = 0;
    this.mixedRe = 0;
    this.mixedIm = 0;
    for (let n = 0; n < count; n++) {
      // -p / (p + lambda)
      const re = pRe + rates[n]!;
      const d = 1 / (re * re + pIm * pIm);
      const answerRe = -(pRe * re + pIm * pIm) * d;
      const answerIm = -pIm * rates[n]! * d;
      const s = coupling[n]!;
      const t = couplingSlope[n]!;
      this.valueRe += s * s * answerRe;
      this.valueIm += s * s * answerIm;
      this.slopeRe += s * t * answerRe;
      this.slopeIm += s * t * answerIm;
      this.mixedRe += t * t * answerRe;
      this.mixedIm += t * t * answerIm;
    }
  }
}

/** Nodes stand in rising k: past e^{-40} the rest adds nothing to the digits claimed. */
const NOTHING = 40;
