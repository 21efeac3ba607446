import type { FieldGrid, FieldPhasors } from '../kernel/field-grid.ts';
import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES } from '../model/quantities.ts';
import { isEvaluated, REASON, STATUS } from '../model/status.ts';
import { UNITS } from '../model/units.ts';
import { CoilOverPlate, type Interpolated } from './coil-over-plate.ts';
import { computeExposure, createExposureWork } from './compute-exposure.ts';
import { computeHeat, createHeatWork } from './compute-heat.ts';
import { computeOperatingPoint } from './compute-operating-point.ts';
import { computePan } from './compute-pan.ts';
import { computePlateLayers } from './compute-plate-layers.ts';
import { computeReleases } from './compute-releases.ts';
import { computeSafety, createSafetyWork } from './compute-safety.ts';
import { computeStock } from './compute-stock.ts';
import { computeSupply, createSupplyWork } from './compute-supply.ts';
import { computeTransformer } from './compute-transformer.ts';
import { computeWinding } from './compute-winding.ts';
import { DriveSolver } from './drive-solver.ts';
import { createGeometry } from './geometry.ts';
import type { KeptPlates } from './kept-plates.ts';
import { EVERY_LAW, type NeededLaws } from './needed-laws.ts';
import { ReelCutting } from './reel-cutting.ts';
import type { OperatingPoint } from './requested-law.ts';
import { createRequestedLaws } from './requested-laws.ts';
import { createRigModel } from './rig-model.ts';
import { SaturatedDrive } from './saturated-drive.ts';
import { SidewaysPlates } from './sideways-plates.ts';
import { createState, type RigState } from './state.ts';
import { WindingResistance } from './winding-resistance.ts';

/**
 * One design -> every quantity: the order in which the laws are evaluated. Working arrays are used again from design to
 * design; a design's numbers never depend on what was evaluated before.
 */
export interface Laws {
  /** One value per quantity of the last design evaluated, SI; NaN where not applicable. */
  readonly results: Float64Array;
  /** Codes of STATUSES and REASONS for the last design evaluated. */
  readonly status: number;
  readonly reason: number;
  /** What alternating current adds to the windings' resistance, of that resistance. */
  readonly addedShare: number;
  /** The coil over its plate, for the design last evaluated; null where it was ruled out. */
  readonly coupling: GapCoupling | null;
  /** The design last evaluated at its operating point, for laws on request; null where it has none. */
  readonly operatingPoint: OperatingPoint | null;
  /** Loss per area of the plate under the design last evaluated, W/m2 (see wide-plate-heat and disc-coupling). */
  lossDensity(gap: number, current: number, radii: Float64Array, out: Float64Array): void;
  /** Flux density and currents under the design last evaluated, at the points of a grid (see wide-field). */
  field(gap: number, current: number, grid: FieldGrid): FieldPhasors;
  /** How many coils over plates will come back much later, as far as is known. */
  expect(pairs: number): void;
  /** Evaluates every law that is needed for the design whose inputs these are. */
  evaluate(slots: Float64Array): void;
  /** The same with coil and plate interpolated, as far as that goes: a rig beyond it is evaluated exactly. */
  evaluateNear(slots: Float64Array, near: Interpolated): void;
  /** The same up to the operating point, the supply and the heat: curves need no more of their many points. */
  evaluateToHeat(slots: Float64Array): void;
}

/**
 * @param windingCount how many windings the study lists; 0 where the coil itself is the one winding
 * @param requested quantities on request that are wanted, too
 * @param needed laws that others do not need are left out where nobody reads their quantities
 */
