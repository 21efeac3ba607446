import type { CoupledModes } from './coupled-modes.ts';
import { type Feed, FRACTION, MovingCoil, type MovingCoilRig } from './moving-coil.ts';

/** A drive over time. rms values: V at the variable transformer's outlet, or A in the coil. */
export interface MotionDrive {
  readonly quantity: 'voltage' | 'current';
  /** At time 0, and from `rise` on; in between it rises evenly. */
  readonly from: number;
  readonly to: number;
  /** s; 0: switched on at once. */
  readonly rise: number;
  /** The circuit is broken from here on, s; Infinity: never. */
  readonly cutAt: number;
  /** Of the mains at time 0, rad: the drive goes with sin(wt + phase). */
  readonly phase: number;
}

/** Instants of a run, a number each; every so manieth step. SI. */
export interface MotionSamples {
  readonly time: number[];
  readonly gap: number[];
  readonly speed: number[];
  readonly current: number[];
  /** Across coil and plate. */
  readonly voltage: number[];
  /** On what floats, away from rest. */
  readonly force: number[];
  readonly plateLoss: number[];
}

/**
 * One run of a rig from rest: what it did, step by step as far as it has come. The same drive and step give the same bits.
 */
export class MotionRun {
  readonly samples: MotionSamples = {
    time: [],
    gap: [],
    speed: [],
    current: [],
    voltage: [],
    force: [],
    plateLoss: [],
  };
  /** Gaps after each step, from time 0 on. */
  readonly gaps: number[];
  readonly step: number;
  /** Largest current, A, and when. */
  peakCurrent = FRACTION;
  peakCurrentTime = FRACTION;
  highest: number;
  highestTime = FRACTION;
  /** Hardest landing so far, m/s; NaN before the first. */
  hardestLanding = Number.NaN;
  hardestLandingTime = Number.NaN;
  /** It has left the gaps that are computed. */
  lost = false;
  readonly moving: MovingCoil;
  private readonly modes: CoupledModes;
  private readonly every: number;
  private steps = 0;

  /** @param step s @param every steps a sample */
  constructor(
    rig: MovingCoilRig,
    modes: CoupledModes,
    drive: MotionDrive,
    omega: number,
    step: number,
    every: number,
  ) {
    this.step = step;
    this.every = every;
    this.modes = modes;
    this.moving = new MovingCoil(rig, modes, feedOf(drive, omega), step);
    this.highest = rig.standoff;
    this.peakCurrent = 0;
    this.peakCurrentTime = 0;
    this.highestTime = 0;
    this.gaps = [rig.standoff];
    this.sample();
  }

  get time(): number {
    return this.moving.time;
  }

  /** Goes on to a time, s; stops early where it is lost. */
  advanceTo(time: number): void {
    const { moving, gaps } = this;
    const last = Math.round(time / this.step);
    while (this.steps < last && !this.lost) {
      moving.advance();
      this.steps++;
      const { gap, current } = moving;
      gaps.push(gap);
      if (gap > this.highest) {
        this.highest = gap;
        this.highestTime = moving.time;
      }
      const size = Math.abs(current);
      if (size > this.peakCurrent) {
        this.peakCurrent = size;
        this.peakCurrentTime = moving.time;
      }
      if (moving.landingTime !== this.hardestLandingTime) {
        if (!(moving.landingSpeed <= this.hardestLanding)) {
          this.hardestLanding = moving.landingSpeed;
          this.hardestLandingTime = moving.landingTime;
        }
      }
      if (this.steps % this.every === 0) this.sample();
      this.lost = gap > this.modes.farthest;
    }
  }

  private sample(): void {
    const { samples, moving } = this;
    samples.time.push(moving.time);
    samples.gap.push(moving.gap);
    samples.speed.push(moving.speed);
    samples.current.push(moving.current);
    samples.voltage.push(moving.voltage);
    samples.force.push(moving.force);
    samples.plateLoss.push(moving.plateLoss);
  }
}

function feedOf({ quantity, from, to, rise, cutAt, phase }: MotionDrive, omega: number): Feed {
  return {
    given: quantity === 'current',
    at: (time) => {
      const rms = rise > 0 && time < rise ? from + ((to - from) * time) / rise : to;
      return Math.SQRT2 * rms * Math.sin(omega * time + phase);
    },
    open: (time) => time > cutAt,
  };
}

/** Phases tried for the worst, over half a period: the other half mirrors them. */
const PHASES = 12;
/** What decides which is worst comes within so many periods. */
const PERIODS = 3;
/** Steps of a period that tell phases apart: the peak of each is then within 2e-3 of that by finer steps, and all err alike. */
const COARSE = 50;

/** The phase of the mains, rad, at which switching on gives the largest current: of twelve, by coarse steps. */
export function worstPhase(
  rig: MovingCoilRig,
  modes: CoupledModes,
  drive: MotionDrive,
  omega: number,
  step: number,
): number {
  let worst = 0;
  let most = Number.NEGATIVE_INFINITY;
  const coarse = Math.max(step, (2 * Math.PI) / (omega * COARSE));
  for (let i = 0; i < PHASES; i++) {
    const phase = (i * Math.PI) / PHASES;
    const run = new MotionRun(rig, modes, { ...drive, phase }, omega, coarse, 1e9);
    run.advanceTo((PERIODS * 2 * Math.PI) / omega);
    if (run.peakCurrent > most * (1 + 1e-9)) {
      most = run.peakCurrent;
      worst = phase;
    }
  }
  return worst;
}
