import { modulus } from '../math/modulus.ts';
import type { GapCoupling } from './gap-coupling.ts';

/** What floats or rests at a supply voltage that is left alone: SI. */
export interface HeldCircuit {
  /** At the supply, rms. */
  voltage: number;
  omega: number;
  freeInductance: number;
  /** In series with the winding: leads and transformer. */
  seriesResistance: number;
  /** NaN: none. */
  capacitance: number;
  /** What must be carried, N; NaN: clamped. */
  weight: number;
  standoff: number;
}

/**
 * Gap and current of a coil at a supply voltage that stays as it is, for any resistance of its winding: what happens when
 * the winding warms and nobody touches the knob. A gap g belongs to one resistance,
 *   R(g) = sqrt(V^2 / I(g)^2 - X(g)^2) - Rplate(g) - Rseries,  I(g) = sqrt(2 W / slope(g)),
 * which is tabulated from the standoff up. Where R falls as the gap grows, as it does without a series capacitor, a warmer
 * winding floats lower. Beyond the largest R of the table the coil has come down. The root in R makes a table of R steep where
 * the voltage hardly carries the weight. What a gap asks of the supply is smooth, and its logarithm nearly straight: the gap
 * is read where
 *   log(I(g) |R + Rplate(g) + Rseries + i X(g)| / V)
 * passes zero, from four points of the table. Accuracy: 1e-4 of a gap (test).
 */
export class HeldVoltage {
  gap = 0;
  current = 0;
  plateResistance = 0;
  /** Whether it rests or is clamped at the standoff. */
  down = false;
  /** Ohm that the winding may gain before it is down; negative when it is. */
  margin = 0;
  private circuit: HeldCircuit = NO_CIRCUIT;
  private readonly gaps = new Float64Array(NODES);
  private readonly needed = new Float64Array(NODES);
  private readonly reactances = new Float64Array(NODES);
  private readonly excess = new Float64Array(POINTS);
  private readonly currents = new Float64Array(NODES);
  private readonly plates = new Float64Array(NODES);
  private count = 0;
  private restReactance = 0;
  private restPlate = 0;

  /** @param highest a gap that it does not float above, m; the standoff where it does not float */
  prepare(circuit: HeldCircuit, over: GapCoupling, highest: number): void {
    this.circuit = circuit;
    const { standoff, omega, freeInductance } = circuit;
    over.evaluate(standoff);
    this.restPlate = -omega * over.inductanceIm;
    this.restReactance = omega * (freeInductance + over.inductanceRe) + this.capacitive();
    this.count = 0;
    if (Number.isNaN(circuit.weight) || !(highest > standoff)) return;
    for (let n = 0; n < NODES; n++) {
      const fraction = n / (NODES - 1);
      const gap = standoff + (highest - standoff) * fraction * (0.3 + 0.7 * fraction);
      over.evaluate(gap);
      const square = (2 * circuit.weight) / over.slopeRe;
      const reactance = omega * (freeInductance + over.inductanceRe) + this.capacitive();
      const plate = -omega * over.inductanceIm;
      const resistive = (circuit.voltage * circuit.voltage) / square - reactance * reactance;
      this.gaps[n] = gap;
      this.reactances[n] = reactance;
      this.needed[n] = Math.sqrt(Math.max(0, resistive)) - plate - circuit.seriesResistance;
      this.currents[n] = Math.sqrt(square);
      this.plates[n] = plate;
      // no winding floats at a first point without resistance; at a later one it ends the table
      if (n > 0 || resistive > 0) this.count = n + 1;
      // higher, not even a winding without resistance would carry the weight
      if (!(resistive > 0)) break;
    }
  }

  /** Fills gap, current and plate resistance for a resistance of the winding, ohm. */
  at(resistance: number): void {
    const { needed, count, circuit } = this;
    // from above: what floats came from a cooler winding
    let n = count - 1;
    while (n >= 0 && needed[n]! < resistance) n--;
    this.down = n < 0;
    this.margin = count > 0 ? needed[0]! - resistance : -resistance;
    if (this.down) {
      const total = resistance + circuit.seriesResistance + this.restPlate;
      this.gap = circuit.standoff;
      this.current = circuit.voltage / modulus(total, this.restReactance);
      this.plateResistance = this.restPlate;
      return;
    }
    let points = Math.min(count, POINTS);
    let first = Math.max(0, Math.min(count - points, n - 1));
    this.fillExcess(resistance, first, points);
    // near resonance with a capacitor it may turn back
    if (!isAscending(this.excess, points)) {
      points = Math.min(count - n, 2);
      first = n;
      this.fillExcess(resistance, first, points);
    }
    this.gap = atZero(this.excess, this.gaps, first, points);
    this.current = atZero(this.excess, this.currents, first, points);
    this.plateResistance = atZero(this.excess, this.plates, first, points);
  }

  private fillExcess(resistance: number, first: number, points: number): void {
    const { circuit } = this;
    for (let k = 0; k < points; k++) {
      const total = resistance + circuit.seriesResistance + this.plates[first + k]!;
      const asked =
        (this.currents[first + k]! * modulus(total, this.reactances[first + k]!)) / circuit.voltage;
      this.excess[k] = Math.log(asked);
    }
  }

  private capacitive(): number {
    const { capacitance, omega } = this.circuit;
    return Number.isNaN(capacitance) ? 0 : -1 / (omega * capacitance);
  }
}

const NODES = 12;

/** Points of the table from which a value is read. */
const POINTS = 4;

function isAscending(x: Float64Array, points: number): boolean {
  for (let i = 1; i < points; i++) if (!(x[i]! > x[i - 1]!)) return false;
  return true;
}

/** Where x is zero, the polynomial in x through some points, y from `first` on: Lagrange's form. */
function atZero(x: Float64Array, y: Float64Array, first: number, points: number): number {
  let sum = 0;
  for (let i = 0; i < points; i++) {
    let weight = 1;
    for (let j = 0; j < points; j++) if (j !== i) weight *= x[j]! / (x[j]! - x[i]!);
    sum += weight * y[first + i]!;
  }
  return sum;
}

const NO_CIRCUIT: HeldCircuit = {
  voltage: 0,
  omega: 0,
  freeInductance: 0,
  seriesResistance: 0,
  capacitance: Number.NaN,
  weight: Number.NaN,
  standoff: 0,
};
