import { asymmetricPeakFactor, breakerTimes, magneticTrip } from '../kernel/breaker.ts';
import { FUSE_KIND, type FuseTimes, fuseTimes } from '../kernel/fuse.ts';
import { averageForce } from '../kernel/lift.ts';
import { type PowerFactorCapacitors, powerFactorCapacitors } from '../kernel/power-factor.ts';
import {
  currentAtVoltage,
  firstLimit,
  isBeyond,
  type SupplyCircuit,
  type SupplyPoint,
  seriesReactance,
  supplyAt,
  supplyLoading,
} from '../kernel/supply.ts';
import { BEYOND_SUPPLY, FUSE_KINDS, FUSE_SIDES, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { REASON } from '../model/status.ts';
import type { RigState } from './state.ts';

/** Working storage of `computeSupply`; one set an evaluator. */
export interface SupplyWork {
  readonly circuit: SupplyCircuit;
  readonly point: SupplyPoint;
  readonly times: FuseTimes;
  readonly capacitors: PowerFactorCapacitors;
}

export function createSupplyWork(): SupplyWork {
  return {
    circuit: {
      omega: 0,
      seriesResistance: 0,
      seriesCapacitance: Number.NaN,
      lineVoltage: Number.NaN,
      maxVoltage: Number.NaN,
      maxCurrent: Number.NaN,
      fuseRating: Number.NaN,
      fuseOnLine: false,
    },
    point: {
      current: 0,
      supplyVoltage: 0,
      capacitorVoltage: 0,
      apparentPower: 0,
      lineCurrent: 0,
      fuseCurrent: 0,
      fuseMargin: 0,
    },
    times: { holds: 0, blows: 0 },
    capacitors: {
      parallel: 0,
      parallelVoltage: 0,
      series: 0,
      seriesVoltage: 0,
      compensatedCurrent: 0,
      compensatedVoltage: 0,
    },
  };
}

/** The supply at the operating point: voltages, line current, fuse, switching on, power-factor capacitor. */
export function computeSupply(rig: RigState, work: SupplyWork): void {
  const { slots, results, omega, current } = rig;
  const { circuit, point, times, capacitors } = work;
  circuit.omega = omega;
  circuit.seriesResistance = slots[SLOT.seriesResistance]!;
  circuit.seriesCapacitance = slots[SLOT.seriesCapacitance]!;
  circuit.lineVoltage = slots[SLOT.lineVoltage]!;
  circuit.maxVoltage = slots[SLOT.maxVoltage]!;
  circuit.maxCurrent = slots[SLOT.maxCurrent]!;
  circuit.fuseRating = slots[SLOT.fuseRating]!;
  circuit.fuseOnLine = slots[SLOT.fuseSide] === FUSE_SIDES.line;

  const resistance = rig.resistance + rig.plateResistance;
  supplyAt(circuit, current, resistance, rig.reactance, point);
  results[Q.supply_voltage] = point.supplyVoltage;
  results[Q.capacitor_voltage] = point.capacitorVoltage;
  results[Q.line_current] = point.lineCurrent;
  results[Q.fuse_margin] = point.fuseMargin;
  const limit = firstLimit(circuit, point);
  const loading = supplyLoading(circuit, point);
  results[Q.first_limit] = limit;
  results[Q.supply_loading] = loading;
  if (isBeyond(loading) && slots[SLOT.beyondSupply] !== BEYOND_SUPPLY.allowed) refuse(rig, limit);
  if (!Number.isNaN(point.fuseMargin)) {
    const code = slots[SLOT.fuseKind]!;
    const kind = code === FUSE_KINDS.T ? FUSE_KIND['T sheet 3'] : FUSE_KIND.gG;
    if (code >= FUSE_KINDS.B) breakerTimes(code - FUSE_KINDS.B, circuit.fuseRating, point.fuseCurrent, times);
    else fuseTimes(kind, circuit.fuseRating, point.fuseCurrent, times);
    results[Q.fuse_holds] = times.holds;
    results[Q.fuse_blows] = times.blows;
  }

  const surge = currentAtVoltage(
    circuit,
    point.supplyVoltage,
    rig.restResistance,
    omega * rig.restInductance,
  );
  results[Q.switch_on_current] = surge;
  if (Number.isNaN(circuit.seriesCapacitance)) computeFirstPeak(rig, surge, work);
  if (rig.floats) {
    results[Q.switch_on_lift_over_weight] = averageForce(surge, rig.restSlopeRe) / rig.weight;
  }

  powerFactorCapacitors(
    resistance + circuit.seriesResistance,
    rig.reactance + seriesReactance(circuit),
    current,
    omega,
    capacitors,
  );
  results[Q.pf_correction_capacitance] = capacitors.parallel;
  results[Q.pf_correction_capacitor_voltage] = capacitors.parallelVoltage;
  results[Q.pf_correction_current] = capacitors.compensatedCurrent;
}

/** The first cycle when the transformer, set to its voltage, is switched on at the worst instant. */
function computeFirstPeak(
  { slots, results, omega, restResistance, restInductance }: RigState,
  surge: number,
  { circuit, point }: SupplyWork,
): void {
  const factor = asymmetricPeakFactor(restResistance + circuit.seriesResistance, omega * restInductance);
  const peak = Math.SQRT2 * surge * factor;
  results[Q.switch_on_peak] = peak;
  const code = slots[SLOT.fuseKind]!;
  if (!(code >= FUSE_KINDS.B)) return;
  const lineRatio = circuit.fuseOnLine ? point.supplyVoltage / circuit.lineVoltage : 1;
  const trips = magneticTrip(code - FUSE_KINDS.B, circuit.fuseRating, peak * lineRatio);
  if (!Number.isNaN(circuit.fuseRating * lineRatio)) results[Q.switch_on_trips] = trips;
}

/** What rests for want of current would need even more; a rig that is attracted or jumps keeps that reason. */
function refuse(rig: RigState, limit: number): void {
  if (rig.reason === REASON.none || rig.reason === REASON.weak) rig.reason = BEYOND_REASONS[limit]!;
}

/** By code of FIRST_LIMIT. */
const BEYOND_REASONS = [REASON.none, REASON.beyondVoltage, REASON.beyondCurrent, REASON.beyondFuse] as const;
