import { modulus } from '../math/modulus.ts';
import { equilibriumGap } from './equilibrium.ts';
import type { GapCoupling } from './gap-coupling.ts';

/**
 * Where a coil comes to rest or to float when its supply voltage is raised slowly from zero until a limit is met.
 *
 * At rest the current is V / |Z| at the standoff. Once it exceeds the lift-off current the coil floats, and each gap
 * g belongs to one drive: the current that carries the weight there, I(g) = sqrt(2 W / slope(g)), and the supply
 * voltage V(g) = I(g) |Z(g)| with Z = R + R_plate(g) + j (w L(g) - 1 / (w C)). Where V rises with g the gap is stable
 * at that voltage. Where it falls (a series capacitor near resonance) it is not: raised past a local maximum the coil
 * jumps to the next gap with a higher V. So the gap reached at voltage V is the first one at which V(g) exceeds V,
 * and gaps below an earlier maximum are never held. Inertia is left out: slowly means slowly.
 *
 * Units: ohm, rad/s, H, F, N, m, V, A. Without capacitor and over non-magnetic plates V(g) rises throughout and the
 * gap comes from bracketed Newton steps, to 1e-9 relative. Otherwise V(g) is walked in steps of STEP first, which
 * resolves any fold wider than that.
 */
export interface Circuit {
  /** Winding and series resistance. */
  resistance: number;
  omega: number;
  freeInductance: number;
  /** Series capacitance; NaN: none. */
  capacitance: number;
}

/** Upper limits of the drive, in the order in which ties are settled; Infinity where there is none. */
export interface DriveLimits {
  voltage: number;
  current: number;
  /** Volt-amperes at the outlet of the variable transformer: what a fuse on the line side allows. */
  apparent: number;
}

export const LIMIT = Object.freeze({ voltage: 0, current: 1, apparent: 2 });

export const OUTCOME = Object.freeze({
  floats: 0,
  /** It lifts off, but no gap above can be held within the limits. */
  jumps: 1,
  /** The gap lies beyond the farthest that may be evaluated. */
  beyond: 2,
  /** The steps towards the gap do not settle: there is no answer, and the last step is none. */
  unsettled: 3,
});

export class RisingDrive {
  gap = 0;
  current = 0;
  voltage = 0;
  /** The limit that ends the rise. */
  limit: number = LIMIT.voltage;

  private coupling: GapCoupling;
  private circuit: Circuit = { resistance: 0, omega: 0, freeInductance: 0, capacitance: Number.NaN };
  private limits: DriveLimits = { voltage: 0, current: 0, apparent: 0 };
  private weight = 0;
  private impedance = 0;
  /** By how much the logarithm of the drive exceeds its nearest limit at the gap last visited, and its slope. */
  private excess = 0;
  private excessSlope = 0;

  constructor(coupling: GapCoupling) {
    this.coupling = coupling;
  }

  /** Relative rise of the supply voltage with the gap at the gap last visited, 1/m: positive where stable. */
  voltageSlope = 0;

  /**
   * The drive on a coil of the given weight (N) held at a gap (m): current, voltage and the limit that ends it there.
   * Returns the lift-off current; NaN where the plate attracts.
   */
  rest(coupling: GapCoupling, circuit: Circuit, limits: DriveLimits, weight: number, gap: number): number {
    this.coupling = coupling;
    this.circuit = circuit;
    this.limits = limits;
    this.weight = weight;
    this.coupling.evaluate(gap);
    this.gap = gap;
    this.impedance = this.impedanceHere();
    const { impedance } = this;
    this.current = limits.voltage / impedance;
    this.limit = LIMIT.voltage;
    if (limits.current < this.current) {
      this.current = limits.current;
      this.limit = LIMIT.current;
    }
    const fused = Math.sqrt(limits.apparent / impedance);
    if (fused < this.current) {
      this.current = fused;
      this.limit = LIMIT.apparent;
    }
    this.voltage = this.current * impedance;
    const { slopeRe } = this.coupling;
    return slopeRe > 0 ? Math.sqrt((2 * weight) / slopeRe) : Number.NaN;
  }

  /**
   * Raises the drive on the coil that was last evaluated at rest, where it exceeds the lift-off current.
   * @param plain no capacitor, non-magnetic plate: the voltage rises with the gap throughout
   */
  raise(farthest: number, plain: boolean): number {
    return plain ? this.climb(this.gap, farthest) : this.walk(this.gap, farthest);
  }

  /** The floating coil at a gap: the drive that holds it there, and how it stands to the limits. */
  private visit(gap: number): void {
    const { coupling, circuit, limits } = this;
    coupling.evaluate(gap);
    const impedance = this.impedanceHere();
    const { slopeRe, slopeIm, curvatureRe } = coupling;
    const { omega } = circuit;
    const current = Math.sqrt((2 * this.weight) / slopeRe);
    const voltage = current * impedance;
    const currentSlope = -curvatureRe / (2 * slopeRe);
    const resistance = circuit.resistance - omega * coupling.inductanceIm;
    const impedanceSlope =
      (omega * (this.reactance() * slopeRe - resistance * slopeIm)) / (impedance * impedance);
    this.gap = gap;
    this.impedance = impedance;
    this.current = current;
    this.voltage = voltage;
    this.voltageSlope = currentSlope + impedanceSlope;
    this.limit = LIMIT.voltage;
    this.excess = Math.log(voltage / limits.voltage);
    this.excessSlope = this.voltageSlope;
    const overCurrent = Math.log(current / limits.current);
    if (overCurrent > this.excess) {
      this.limit = LIMIT.current;
      this.excess = overCurrent;
      this.excessSlope = currentSlope;
    }
    const overFuse = Math.log((voltage * current) / limits.apparent);
    // volt-amperes count twice as a current does: half the logarithm, so that excesses compare as drives
    if (overFuse / 2 > this.excess) {
      this.limit = LIMIT.apparent;
      this.excess = overFuse / 2;
      this.excessSlope = currentSlope + impedanceSlope / 2;
    }
  }

