import { type InsulationStress, insulationStress } from '../kernel/insulation.ts';
import { VisitorField } from '../kernel/visitor-field.ts';
import { enamelBreakdown } from '../model/enamel-breakdown.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';

const stress: InsulationStress = { voltsPerTurn: 0, betweenLayers: 0, toPlate: 0, margin: 0 };
const field = new VisitorField();

/** Voltage across the winding's insulation, and the field where a visitor stands. */
export function askSafety(rig: RigState): void {
  const { slots, results } = rig;
  insulationStress(
    results[Q.voltage]!,
    results[Q.supply_voltage]!,
    slots[SLOT.turns]!,
    slots[SLOT.layers]!,
    enamelBreakdown(slots[SLOT.wire]!, slots[SLOT.insulationGrade]!),
    slots[SLOT.standoffBreakdown]!,
    slots[SLOT.standoff]!,
    stress,
  );
  results[Q.volts_per_turn] = stress.voltsPerTurn;
  results[Q.volts_between_layers] = stress.betweenLayers;
  results[Q.insulation_margin] = stress.margin;

  const distance = slots[SLOT.visitorDistance]!;
  if (Number.isNaN(distance)) return;
  field.ask(rig.section, rig.layers, rig.layerCount, rig.omega, rig.gap, distance);
  results[Q.field_visitor] = rig.current * field.beside;
  results[Q.field_on_axis] = rig.current * field.onAxis;
}