export function createLaws(
  plateLayers: number,
  windingCount = 0,
  requested: readonly number[] = [],
  needed: NeededLaws = EVERY_LAW,
  kept?: KeptPlates,
): Laws {
  const geometry = createGeometry(plateLayers, windingCount);
  const rig = createState(geometry.coil, plateLayers);
  const { results } = rig;
  const overPlate = new CoilOverPlate(rig, geometry, kept?.modes);
  const resistance = new WindingResistance();
  const solver = new DriveSolver(rig, overPlate, resistance);
  const supplyWork = createSupplyWork();
  const heatWork = createHeatWork();
  const safetyWork = createSafetyWork();
  const exposureWork = createExposureWork();
  const sideways = new SidewaysPlates(kept?.sideways);
  const saturatedDrive = new SaturatedDrive(rig, overPlate, solver);
  const requestedLaws = createRequestedLaws(requested);
  const reels = new ReelCutting();
  let coupling: GapCoupling | null = null;

  return {
    results,
    get status() {
      return rig.status;
    },
    get reason() {
      return rig.reason;
    },
    get addedShare() {
      return resistance.addedShare(rig.coil.count);
    },
    get coupling() {
      return coupling;
    },
    lossDensity: (gap, current, radii, out) => overPlate.lossDensity({ gap, current }, radii, out),
    field: (gap, current, grid) => overPlate.field({ gap, current }, grid),
    get operatingPoint() {
      return coupling !== null && isEvaluated(rig.status) ? operatingPoint(coupling) : null;
    },
    expect: (pairs) => overPlate.wide.expect(pairs),
    evaluate: (slots) => evaluate(slots, true),
    evaluateNear,
    evaluateToHeat: (slots) => evaluate(slots, false),
  };

  function evaluateNear(slots: Float64Array, near: Interpolated): void {
    overPlate.interpolated = near;
    evaluate(slots, true);
    overPlate.interpolated = null;
    // it floats beyond what was interpolated, or nowhere
    if (rig.status === STATUS.failed) evaluate(slots, true);
  }

  function evaluate(slots: Float64Array, isWhole: boolean): void {
    results.fill(Number.NaN);
    rig.slots = slots;
    coupling = null;
    rig.reason = geometry.fill(slots);
    if (rig.reason !== REASON.none) {
      rig.status = STATUS.impossible;
      return;
    }
    computeWinding(rig, geometry);
    resistance.prepare(rig);
    computePlateLayers(rig);
    coupling = overPlate.prepare();
    if (coupling === null) {
      rig.status = STATUS.failed;
      rig.reason = REASON.edgeUnresolved;
      return;
    }
    const liftoff = solver.computeAtRest(coupling);
    if (!Number.isFinite(rig.restResistance + rig.restInductance + rig.restSlopeRe)) {
      refuse(rig);
      return;
    }
    if (!solver.computeDrive(coupling, liftoff)) return;
    if (overPlate.saturates) {
      coupling = saturatedDrive.solve();
      if (coupling === null) {
        if (rig.reason === REASON.notFinite) refuse(rig);
        return;
      }
    }
    computeOperatingPoint(rig, coupling, solver.operation);
    const { wide } = overPlate;
    if (needed.circulation) results[Q.strand_circulation] = resistance.circulationShare(rig.coil, rig.omega);
    results[Q.plate_flux_density] = rig.current * wide.peakMagneticFlux(rig.coil, rig, rig.gap);
    overPlate.describeSaturation(results);
    computeSupply(rig, supplyWork);
    if (needed.heat) computeHeat(rig, resistance, heatWork);
    if (isWhole) computeRest(coupling);
    refuseInfinite(rig);
  }

  function computeRest(over: GapCoupling): void {
    if (!rig.floats) computePan(rig, geometry.plateMass);
    if (needed.insulation) computeSafety(rig, overPlate.wide, safetyWork);
    if (needed.exposure) computeExposure(rig, exposureWork);
    computeReleases(rig);
    computeTransformer(rig);
    if (needed.stock) computeStock(rig, reels);
    if (requestedLaws.length === 0) return;
    const point = operatingPoint(over);
    for (const law of requestedLaws) law(point);
  }

  function operatingPoint(over: GapCoupling): OperatingPoint {
    over.evaluate(rig.gap);
    return {
      rig,
      over,
      model: createRigModel(rig, over, overPlate, resistance),
      resistance,
      sideways,
      voltageHeld: solver.operation.voltageHeld,
      respond: () => overPlate.respond(rig.gap),
      modes: (farthest) => overPlate.modes(rig.slots[SLOT.standoff]!, farthest),
    };
  }
}

/** Times may be infinite: a limit never reached. Anything else that is, is no answer. */
const FINITE = Int32Array.from(
  QUANTITIES.filter(({ unit }) => unit !== UNITS.s),
  ({ index }) => index,
);

function refuseInfinite(rig: RigState): void {
  const { results } = rig;
  const finite = FINITE;
  for (let i = 0; i < finite.length; i++) {
    if (Math.abs(results[finite[i]!]!) === Number.POSITIVE_INFINITY) {
      refuse(rig);
      return;
    }
  }
}

function refuse(rig: RigState): void {
  rig.results.fill(Number.NaN);
  rig.status = STATUS.failed;
  rig.reason = REASON.notFinite;
}
