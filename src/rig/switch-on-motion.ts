import { type MotionDrive, MotionRun, worstPhase } from '../kernel/motion/motion-run.ts';
import { settlingTime } from '../kernel/motion/settling.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import { createMovingRig } from './moving-rig.ts';
import type { RequestedLaw } from './requested-law.ts';
import { createBounceSolver } from './small-motion.ts';

/** Steps of a period of the supply: 0.1 ms at 50 Hz. */
export const STEPS_PER_PERIOD = 200;
/** It stays within so much of its height, m, for so long, s, within so many seconds of motion. */
export const SETTLED = Object.freeze({ within: 1e-3, hold: 0.5, longest: 20 });
/** Faster supplies take too many steps, Hz. */
export const HIGHEST_FREQUENCY = 500;
/** Motion goes on in pieces of this length until it has settled, s. */
const PIECE = 2;

/**
 * The operating supply voltage applied at once to the resting rig, at the phase of the mains that gives the largest current:
 * how far it jumps beyond its height, when it has settled, the largest current.
 */
export const SWITCH_ON_MOTION: RequestedLaw = {
  quantities: ['overshoot', 'settling_time', 'peak_switch_on_current'],
  create() {
    const solve = createBounceSolver();
    return (point) => {
      const { rig } = point;
      const { results, omega } = rig;
      if (rig.status !== STATUS.lifts || omega > 2 * Math.PI * HIGHEST_FREQUENCY) return;
      const model = createMovingRig(point);
      if (model === null) return;
      const step = (2 * Math.PI) / (omega * STEPS_PER_PERIOD);
      const drive: MotionDrive = {
        quantity: 'voltage',
        from: 0,
        to: results[Q.supply_voltage]!,
        rise: 0,
        cutAt: Number.POSITIVE_INFINITY,
        phase: 0,
      };
      const phase = worstPhase(model.rig, model.modes, drive, omega, step);
      const run = new MotionRun(model.rig, model.modes, { ...drive, phase }, omega, step, 1e9);
      let settled = Number.POSITIVE_INFINITY;
      // a bounce that grows never settles, nor does one that takes longer than this to fall by e
      const longest = solve(point, true).growth > -1 / SETTLED.longest ? PIECE : SETTLED.longest;
      for (let end = PIECE; end <= longest && settled === Number.POSITIVE_INFINITY; end += PIECE) {
        run.advanceTo(end);
        if (run.lost) return;
        settled = settlingTime(run.gaps, step, rig.gap, SETTLED.within, SETTLED.hold);
      }
      results[Q.overshoot] = Math.max(0, run.highest - rig.gap);
      results[Q.settling_time] = settled;
      results[Q.peak_switch_on_current] = run.peakCurrent;
    };
  },
};