  private reactance(): number {
    const { omega, freeInductance, capacitance } = this.circuit;
    const inductive = omega * (freeInductance + this.coupling.inductanceRe);
    return Number.isNaN(capacitance) ? inductive : inductive - 1 / (omega * capacitance);
  }

  private impedanceHere(): number {
    const { circuit, coupling } = this;
    return modulus(circuit.resistance - circuit.omega * coupling.inductanceIm, this.reactance());
  }

  /** Voltage rises throughout: the gap where the first limit is met. */
  private climb(standoff: number, farthest: number): number {
    const { limits } = this;
    let ceiling = Number.POSITIVE_INFINITY;
    if (limits.current !== Number.POSITIVE_INFINITY) {
      // the current alone needs the lift alone
      const target = (2 * this.weight) / (limits.current * limits.current);
      const gap = equilibriumGap(this.coupling, target, standoff, farthest);
      if (!Number.isNaN(gap)) {
        this.visit(gap);
        if (this.limit === LIMIT.current) return OUTCOME.floats;
        ceiling = gap;
      }
    }
    return this.settle(standoff, ceiling, farthest);
  }

  /** Newton on the excess inside a bracket (low: within the limits, high: beyond them). */
  private settle(low: number, high: number, farthest: number): number {
    let gap = high === Number.POSITIVE_INFINITY ? low : (low + high) / 2;
    for (let i = 0; i < MAX_ITERATIONS; i++) {
      this.visit(gap);
      if (Number.isNaN(this.excess)) return OUTCOME.unsettled;
      if (this.excess < 0) low = gap;
      else high = gap;
      if (low > farthest) return OUTCOME.beyond;
      const step = -this.excess / this.excessSlope;
      if (Math.abs(step) <= CLOSE * gap) {
        this.visit(Math.max(gap + step, low));
        return OUTCOME.floats;
      }
      let next = gap + step;
      if (!(next > low && next < high)) {
        next = high === Number.POSITIVE_INFINITY ? 2 * low : (low + high) / 2;
      }
      if (high - low <= ROUNDING * low) {
        // what is left at the end of all halving is rounding, or else the drive leaps there
        return Math.abs(this.excess) <= CLOSE ? OUTCOME.floats : OUTCOME.unsettled;
      }
      gap = next;
    }
    return OUTCOME.unsettled;
  }

  /** Voltage may fall with the gap: walk up, remembering the highest voltage held so far. */
  private walk(standoff: number, farthest: number): number {
    this.visit(standoff);
    let highest = this.voltage;
    let held = standoff;
    let before = standoff;
    let gap = standoff;
    let falling = this.voltageSlope <= 0;
    while (gap < farthest) {
      before = gap;
      gap = Math.min(farthest, gap * (1 + STEP));
      this.visit(gap);
      if (this.voltage < highest) {
        if (!falling) {
          // a maximum lies between the gap before and here: it may meet the limit before it is passed
          held = this.fold(before, gap);
          highest = this.voltage;
          if (this.excess >= 0) return this.settle(before, held, farthest);
          falling = true;
        }
        continue;
      }
      if (falling) {
        // it jumps to where the voltage is back at its highest
        const landing = this.landing(before, gap, highest);
        this.visit(landing);
        if (this.excess > 0) return this.stayBefore(held, standoff);
        falling = false;
        before = landing;
        this.visit(gap);
      }
      if (this.excess >= 0) return this.settle(before, gap, farthest);
      highest = this.voltage;
      held = gap;
    }
    return OUTCOME.beyond;
  }

  /** The jump would break a limit: the largest steady drive is the one just before it. */
  private stayBefore(held: number, standoff: number): number {
    const { limit } = this;
    this.visit(held);
    this.limit = limit;
    return held === standoff ? OUTCOME.jumps : OUTCOME.floats;
  }

  /** The local maximum of the voltage in a bracket, by bisection on its slope; visits it. */
  private fold(low: number, high: number): number {
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = (low + high) / 2;
      this.visit(middle);
      if (this.voltageSlope > 0) low = middle;
      else high = middle;
    }
    return low;
  }

  private landing(low: number, high: number, voltage: number): number {
    for (let i = 0; i < BISECTIONS; i++) {
      const middle = (low + high) / 2;
      this.visit(middle);
      if (this.voltage < voltage) low = middle;
      else high = middle;
    }
    return high;
  }
}

/** Relative step of the walk: folds narrower than this are not seen. */
const STEP = 0.03;
const BISECTIONS = 48;
const MAX_ITERATIONS = 200;
/** The error left after a Newton step this small is below 1e-9. */
const CLOSE = 1e-6;
const ROUNDING = 1e-13;
