import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { chatterCurrent, liftoffCurrent } from '../kernel/lift.ts';
import { SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES } from '../model/quantities.ts';
import { REASON, STATUS } from '../model/status.ts';
import { UNITS } from '../model/units.ts';
import { computeCoilHeat } from './compute-coil-heat.ts';
import { computeExposure } from './compute-exposure.ts';
import { computeOperatingPoint } from './compute-operating-point.ts';
import { computePlateHeat } from './compute-plate-heat.ts';
import { computePlateLayers } from './compute-plate-layers.ts';
import { computeReleases } from './compute-releases.ts';
import { computeSafety } from './compute-safety.ts';
import { computeSupply } from './compute-supply.ts';
import { computeWinding } from './compute-winding.ts';
import { DiscPlates } from './disc-plates.ts';
import { CHECKED, createGeometry, MAGNETIC } from './geometry.ts';
import { Operation } from './operate.ts';
import type { OperatingPoint } from './requested-law.ts';
import { createRequestedLaws } from './requested-laws.ts';
import { createState, type RigState } from './state.ts';
import { WidePlate } from './wide-plate.ts';
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
  /** The coil over its plate, for the design last evaluated; null where it was ruled out. */
  readonly coupling: GapCoupling | null;
  /** The design last evaluated at its operating point, for laws on request; null where it has none. */
  readonly operatingPoint: OperatingPoint | null;
  /** Loss per area of a wide plate under the design last evaluated, W/m2 (see wide-plate-heat). */
  wideLossDensity(gap: number, current: number, radii: Float64Array, out: Float64Array): void;
  /** Evaluates every law for the design whose inputs these are. */
  evaluate(slots: Float64Array): void;
}

/** Gaps up to this many outer radii are resolved from the start; a rig that floats higher is evaluated again. */
const USUAL_REACH = 2.5;

/** Codes of `plate_model`. */
const PLATE_MODEL = Object.freeze({ wide: 0, disc: 1 });

/**
 * @param windingCount how many windings the study lists; 0 where the coil itself is the one winding
 * @param requested quantities on request that are wanted, too
 */
