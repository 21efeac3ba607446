import { REFERENCE_TEMPERATURE } from '../kernel/constants.ts';
import { type HeldCircuit, HeldVoltage } from '../kernel/held-voltage.ts';
import { LEAST_RESISTIVITY_RATIO } from '../kernel/resistivity.ts';
import { MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import { type HeatBodies, heatBodies } from './heat-bodies.ts';
import type { OperatingPoint } from './requested-law.ts';
import type { RigState } from './state.ts';

/** A coil floats at most this many times as high cold as at its operating point, or this much higher, m. */
const RISE = 1.5;
const HIGHER = 0.01;

/**
 * A design whose drive is left alone while it warms: warm bodies, and the current and gap that belong to their
 * temperatures. At a held current both stay; at a held voltage they follow the winding's resistance.
 */
export class HeatedDrive {
  readonly bodies: HeatBodies = heatBodies();
  gap = 0;
  current = 0;
  down = false;
  /** Ohm that the winding may gain before it has come down. */
  margin = Number.NaN;
  private readonly held = new HeldVoltage();
  private readonly dc20 = new Float64Array(MAX_WINDINGS);
  private readonly extra20 = new Float64Array(MAX_WINDINGS);
  private readonly circuit: HeldCircuit = {
    voltage: 0,
    omega: 0,
    freeInductance: 0,
    seriesResistance: 0,
    capacitance: Number.NaN,
    weight: Number.NaN,
    standoff: 0,
  };
  private point: OperatingPoint | null = null;

  /** The design at this operating point, without a load; leaves the coupling evaluated at its gap. */
  prepare(point: OperatingPoint): void {
    const { rig, model, over, resistance, voltageHeld } = point;
    const { results, coil } = rig;
    this.point = point;
    this.bodies.fill(rig, resistance, results[Q.plate_loss]!);
    for (let w = 0; w < coil.count; w++) {
      const dc20 = resistance.dc20[w]!;
      const dc = resistance.dc[w]!;
      this.dc20[w] = dc20;
      this.extra20[w] = ((resistance.ac[w]! - dc) * dc) / dc20;
    }
    this.gap = rig.gap;
    this.current = rig.current;
    this.down = rig.status !== STATUS.lifts;
    if (!voltageHeld) return;
    const { circuit } = this;
    const standoff = model.nearest;
    circuit.voltage = results[Q.supply_voltage]!;
    circuit.omega = model.omega;
    circuit.freeInductance = model.freeInductance;
    circuit.seriesResistance = model.seriesResistance;
    circuit.capacitance = model.seriesCapacitance;
    circuit.weight = model.floats ? model.weight : Number.NaN;
    circuit.standoff = standoff;
    const floating = rig.status === STATUS.lifts || isMild(rig);
    const highest = standoff + Math.max(RISE * (rig.gap - standoff), rig.gap - standoff + HIGHER);
    this.held.prepare(circuit, over, floating ? highest : standoff);
    over.evaluate(rig.gap);
  }

  /** Current, gap and losses at these mean temperatures of the windings, K, with the drive on. */
  drive(y: Float64Array): void {
    const { rig, resistance, voltageHeld } = this.point!;
    if (!voltageHeld) {
      this.bodies.drive(rig, resistance, this.current, this.gap, rig.results[Q.plate_loss]!);
      return;
    }
    let sum = 0;
    for (let w = 0; w < rig.coil.count; w++) {
      const { temperatureCoefficient } = rig.coil.windings[w]!;
      const ratio = Math.max(
        LEAST_RESISTIVITY_RATIO,
        1 + temperatureCoefficient * (y[w]! - REFERENCE_TEMPERATURE),
      );
      sum += this.dc20[w]! * ratio + this.extra20[w]! / ratio;
    }
    this.held.at(sum);
    this.gap = this.held.gap;
    this.current = this.held.current;
    this.down = this.held.down;
    this.margin = this.held.margin;
    const plateLoss = this.current * this.current * this.held.plateResistance;
    this.bodies.drive(rig, resistance, this.current, this.gap, plateLoss);
  }

  /** Nothing flows: what floated rests. */
  rest(): void {
    const { rig, resistance } = this.point!;
    this.bodies.drive(rig, resistance, 0, rig.slots[SLOT.standoff]!, 0);
  }
}

/** A coil that rests with the winding at its given temperature may float when it is cold. */
function isMild(rig: RigState): boolean {
  return rig.floats && rig.restSlopeRe > 0;
}
