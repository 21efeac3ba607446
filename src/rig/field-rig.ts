import { FLOATS, SLOT } from '../model/inputs.ts';
import { REASON } from '../model/status.ts';
import type { Coil } from './coil.ts';
import { computePlateLayers } from './compute-plate-layers.ts';
import { createGeometry, type Geometry, MAGNETIC } from './geometry.ts';
import { createState, type RigState } from './state.ts';

/** What of a design decides about its field. */
export interface FieldRig {
  readonly geometry: Geometry;
  readonly state: RigState;
}

export function createFieldRig(plateLayers: number, windingCount: number): FieldRig {
  const geometry = createGeometry(plateLayers, windingCount);
  return { geometry, state: createState(geometry.coil, plateLayers) };
}

/** False where it cannot be built. */
export function fillFieldRig({ geometry, state }: FieldRig, slots: Float64Array): boolean {
  if (state.slots.length !== slots.length) state.slots = new Float64Array(slots.length);
  state.slots.set(slots);
  if (geometry.fill(state.slots) !== REASON.none) return false;
  state.omega = 2 * Math.PI * slots[SLOT.frequency]!;
  computePlateLayers(state);
  return true;
}

export function isMagnetic({ layers, layerCount }: RigState): boolean {
  for (let j = 0; j < layerCount; j++) if (layers[j]!.relativePermeability > MAGNETIC) return true;
  return false;
}

/** Whether two rigs differ in numbers alone that are coordinates. */
export function isAlike(one: FieldRig, other: FieldRig): boolean {
  if (one.geometry.edge !== other.geometry.edge) return false;
  for (let j = 0; j < one.state.layerCount; j++) {
    if (one.state.layers[j]!.relativePermeability !== other.state.layers[j]!.relativePermeability)
      return false;
  }
  return true;
}

export function isFloating({ slots }: RigState): boolean {
  return slots[SLOT.floats] !== FLOATS.nothing;
}

export function massOf({ geometry, state }: FieldRig): number {
  return state.slots[SLOT.floats] === FLOATS.plate ? geometry.plateMass : state.coil.mass;
}

/** Mass over the square of drive and turns: how little gap it gets, up to a factor that rigs share. */
export function pullOf(rig: FieldRig): number {
  const { slots, coil } = rig.state;
  const current = slots[SLOT.driveCurrent]!;
  const voltage = slots[SLOT.driveVoltage]!;
  // a current goes with the voltage over the square of the turns
  const drive = Number.isNaN(current) ? (Number.isNaN(voltage) ? 1 : voltage) / coil.turns ** 2 : current;
  return massOf(rig) / (drive * coil.turns) ** 2;
}

export function fitCoil(coil: Coil): void {
  coil.outerRadius = 0;
  coil.height = 0;
  for (let w = 0; w < coil.count; w++) {
    const { section } = coil.windings[w]!;
    coil.outerRadius = Math.max(coil.outerRadius, section.outerRadius);
    coil.height = Math.max(coil.height, section.offset + section.height);
  }
}