export function createLaws(plateLayers: number, windingCount = 0, requested: readonly number[] = []): Laws {
  const geometry = createGeometry(plateLayers, windingCount);
  const { coil } = geometry;
  const rig = createState(coil, plateLayers);
  const { results, layers } = rig;
  const wide = new WidePlate();
  const discs = new DiscPlates();
  const resistance = new WindingResistance();
  const operation = new Operation(wide.coupling);
  const requestedLaws = createRequestedLaws(requested);
  let coupling: GapCoupling | null = null;

  return {
    results,
    get status() {
      return rig.status;
    },
    get reason() {
      return rig.reason;
    },
    get coupling() {
      return coupling;
    },
    wideLossDensity(gap, current, radii, out) {
      wide.lossDensity(coil, rig, { gap, current }, radii, out);
    },
    get operatingPoint() {
      const answered = rig.status !== STATUS.impossible && rig.status !== STATUS.failed;
      return coupling !== null && answered ? operatingPoint(coupling) : null;
    },
    evaluate,
  };

  function evaluate(slots: Float64Array): void {
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
    coupling = overPlate(slots);
    if (coupling === null) {
      rig.status = STATUS.failed;
      rig.reason = REASON.edgeUnresolved;
      return;
    }
    const liftoff = computeAtRest(slots, coupling);
    if (!Number.isFinite(rig.restResistance + rig.restInductance + rig.restSlopeRe)) {
      refuse(rig);
      return;
    }
    if (!computeDrive(slots, coupling, liftoff)) return;
    computeOperatingPoint(rig, coupling, operation);
    results[Q.plate_flux_density] = rig.current * wide.peakMagneticFlux(coil, rig, rig.gap);
    computeSupply(rig);
    const plateTemperature = computePlateHeat(rig, geometry.plateMass);
    computeCoilHeat(rig, resistance, plateTemperature);
    computeSafety(rig, wide);
    computeExposure(rig);
    computeReleases(rig);
    if (requestedLaws.length > 0) {
      const point = operatingPoint(coupling);
      for (const law of requestedLaws) law(point);
    }
    refuseInfinite(rig);
  }

  function operatingPoint(over: GapCoupling): OperatingPoint {
    over.evaluate(rig.gap);
    return {
      rig,
      over,
      voltageHeld: operation.voltageHeld,
      respond: () => (geometry.edge ? discs.respond(rig.gap) : wide.respond(layers, plateLayers, rig.gap)),
      modes: () => {
        if (layers.slice(0, plateLayers).some((layer) => layer.relativePermeability > MAGNETIC)) return null;
        return geometry.edge ? discs.modes() : discs.wideModes(coil, rig, rig.slots[SLOT.standoff]!);
      },
    };
  }

  /**
   * The coil over its plate. The wide plate is prepared in either case: the free inductance and the field inside the
   * winding come from it.
   */
  function overPlate(slots: Float64Array): GapCoupling | null {
    const standoff = slots[SLOT.standoff]!;
    wide.prepare(coil, rig, standoff, usualReach(standoff));
    rig.freeInductance = wide.freeInductance;
    results[Q.plate_model] = geometry.edge ? PLATE_MODEL.disc : PLATE_MODEL.wide;
    if (!geometry.edge) return wide.coupling;
    const hole = slots[SLOT.plateInnerRadius]!;
    const inner = Number.isNaN(hole) ? 0 : hole;
    return discs.prepare(coil, rig, slots[SLOT.plateRadius]!, inner, standoff);
  }

  /** The rig at its standoff. Returns the lift-off current, NaN where the plate attracts. */
  function computeAtRest(slots: Float64Array, over: GapCoupling): number {
    const standoff = slots[SLOT.standoff]!;
    over.evaluate(standoff);
    rig.resistance = resistance.at(rig, wide, standoff);
    rig.restResistance = rig.resistance - rig.omega * over.inductanceIm;
    rig.restInductance = rig.freeInductance + over.inductanceRe;
    rig.restSlopeRe = over.slopeRe;
    const liftoff = liftoffCurrent(rig.weight, over.slopeRe);
    results[Q.inductance_free] = rig.freeInductance;
    results[Q.inductance_rest] = rig.restInductance;
    if (rig.floats) {
      results[Q.chatter_current] = chatterCurrent(rig.weight, over.slopeRe, over.slopeIm);
      results[Q.liftoff_current] = liftoff;
      results[Q.liftoff_voltage] = liftoff * Math.hypot(rig.restResistance, rig.omega * rig.restInductance);
    }
    return liftoff;
  }

  /**
   * Current and gap. The winding's ac resistance depends a little on the gap: at a given voltage the gap is found
   * with the resistance at the standoff, then once more with the resistance there (what is left is below 1e-6).
   * False when there is no operating point.
   */
  function computeDrive(slots: Float64Array, over: GapCoupling, liftoff: number): boolean {
    const standoff = slots[SLOT.standoff]!;
    if (!findGap(standoff, over, liftoff)) return false;
    if (rig.status === STATUS.lifts) {
      rig.resistance = resistance.at(rig, wide, rig.gap);
      if (operation.voltageHeld && !findGap(standoff, over, liftoff)) return false;
    }
    results[Q.resistance] = rig.resistance;
    over.evaluate(rig.gap);
    return true;
  }

  /** The nodes of a wide plate are laid anew, finer at small k, for the few rigs that float very high. */
  function findGap(standoff: number, over: GapCoupling, liftoff: number): boolean {
    const farthest = Math.max(standoff, CHECKED.gap.maximum);
    const reach = geometry.edge ? farthest : usualReach(standoff);
    const monotone = liftFallsWithGap();
    if (operation.solve(rig, over, rig.resistance, liftoff, reach, monotone)) return true;
    if (geometry.edge) return false;
    wide.prepare(coil, rig, standoff, 1.5 * farthest);
    return operation.solve(rig, over, rig.resistance, liftoff, 1.5 * farthest, monotone);
  }

  /** Over a non-magnetic plate that covers the coil; under a smaller disc, or over iron, lift may first rise. */
  function liftFallsWithGap(): boolean {
    for (let j = 0; j < plateLayers; j++) if (layers[j]!.relativePermeability > MAGNETIC) return false;
    return !geometry.edge || rig.slots[SLOT.plateRadius]! >= coil.outerRadius;
  }

  function usualReach(standoff: number): number {
    return Math.max(1.5 * standoff, USUAL_REACH * coil.outerRadius);
  }
}

/** Times may be infinite: a limit never reached. Anything else that is, is no answer. */
const FINITE = QUANTITIES.filter(({ unit }) => unit !== UNITS.s).map(({ index }) => index);

function refuseInfinite(rig: RigState): void {
  for (const index of FINITE) {
    if (Math.abs(rig.results[index]!) === Number.POSITIVE_INFINITY) {
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
