import { MAX_WINDINGS } from '../model/inputs.ts';

/** A reel that holds just enough is not short of it by rounding. */
const ROUNDING = 1e-9;
/** Each kind of piece cut from each kind of opened reel leaves at most two kinds more: 2, 8, 26, 80. */
const MOST_OPENED = 81;

/**
 * How many reels the pieces of a coil take: the longest first, each from the first reel that still holds it (first fit
 * decreasing). Equal pieces are counted, not listed. Lengths in m.
 */
export class ReelCutting {
  private kinds = 0;
  private readonly lengths = new Float64Array(MAX_WINDINGS);
  private readonly numbers = new Float64Array(MAX_WINDINGS);
  /** Reels that have been cut from: what is left on them, and how many are alike. */
  private opened = 0;
  private readonly left = new Float64Array(MOST_OPENED);
  private readonly alike = new Float64Array(MOST_OPENED);

  clear(): void {
    this.kinds = 0;
  }

  /** So many pieces of one length; the longest stand first. */
  add(length: number, number: number): void {
    const { lengths, numbers } = this;
    let at = this.kinds++;
    for (; at > 0 && lengths[at - 1]! < length; at--) {
      lengths[at] = lengths[at - 1]!;
      numbers[at] = numbers[at - 1]!;
    }
    lengths[at] = length;
    numbers[at] = number;
  }

  get longest(): number {
    return this.lengths[0]!;
  }

  total(): number {
    let sum = 0;
    for (let i = 0; i < this.kinds; i++) sum += this.lengths[i]! * this.numbers[i]!;
    return sum;
  }

  /** Of reels that hold the longest piece. */
  reels(reelLength: number): number {
    this.opened = 0;
    let reels = 0;
    for (let i = 0; i < this.kinds; i++) {
      const length = this.lengths[i]!;
      let wanted = this.numbers[i]!;
      const before = this.opened;
      for (let r = 0; r < before && wanted > 0; r++) wanted -= this.cutOpened(r, length, wanted);
      if (wanted === 0) continue;
      const each = Math.max(1, piecesOf(reelLength, length));
      const fresh = Math.ceil(wanted / each);
      reels += fresh;
      if (fresh > 1) this.open(reelLength - each * length, fresh - 1);
      this.open(reelLength - (wanted - (fresh - 1) * each) * length, 1);
    }
    return reels;
  }

  /** Cuts from opened reels of one kind; returns how many pieces they gave. */
  private cutOpened(r: number, length: number, wanted: number): number {
    const left = this.left[r]!;
    const each = piecesOf(left, length);
    const there = this.alike[r]!;
    if (each === 0 || there === 0) return 0;
    const used = Math.min(there, Math.ceil(wanted / each));
    const cut = Math.min(wanted, used * each);
    this.alike[r] = there - used;
    if (used > 1) this.open(left - each * length, used - 1);
    this.open(left - (cut - (used - 1) * each) * length, 1);
    return cut;
  }

  private open(left: number, alike: number): void {
    this.left[this.opened] = left;
    this.alike[this.opened++] = alike;
  }
}

function piecesOf(length: number, piece: number): number {
  return Math.floor(length / piece + ROUNDING);
}
