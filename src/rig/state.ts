import type { PlateLayer } from '../kernel/plate-reflection.ts';
import type { Winding } from '../kernel/winding.ts';
import type { Section } from '../kernel/winding-spectrum.ts';
import { MAX_LAYERS } from '../model/inputs.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { REASON, STATUS } from '../model/status.ts';

/**
 * What the laws know of the design in hand: its inputs, what earlier laws found, and the results so far. One object
 * per evaluator, filled anew for each design.
 */
export interface RigState {
  /** Inputs, SI; NaN where the study gives nothing. */
  slots: Float64Array;
  /** One value per quantity, SI; NaN where not applicable. */
  readonly results: Float64Array;
  status: number;
  reason: number;
  winding: Winding;
  readonly section: Section;
  readonly layers: PlateLayer[];
  readonly layerCount: number;
  omega: number;
  /** What must be carried, N; 0 where nothing floats. */
  weight: number;
  floats: boolean;
  freeInductance: number;
  /** At the standoff: coil and plate, ohm and H. */
  restResistance: number;
  restInductance: number;
  restSlopeRe: number;
  /** Dc resistance of the winding at 20 degC, ohm. */
  resistance20: number;
  /** Resistance of the winding at coil.at_temperature, ac, at the operating gap, ohm. */
  resistance: number;
  /** Operating point. */
  gap: number;
  current: number;
  plateResistance: number;
  /** Of coil and plate, ohm. */
  reactance: number;
}

export function createState(layerCount: number): RigState {
  return {
    slots: new Float64Array(0),
    results: new Float64Array(QUANTITIES.length),
    status: STATUS.failed,
    reason: REASON.none,
    winding: {
      outerRadius: 0,
      height: 0,
      length: 0,
      mass: 0,
      conductorArea: 0,
      coveredArea: 0,
      spaceFactor: 0,
      packing: 0,
    },
    section: { innerRadius: 0, outerRadius: 0, height: 0, turns: 0 },
    layers: Array.from({ length: MAX_LAYERS }, () => ({
      resistivity: 0,
      relativePermeability: 1,
      thickness: 0,
    })),
    layerCount,
    omega: 0,
    weight: 0,
    floats: false,
    freeInductance: 0,
    restResistance: 0,
    restInductance: 0,
    restSlopeRe: 0,
    resistance20: 0,
    resistance: 0,
    gap: 0,
    current: 0,
    plateResistance: 0,
    reactance: 0,
  };
}
