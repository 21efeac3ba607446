import { readBounce } from '../kernel/motion/bounce.ts';
import { settlingTime } from '../kernel/motion/settling.ts';
import type { PreparedMotion } from './prepare-motion.ts';
import { SETTLED } from './switch-on-motion.ts';

/** A run in numbers, as far as it has come. SI; NaN where not applicable. */
export interface MotionSummary {
  /** How long it was watched, s. */
  readonly seconds: number;
  readonly everLifted: boolean;
  /** What it takes to lift off, rms. */
  readonly liftoffCurrent: number;
  readonly liftoffVoltage: number;
  /** It flew out of the range that is computed. */
  readonly lost: boolean;
  /** Heights over rest. */
  readonly highest: number;
  readonly highestTime: number;
  readonly steadyHeight: number;
  readonly overshoot: number;
  /** Of the headroom, what is left at the highest point; negative: it hits. */
  readonly clearance: number;
  readonly bounceFrequency: number;
  /** 1/s */
  readonly bounceGrowth: number;
  /** Infinity: it has not settled while it was watched. NaN where it does not float in the end. */
  readonly settlingTime: number;
  readonly peakCurrent: number;
  readonly peakCurrentTime: number;
  /** Hardest landing, and its energy in J. */
  readonly landingSpeed: number;
  readonly landingTime: number;
  readonly landingEnergy: number;
}

/** What must pass before a bounce is read: the jump itself is not small, s. */
const JUMP = 0.3;

export function summariseMotion(prepared: PreparedMotion): MotionSummary {
  const { run, drive, standoff, steadyGap, mass, headroom, frequency } = prepared;
  const { gaps, step, time } = run;
  const end = Math.min(time, drive.cutAt);
  // what comes after a cut is a fall, no bounce
  const powered = gaps.slice(0, Math.round(end / step) + 1);
  const bounce = readBounce(powered, step, frequency, drive.rise + JUMP);
  const height = run.highest - standoff;
  const isSteady = !Number.isNaN(steadyGap);
  return {
    seconds: time,
    everLifted: run.highest > standoff,
    liftoffCurrent: prepared.liftoffCurrent,
    liftoffVoltage: prepared.liftoffVoltage,
    lost: run.lost,
    highest: height,
    highestTime: run.highestTime,
    steadyHeight: isSteady ? steadyGap - standoff : Number.NaN,
    overshoot: isSteady ? Math.max(0, run.highest - steadyGap) : Number.NaN,
    clearance: headroom - height,
    bounceFrequency: bounce.frequency,
    bounceGrowth: bounce.growth,
    settlingTime: isSteady
      ? settlingTime(powered, step, steadyGap, SETTLED.within, Math.min(SETTLED.hold, end / 4))
      : Number.NaN,
    peakCurrent: run.peakCurrent,
    peakCurrentTime: run.peakCurrentTime,
    landingSpeed: run.hardestLanding,
    landingTime: run.hardestLandingTime,
    landingEnergy: (mass * run.hardestLanding ** 2) / 2,
  };
}
