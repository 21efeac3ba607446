import { decay } from '../math/damped-wave.ts';
import { type NodeSet, PANEL } from './spectrum-nodes.ts';

/**
 * e^{-2 k gap} at every node of a set, with few exponentials. The panels of a set follow each other by rules: an
 * octave has twice the k of the one before (square), panels of equal width differ by a constant factor, and panels
 * with edges H p^2 by a factor that itself shrinks by a constant factor. A hundred nodes cost about thirty
 * exponentials. Rounding grows by one unit a panel: below 1e-14 relative.
 */
export class GapDecay {
  values = new Float64Array(256);
  private readonly ratio = new Float64Array(16);

  /**
   * Fills `values` for a gap in m and returns how many nodes count: the rest are below e^{-60}, less than a
   * double would notice, since k rises from node to node.
   */
  fill(nodes: NodeSet, k: Float64Array, gap: number): number {
    if (this.values.length < nodes.count) this.values = new Float64Array(2 * nodes.count);
    const { values, ratio } = this;
    const { panelStart, panelRule, panelCount, count } = nodes;
    const s = 2 * gap;
    let shrink = 0;
    for (let p = 0; p < panelCount; p++) {
      const start = panelStart[p]!;
      const end = p + 1 < panelCount ? panelStart[p + 1]! : count;
      if (s * k[start]! > NOTHING) return start;
      const size = end - start;
      switch (panelRule[p]) {
        case PANEL.fresh:
          for (let i = start; i < end; i++) values[i] = decay(s * k[i]!);
          break;
        case PANEL.double:
          for (let i = start; i < end; i++) {
            const before = values[i - size]!;
            values[i] = before * before;
          }
          break;
        case PANEL.even: {
          const factor = decay(s * (k[start]! - k[start - size]!));
          for (let i = start; i < end; i++) values[i] = values[i - size]! * factor;
          break;
        }
        case PANEL.firstSquare:
          for (let i = start; i < end; i++) {
            const factor = decay(s * (k[i]! - k[i - size]!));
            ratio[i - start] = factor;
            values[i] = values[i - size]! * factor;
          }
          break;
        default: {
          if (panelRule[p - 1] === PANEL.firstSquare) {
            shrink = decay(s * (k[start]! - 2 * k[start - size]! + k[start - 2 * size]!));
          }
          for (let i = start, q = 0; i < end; i++, q++) {
            const factor = ratio[q]! * shrink;
            ratio[q] = factor;
            values[i] = values[i - size]! * factor;
          }
        }
      }
    }
    return count;
  }
}

const NOTHING = 60;
