import type { GapResponse } from '../gap-response.ts';

/** The sum of two answers at one gap and complex frequencies: of a disc's to the coarse part of a field, of a wide plate's to the fine one. */
export class SplitResponse implements GapResponse {
  valueRe = 0;
  valueIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  mixedRe = 0;
  mixedIm = 0;
  private readonly coarse: GapResponse;
  private readonly fine: GapResponse;

  constructor(coarse: GapResponse, fine: GapResponse) {
    this.coarse = coarse;
    this.fine = fine;
  }

  evaluate(pRe: number, pIm: number): void {
    const { coarse, fine } = this;
    coarse.evaluate(pRe, pIm);
    fine.evaluate(pRe, pIm);
    for (const name of NAMES) this[name] = coarse[name] + fine[name];
  }
}

const NAMES = ['valueRe', 'valueIm', 'slopeRe', 'slopeIm', 'mixedRe', 'mixedIm'] as const;
