import { type MovingRig, SmallMotionSolver } from '../kernel/small-motion.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { RequestedLaw } from './requested-law.ts';

/** Whether a small bounce about the operating point grows or dies, with the drive's own constraint. */
export const SMALL_MOTION: RequestedLaw = {
  quantities: ['bounce_growth', 'guide_damping', 'damped_natural_frequency'],
  create() {
    const solver = new SmallMotionSolver();
    const moving: MovingRig = {
      mass: 0,
      drag: 0,
      omega: 0,
      current: 0,
      curvature: 0,
      voltageHeld: false,
      resistance: 0,
      freeInductance: 0,
      capacitance: Number.NaN,
    };
    return ({ rig, over, voltageHeld, respond }) => {
      if (rig.status !== STATUS.lifts) return;
      const { slots, results } = rig;
      moving.mass = rig.mass;
      moving.drag = slots[SLOT.guidesDrag]! || 0;
      moving.omega = rig.omega;
      moving.current = rig.current;
      moving.curvature = over.curvatureRe;
      moving.voltageHeld = voltageHeld;
      moving.resistance = rig.resistance + slots[SLOT.seriesResistance]!;
      moving.freeInductance = rig.freeInductance;
      moving.capacitance = slots[SLOT.seriesCapacitance]!;
      const { growth, frequency, neededDrag } = solver.solve(moving, respond());
      results[Q.bounce_growth] = growth;
      results[Q.guide_damping] = neededDrag;
      results[Q.damped_natural_frequency] = frequency;
    };
  },
};
