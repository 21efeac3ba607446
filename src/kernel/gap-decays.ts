import { decay } from '../math/decay.ts';

/**
 * e^{-2 k gap} at the nodes of a spectrum: the reflected field falls so over the gap, whatever is computed from it. Kept for
 * the gap last evaluated.
 */
export class GapDecays {
  /** m; NaN: none yet. */
  gap = Number.NaN;
  /** One value a node; 0 from `seen` on, where less is left than a double would notice. */
  fall = new Float64Array(256);
  seen = 0;
  private k: Float64Array = this.fall;
  private count = 0;

  /** The nodes in hand from now on: k in 1/m, rising. */
  prepare(k: Float64Array, count: number): void {
    if (this.fall.length < count) this.fall = new Float64Array(2 * count);
    this.k = k;
    this.count = count;
    this.gap = Number.NaN;
  }

  at(gap: number): void {
    if (gap === this.gap) return;
    this.gap = gap;
    const { k, count, fall } = this;
    const twice = 2 * gap;
    let seen = 0;
    for (; seen < count; seen++) {
      const x = twice * k[seen]!;
      if (x > NOTHING) break;
      fall[seen] = decay(x);
    }
    for (let i = seen; i < count; i++) fall[i] = 0;
    this.seen = seen;
  }
}

/** k rises from node to node: past e^{-60} the rest is left out. */
const NOTHING = 60;
