import type { PlateLayer, PlateStack } from '../kernel/plate-reflection.ts';
import { MAX_LAYERS } from '../model/inputs.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { REASON, STATUS } from '../model/status.ts';
import type { Coil } from './coil.ts';

/**
 * What the laws know of the design in hand: its inputs, what earlier laws found, and the results so far. One object
 * per evaluator, filled anew for each design.
 */
/** A plate layer; T at which it saturates, NaN: linear. */
export interface RigLayer extends PlateLayer {
  saturation: number;
}

export interface RigState extends PlateStack {
  /** Inputs, SI; NaN where the study gives nothing. */
  slots: Float64Array;
  /** One value per quantity, SI; NaN where not applicable. */
  readonly results: Float64Array;
  status: number;
  reason: number;
  readonly coil: Coil;
  readonly layers: RigLayer[];
  readonly layerCount: number;
  omega: number;
  /** What floats: of FLOATS. */
  floating: number;
  floats: boolean;
  /** Mass of what floats, kg, and what must be carried, N. */
  mass: number;
  weight: number;
  freeInductance: number;
  /** At the standoff: coil and plate, ohm and H. */
  restResistance: number;
  /** Of the windings alone, ohm. */
  restWindingResistance: number;
  restInductance: number;
  restSlopeRe: number;
  /** Resistance of the windings at coil.at_temperature, ac, at the operating gap, ohm. */
  resistance: number;
  /** Operating point. */
  gap: number;
  current: number;
  plateResistance: number;
  /** Of coil and plate, ohm. */
  reactance: number;
}

export function createState(coil: Coil, layerCount: number): RigState {
  return {
    slots: new Float64Array(0),
    results: new Float64Array(QUANTITIES.length),
    status: STATUS.failed,
    reason: REASON.none,
    coil,
    layers: Array.from({ length: MAX_LAYERS }, () => ({
      resistivity: 0,
      relativePermeability: 1,
      saturation: Number.NaN,
      thickness: 0,
    })),
    layerCount,
    omega: 0,
    floating: 0,
    floats: false,
    mass: 0,
    weight: 0,
    freeInductance: 0,
    restResistance: 0,
    restWindingResistance: 0,
    restInductance: 0,
    restSlopeRe: 0,
    resistance: 0,
    gap: 0,
    current: 0,
    plateResistance: 0,
    reactance: 0,
  };
}
