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
 * which is tabulated from the standoff up and read backwards. Where R falls as the gap grows, as it does without a series
 * capacitor, a warmer winding floats lower. Beyond the largest R of the table the coil has come down.
 * Accuracy: 1e-4 of a gap, from three points of the table (test).
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
      // higher, not even a winding without resistance would carry the weight
      if (!(resistive > 0)) break;
      this.gaps[n] = gap;
      this.needed[n] = Math.sqrt(resistive) - plate - circuit.seriesResistance;
      this.currents[n] = Math.sqrt(square);
      this.plates[n] = plate;
      this.count = n + 1;
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
    // three neighbours, the middle one nearest
    const first = Math.max(0, Math.min(count - 3, n - 1));
    if (count < 3) {
      this.gap = this.gaps[n]!;
      this.current = this.currents[n]!;
      this.plateResistance = this.plates[n]!;
      return;
    }
    this.gap = through(needed, this.gaps, first, resistance);
    this.current = through(needed, this.currents, first, resistance);
    this.plateResistance = through(needed, this.plates, first, resistance);
  }

  private capacitive(): number {
    const { capacitance, omega } = this.circuit;
    return Number.isNaN(capacitance) ? 0 : -1 / (omega * capacitance);
  }
}

const NODES = 12;

/** The parabola through three points. */
function through(x: Float64Array, y: Float64Array, at: number, where: number): number {
  const [x0, x1, x2] = [x[at]!, x[at + 1]!, x[at + 2]!];
  const first = (y[at + 1]! - y[at]!) / (x1 - x0);
  const second = ((y[at + 2]! - y[at + 1]!) / (x2 - x1) - first) / (x2 - x0);
  return y[at]! + (where - x0) * (first + (where - x1) * second);
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
