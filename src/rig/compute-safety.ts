import { type InsulatedWinding, type InsulationStress, insulationStress } from '../kernel/insulation.ts';
import { type EarthedCircuit, voltageToEarth } from '../kernel/voltage-to-earth.ts';
import { enamelBreakdown } from '../model/enamel-breakdown.ts';
import { ISOLATED, MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { Coil } from './coil.ts';
import type { RigState } from './state.ts';
import type { WidePlate } from './wide-plate.ts';

/** Working storage of `computeSafety`; one set an evaluator. */
export interface SafetyWork {
  readonly winding: InsulatedWinding;
  readonly stress: InsulationStress;
  readonly circuit: EarthedCircuit;
  /** By winding: a film's breakdown, and the wire and grade that it follows from; wires vary less often than coils. */
  readonly films: Float64Array;
}

export function createSafetyWork(): SafetyWork {
  return {
    winding: {
      coilVoltage: 0,
      toEarth: Number.NaN,
      turns: 0,
      layers: Number.NaN,
      unevenness: 1,
      filmBreakdown: Number.NaN,
      standoffBreakdown: Number.NaN,
      standoff: 0,
      lineVoltage: Number.NaN,
    },
    stress: { voltsPerTurn: 0, betweenLayers: 0, margin: 0, impulseMargin: 0 },
    circuit: {
      current: 0,
      coilResistance: 0,
      coilReactance: 0,
      seriesResistance: 0,
      seriesReactance: 0,
      lineVoltage: Number.NaN,
      isolated: false,
    },
    films: new Float64Array(FILM * MAX_WINDINGS).fill(Number.NaN),
  };
}

/** Voltage across the winding's insulation. */
export function computeSafety(rig: RigState, wide: WidePlate, work: SafetyWork): void {
  const { winding, stress, circuit } = work;
  const { slots, results, coil } = rig;
  const { input, section } = coil.windings[0]!;
  const layers = coil.count > 1 ? Number.NaN : input.layers;
  const toEarth = computeVoltageToEarth(rig, circuit);
  results[Q.voltage_to_earth] = toEarth;
  const isLayered = layers > 1 && section.offset === 0;
  winding.coilVoltage = results[Q.voltage]!;
  winding.toEarth = toEarth;
  winding.turns = coil.turns;
  winding.layers = layers;
  winding.unevenness = isLayered
    ? wide.layerUnevenness(section, layers, rig.gap, rig.restWindingResistance, rig.omega)
    : 1;
  winding.filmBreakdown = weakestFilm(coil, work.films);
  winding.standoffBreakdown = slots[SLOT.standoffBreakdown]!;
  winding.standoff = slots[SLOT.standoff]!;
  winding.lineVoltage = slots[SLOT.lineVoltage]!;
  insulationStress(winding, stress);
  results[Q.volts_per_turn] = stress.voltsPerTurn;
  results[Q.volts_between_layers] = stress.betweenLayers;
  results[Q.insulation_margin] = stress.margin;
  results[Q.impulse_margin] = stress.impulseMargin;
}

function computeVoltageToEarth(
  { slots, current, omega, resistance, plateResistance, reactance }: RigState,
  circuit: EarthedCircuit,
): number {
  const capacitance = slots[SLOT.seriesCapacitance]!;
  circuit.current = current;
  circuit.coilResistance = resistance + plateResistance;
  circuit.coilReactance = reactance;
  circuit.seriesResistance = orZero(slots[SLOT.seriesResistance]!);
  circuit.seriesReactance = Number.isNaN(capacitance) ? 0 : -1 / (omega * capacitance);
  circuit.lineVoltage = slots[SLOT.lineVoltage]!;
  circuit.isolated = slots[SLOT.isolated] === ISOLATED.true;
  return voltageToEarth(circuit);
}

function orZero(resistance: number): number {
  return Number.isNaN(resistance) ? 0 : resistance;
}

/** Breakdown of one enamel film of the weakest winding, peak V; NaN where one is not known. */
function weakestFilm(coil: Coil, films: Float64Array): number {
  let weakest = Number.POSITIVE_INFINITY;
  for (let w = 0; w < coil.count; w++) {
    const { input, insulationGrade } = coil.windings[w]!;
    const at = FILM * w;
    if (films[at] !== input.wire || films[at + 1] !== insulationGrade) {
      films[at] = input.wire;
      films[at + 1] = insulationGrade;
      films[at + 2] = enamelBreakdown(input.wire, insulationGrade);
    }
    weakest = Math.min(weakest, films[at + 2]!);
  }
  return weakest;
}

/** Numbers of a film. */
const FILM = 3;
