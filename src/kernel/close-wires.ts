import { LocalLagrange } from '../math/local-lagrange.ts';
import { sumUp, unpackIntegers } from '../math/packed-integers.ts';
import { CLOSE_WIRES } from './close-wires-table.ts';

/** Square order of a winding's wires in its section. */
export interface WireOrder {
  /** Counts of wires along the two sides of the section; where it is fixed by hand they need not be whole. */
  readonly layers: number;
  readonly columns: number;
  /** Bare diameter over the distance of neighbouring wires, at most 1. */
  readonly closeness: number;
}

/**
 * What neighbouring wires' eddy currents make of the proximity loss of lone wires (see proximity-effect), a factor:
 *   R = Rdc (skin effect) + K (lone wires in the winding's mean-square field).
 * A dense winding keeps the field out of itself (K < 1); a single layer, with little between its wires, has more (K > 1).
 *
 * Read from a table of straight bundles in square order with equal currents, computed by multipoles of cylinders
 * (test/fixtures/close-wires.py), over x = wire radius / skin depth, (d / pitch)^2, the lesser of layers and columns, and the
 * ratio of both: cubic in ln x, the square, 1/n and the logarithm of the ratio.
 *
 * Below x = 0.5 it is 1, and from 0.7 the table's; between them one passes into the other smoothly. The law of lone wires is
 * good to 1 % of the resistance up to 0.7.
 * Domain: wires that are not magnetic, strands that share the current evenly. The bundle is straight and alone: a plate, and
 * how strongly the winding is curved, count in the mean-square field alone.
 * Accuracy: 3 % of the resistance against the multipoles (test/kernel/close-wires.test.ts).
 */
export class CloseWires {
  private readonly overX = new LocalLagrange(4);
  private readonly overSquare = new LocalLagrange(4);
  private readonly overLeast = new LocalLagrange(4);
  private readonly overRatio = new LocalLagrange(4);

  factor(x: number, { layers, columns, closeness }: WireOrder): number {
    if (x <= LONE) return 1;
    const n = Math.max(1, Math.min(layers, columns));
    const ratio = Math.max(1, Math.max(layers, columns) / n);
    const factor = this.lookUp(x, closeness * closeness, n, ratio);
    if (x >= CLOSE) return factor;
    const t = (x - LONE) / (CLOSE - LONE);
    return 1 + (factor - 1) * t * t * (3 - 2 * t);
  }

  private lookUp(x: number, square: number, n: number, ratio: number): number {
    const { overX: wx, overSquare: wq, overLeast: wn, overRatio: wr } = this;
    if (Number.isNaN(TABLE[0]!)) fillTable();
    wx.at(LOG_X, Math.log(x));
    wq.at(SQUARES, square);
    wn.at(INVERSE, 1 / n);
    wr.at(LOG_RATIO, Math.log2(ratio));
    let sum = 0;
    for (let q = 0; q < wq.count; q++) {
      for (let k = 0; k < wn.count; k++) {
        for (let r = 0; r < wr.count; r++) {
          const at = ((wq.first + q) * LEAST.length + wn.first + k) * RATIOS.length + wr.first + r;
          let row = 0;
          for (let i = 0; i < wx.count; i++) row += wx.weight[i]! * TABLE[at * XS.length + wx.first + i]!;
          sum += wq.weight[q]! * wn.weight[k]! * wr.weight[r]! * row;
        }
      }
    }
    return Math.max(0, sum);
  }
}

const LONE = 0.5;
const CLOSE = 0.7;

const { x: XS, square: SQUARES, least: LEAST, ratio: RATIOS, packed: PACKED } = CLOSE_WIRES;
const LOG_X = Float64Array.from(XS, Math.log);
/** 1/n: the last is the endless bundle, extrapolated from the two before it. */
const INVERSE = Float64Array.from(LEAST, (n) => 1 / n);
const LOG_RATIO = Float64Array.from(RATIOS, Math.log2);
/** Unpacked when it is first read, as at mains frequency it seldom is. */
const TABLE = new Float64Array(XS.length * SQUARES.length * LEAST.length * RATIOS.length).fill(Number.NaN);

function fillTable(): void {
  const values = unpackIntegers(PACKED);
  sumUp(values, 10);
  sumUp(values, 80);
  for (let i = 0; i < TABLE.length; i++) TABLE[i] = values[i]! * 1e-4;
}
