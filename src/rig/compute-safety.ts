import { type InsulationStress, insulationStress } from '../kernel/insulation.ts';
import { enamelBreakdown } from '../model/enamel-breakdown.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { Coil } from './coil.ts';
import type { RigState } from './state.ts';

const stress: InsulationStress = { voltsPerTurn: 0, betweenLayers: 0, toPlate: 0, margin: 0 };

/** Voltage across the winding's insulation. */
export function askSafety(rig: RigState): void {
  const { slots, results, coil } = rig;
  insulationStress(
    results[Q.voltage]!,
    highestToEarth(results),
    coil.turns,
    coil.count > 1 ? Number.NaN : coil.windings[0]!.input.layers,
    weakestFilm(coil),
    slots[SLOT.standoffBreakdown]!,
    slots[SLOT.standoff]!,
    stress,
  );
  results[Q.volts_per_turn] = stress.voltsPerTurn;
  results[Q.volts_between_layers] = stress.betweenLayers;
  results[Q.insulation_margin] = stress.margin;
}

/**
 * V rms that an end of the coil may have to earth, besides the coil's own voltage: a plug may be turned, so that the
 * capacitor stands in either lead, and the coil's end at the supply's or at the capacitor's voltage.
 */
function highestToEarth(results: Float64Array): number {
  const supply = results[Q.supply_voltage]!;
  const capacitor = results[Q.capacitor_voltage]!;
  return Number.isNaN(capacitor) ? supply : Math.max(supply, capacitor);
}

/** Breakdown of one enamel film of the weakest winding, peak V; NaN where one is not known. */
function weakestFilm(coil: Coil): number {
  let weakest = Number.POSITIVE_INFINITY;
  for (let w = 0; w < coil.count; w++) {
    const { input, insulationGrade } = coil.windings[w]!;
    weakest = Math.min(weakest, enamelBreakdown(input.wire, insulationGrade));
  }
  return weakest;
}
