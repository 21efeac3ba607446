import { decay } from '../../math/decay.ts';
import type { CoilWinding } from '../disc/coil-source.ts';
import { MovingSource, ShiftedAmplitude } from './moving-source.ts';
import type { SidewaysPlate } from './sideways-plate.ts';

/** Azimuthal orders that are ever needed. */
const MOST_ORDERS = 60;
/** Orders that add less than this of what has come together are left out. */
const NOTHING = 1e-5;

/**
 * A coil that stands beside or leans over the axis of a disc, at one gap: how the inductance dL that the disc adds
 * changes with the shift x and with a turn theta about a point on the coil's axis. The mean force at a current of
 * I rms is (I^2/2) Re d dL / dx, the torque (I^2/2) Re d dL / d theta (virtual work, see lift).
 *
 * dL = -jw sum_m (eps_m / 2) e_m^T Y_m e_m (see sideways-plate), e_m linear in the source's alpha_m (see
 * moving-source); at the axis only orders 0 and 1 speak. Lengths in m, angles in rad, H.
 *
 * Either body may be thought of as the one that moves; `bodyMoves` names which, since x theta differs by the lift.
 * Accuracy: 1 % where the force matters, and 1e-4 of the lift over the coil's radius where it vanishes (tests).
 */
export class SidewaysCoupling {
  /** Second derivatives of Re dL at the axis: shift, turn, both. */
  shift = 0;
  turn = 0;
  both = 0;
  /** Re and Im of dL itself, H. */
  inductanceRe = 0;
  inductanceIm = 0;
  private readonly plate: SidewaysPlate;
  private readonly value: Float64Array;
  private readonly slope: Float64Array;
  private readonly curvature: Float64Array;
  private readonly p: Float64Array;
  private readonly q: Float64Array;
  private readonly source = new MovingSource();
  private readonly shifted = new ShiftedAmplitude();
  private readonly found = { re: 0, im: 0 };

  constructor(plate: SidewaysPlate) {
    const { count } = plate.nodes;
    this.plate = plate;
    this.value = new Float64Array(count);
    this.slope = new Float64Array(count);
    this.curvature = new Float64Array(count);
    this.p = new Float64Array(count);
    this.q = new Float64Array(count);
  }

  /**
   * Takes a coil at a gap.
   * @param gap bare plate surface to the coil's plate-side face, m
   * @param above from that face to the point about which the moving body turns, away from the plate, m
   */
  fill(windings: readonly CoilWinding[], gap: number, above: number): void {
    const { k, count } = this.plate.nodes;
    const { source } = this;
    for (let i = 0; i < count; i++) {
      source.evaluate(windings, k[i]!, above);
      const fall = decay(k[i]! * gap);
      this.value[i] = source.value * fall;
      this.slope[i] = source.slope * fall;
      this.curvature[i] = source.curvature * fall;
    }
  }

  /** Fills `shift`, `turn` and `both`; `plateMoves`: the plate is the body that moves, else the coil. */
  evaluate(plateMoves: boolean): void {
    const { value, slope, curvature, p, q } = this;
    const { k, count } = this.plate.nodes;
    // half of each second derivative is the square of the first-order change, half the second-order change
    for (let i = 0; i < count; i++) p[i] = k[i]! * value[i]!;
    const shiftSquare = this.form(1, p, p);
    for (let i = 0; i < count; i++) q[i] = -k[i]! * slope[i]!;
    const both = this.form(1, p, q);
    const turnSquare = this.form(1, q, q);
    for (let i = 0; i < count; i++) q[i] = (-k[i]! * k[i]! * value[i]!) / 2;
    this.shift = 2 * (shiftSquare + this.form(0, value, q));
    for (let i = 0; i < count; i++) q[i] = -k[i]! * (slope[i]! + (k[i]! * curvature[i]!) / 2);
    this.turn = 2 * (turnSquare + this.form(0, value, q));
    const own = plateMoves ? 1 : 0;
    for (let i = 0; i < count; i++) q[i] = k[i]! * (own * value[i]! + (k[i]! * slope[i]!) / 2);
    this.both = 2 * (both + this.form(0, value, q));
  }

  /** Fills `inductanceRe` and `inductanceIm`, coil and disc coaxial. */
  evaluateInductance(): void {
    this.inductanceRe = this.form(0, this.value, this.value);
    this.inductanceIm = -this.plate.spec.angularFrequency * this.found.re;
  }

  /** Re d dL / dd at shift d, H/m: what pushes outward, a current apart. */
  slopeAt(d: number): number {
    const { value, p, q, shifted } = this;
    const { k, count } = this.plate.nodes;
    if (d === 0) return 0;
    let sum = 0;
    let size = 0;
    let small = 0;
    for (let m = 0; m < MOST_ORDERS && small < 2; m++) {
      for (let i = 0; i < count; i++) {
        shifted.evaluate(m, k[i]!, d);
        p[i] = shifted.value * value[i]!;
        q[i] = shifted.slope * value[i]!;
      }
      const term = 2 * this.form(m, p, q);
      sum += term;
      size += Math.abs(term);
      small = Math.abs(term) < NOTHING * size ? small + 1 : 0;
    }
    return sum;
  }

  /** Re of -jw p^T Y q, H. */
  private form(order: number, p: Float64Array, q: Float64Array): number {
    this.plate.order(order).form(p, q, this.found);
    return this.plate.spec.angularFrequency * this.found.im;
  }
}
