import { FLOATS, SLOT } from '../model/inputs.ts';
import { ALL_ON_REQUEST, Q, QUANTITIES } from '../model/quantities.ts';
import { isEvaluated } from '../model/status.ts';
import type { Task } from '../model/study.ts';
import { createDesignReader } from '../rig/design.ts';
import { createEvaluator } from '../rig/evaluate.ts';
import { createGeometry } from '../rig/geometry.ts';
import { createLaws } from '../rig/laws.ts';
import { atOwnDrive } from '../rig/lift-curve.ts';
import { type LimitStanding, limitStandings } from '../words/limit-standing.ts';
import type { LiveStudy } from './live-data.ts';
import { niceCeiling } from './nice-ceiling.ts';

/** All that the page shows of one state, as plain data. SI. */
export interface RigView {
  readonly status: number;
  readonly reason: number;
  /** Inputs with their defaults. */
  readonly slots: Float64Array;
  /** One number per quantity; those on request are empty until the whole view is there. */
  readonly results: Float64Array;
  readonly limits: readonly LimitStanding[];
  /** In order of current; empty where nothing can be computed. */
  readonly curve: readonly CurvePoint[];
  /** Right end of the charts, A. */
  readonly top: number;
  /** Where the supply ends the rise, A; NaN where it has no limit, or none within the charts. */
  readonly supplyLimit: number;
  /** Whether quantities on request and statistics over tolerances are in it. */
  readonly isWhole: boolean;
}

export interface CurvePoint {
  readonly current: number;
  /** m above rest. */
  readonly height: number;
  /** s until the winding is at its thermal class; infinite where it never is, NaN without a thermal class. */
  readonly onTime: number;
}

/** Points of the curves. */
const POINTS = 32;
/** How far the charts go beyond the larger of drive and lift-off. */
const BEYOND = 1.25;
/** Just above lift-off, where the rising branch begins. */
const ABOVE = 1 + 1e-6;

export interface Viewer {
  /** Whether the plate's edge is resolved, which takes longer. */
  hasEdge(raw: Float64Array): boolean;
  /** Without quantities on request. */
  quick(raw: Float64Array): RigView;
  whole(raw: Float64Array): RigView;
}

/** Keeps its laws from state to state: what did not change is not computed again. */
export function createViewer(study: LiveStudy): Viewer {
  const raw = study.rig.slots.slice();
  const rig = { ...study.rig, slots: raw };
  const { derive, limits, objectives, tolerance, requested } = study;
  const bare: Task = { rig, vary: [], derive, limits, objectives };
  const reader = createDesignReader(bare);
  const geometry = createGeometry(rig.plateLayers, rig.windings);
  const laws = createLaws(rig.plateLayers, rig.windings);
  const evaluateBare = createEvaluator(bare);
  const evaluateWhole = createEvaluator({
    ...bare,
    ...(tolerance && { tolerance }),
    ...(requested && { requested }),
  });
  const driven = new Float64Array(raw.length);

  function at(current: number): void {
    driven[SLOT.driveCurrent] = current;
    driven[SLOT.driveVoltage] = Number.NaN;
    laws.evaluateToHeat(driven);
  }

  function curveUpTo(top: number, liftoff: number): CurvePoint[] {
    const currents = Array.from({ length: POINTS }, (_, i) => (top * (i + 1)) / POINTS);
    if (liftoff * ABOVE < top) currents.push(liftoff, liftoff * ABOVE);
    return currents
      .sort((a, b) => a - b)
      .map((current) => {
        at(current);
        const { results } = laws;
        return { current, height: results[Q.height]!, onTime: results[Q.coil_on_time]! };
      });
  }

  /** NaN where the supply has no limit. */
  function limitCurrent(): number {
    const slots = [SLOT.maxVoltage, SLOT.maxCurrent, SLOT.fuseRating];
    if (slots.every((slot) => Number.isNaN(driven[slot]!))) return Number.NaN;
    driven[SLOT.driveCurrent] = Number.NaN;
    driven[SLOT.driveVoltage] = Number.NaN;
    laws.evaluateToHeat(driven);
    const answered = isEvaluated(laws.status);
    return answered ? laws.results[Q.current]! : Number.NaN;
  }

  function compute(state: Float64Array, isWhole: boolean): RigView {
    raw.set(state);
    const none = new Float64Array(0);
    const row = (isWhole ? evaluateWhole : evaluateBare)({ first: 0, count: 1, values: none });
    reader.read(none, 0);
    const slots = reader.slots.slice();
    const results = new Float64Array(QUANTITIES.length).fill(Number.NaN);
    const point = isWhole ? atOwnDrive(rig, slots, ALL_ON_REQUEST) : null;
    results.set(point ? point.results : row.quantities);
    const current = results[Q.current]!;
    const status = row.status[0]!;
    const reason = row.reason[0]!;
    if (Number.isNaN(current)) {
      return {
        status,
        reason,
        slots,
        results,
        limits: [],
        curve: [],
        top: 0,
        supplyLimit: Number.NaN,
        isWhole,
      };
    }
    const liftoff = slots[SLOT.floats] === FLOATS.nothing ? Number.NaN : results[Q.liftoff_current]!;
    driven.set(slots);
    const supplyLimit = limitCurrent();
    const top = niceCeiling(
      BEYOND * Math.max(current, Number.isNaN(liftoff) ? 0 : Math.min(liftoff, 4 * current)),
    );
    const curve = curveUpTo(top, liftoff);
    return {
      status,
      reason,
      slots,
      results,
      limits: limitStandings(study, row, slots),
      curve,
      top,
      supplyLimit: supplyLimit <= top ? supplyLimit : Number.NaN,
      isWhole,
    };
  }

  return {
    hasEdge(state) {
      raw.set(state);
      reader.read(new Float64Array(0), 0);
      geometry.fill(reader.slots);
      return geometry.edge;
    },
    quick: (state) => compute(state, false),
    whole: (state) => compute(state, true),
  };
}
