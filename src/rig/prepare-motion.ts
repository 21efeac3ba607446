import { type MotionDrive, MotionRun, worstPhase } from '../kernel/motion/motion-run.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { REASONS, STATUS } from '../model/status.ts';
import type { RigTemplate } from '../model/study.ts';
import type { KeptPlates } from './kept-plates.ts';
import { createLaws } from './laws.ts';
import { createMovingRig } from './moving-rig.ts';
import { STEPS_PER_PERIOD } from './switch-on-motion.ts';

/** What is to be done with a rig; SI. */
export interface MotionRequest {
  /** Null: the operating supply voltage of the design's own drive, switched on at once. */
  readonly drive: Omit<MotionDrive, 'phase' | 'cutAt'> | null;
  readonly cutAt: number;
  /** rad; null: the worst is found. */
  readonly phase: number | null;
  /** Null: a two-hundredth of a period. */
  readonly step: number | null;
}

/** A rig at rest, ready to be driven. */
export interface PreparedMotion {
  readonly run: MotionRun;
  readonly drive: MotionDrive;
  readonly standoff: number;
  /** Where it floats in the end with the last drive, m; NaN where it rests. */
  readonly steadyGap: number;
  readonly mass: number;
  /** Above what floats at rest, m; NaN where the study gives none. */
  readonly headroom: number;
  /** What it takes to lift off, rms; NaN where the plate attracts. */
  readonly liftoffCurrent: number;
  readonly liftoffVoltage: number;
  /** Of the supply, Hz. */
  readonly frequency: number;
}

export interface MotionRefusal {
  readonly refused: string;
}

/** A step may be as long as this share of a period of the supply. */
const LONGEST_STEP = 1 / 40;
/** Samples a period that a table keeps. */
const SAMPLES_PER_PERIOD = 20;

/**
 * @param slots the design's inputs, SI, with their defaults; left as they are
 * @returns words where there is nothing to move
 */
export function prepareMotion(
  { plateLayers, windings }: Pick<RigTemplate, 'plateLayers' | 'windings'>,
  slots: Float64Array,
  request: MotionRequest,
  kept?: KeptPlates,
): PreparedMotion | MotionRefusal {
  const laws = createLaws(plateLayers, windings, [], undefined, kept);
  laws.evaluate(slots);
  if (laws.operatingPoint === null) {
    return { refused: `this design cannot be evaluated: ${REASONS[laws.reason]!.text}` };
  }
  if (laws.status === STATUS.clamped) return { refused: 'nothing floats in this design: it is clamped' };
  const omega = 2 * Math.PI * slots[SLOT.frequency]!;
  const period = (2 * Math.PI) / omega;
  const step = request.step ?? period / STEPS_PER_PERIOD;
  if (!(step <= LONGEST_STEP * period * (1 + 1e-9))) {
    return {
      refused: `a step of ${milliseconds(step)} is too long for ${slots[SLOT.frequency]!} Hz: at most ${milliseconds(LONGEST_STEP * period)}, a fortieth of a period; left out, it is ${milliseconds(period / STEPS_PER_PERIOD)}`,
    };
  }
  const drive: MotionDrive = {
    ...(request.drive ?? {
      quantity: 'voltage',
      from: 0,
      to: laws.results[Q.supply_voltage]!,
      rise: 0,
    }),
    cutAt: request.cutAt,
    phase: request.phase ?? 0,
  };
  const driven = slots.slice();
  driven[SLOT.driveCurrent] = drive.quantity === 'current' ? drive.to : Number.NaN;
  driven[SLOT.driveVoltage] = drive.quantity === 'voltage' ? drive.to : Number.NaN;
  laws.evaluate(driven);
  const point = laws.operatingPoint;
  if (point === null) {
    return { refused: `with this drive the design cannot be evaluated: ${REASONS[laws.reason]!.text}` };
  }
  const model = createMovingRig(point);
  if (model === null) {
    return {
      refused:
        'the plate is magnetic, or too fine to be resolved: its motion in time is not computed (bounce_growth over a wide magnetic plate is)',
    };
  }
  const isSwitched = drive.quantity === 'voltage' && drive.rise === 0;
  const phase = request.phase ?? (isSwitched ? worstPhase(model.rig, model.modes, drive, omega, step) : 0);
  const every = Math.max(1, Math.round(period / (SAMPLES_PER_PERIOD * step)));
  const phased = { ...drive, phase };
  return {
    run: new MotionRun(model.rig, model.modes, phased, omega, step, every),
    drive: phased,
    standoff: point.model.nearest,
    steadyGap: laws.status === STATUS.lifts ? point.rig.gap : Number.NaN,
    mass: point.model.mass,
    headroom: slots[SLOT.headroom]!,
    liftoffCurrent: laws.results[Q.liftoff_current]!,
    liftoffVoltage: laws.results[Q.liftoff_voltage]!,
    frequency: slots[SLOT.frequency]!,
  };
}

function milliseconds(seconds: number): string {
  return `${Number((seconds * 1e3).toPrecision(3))} ms`;
}
