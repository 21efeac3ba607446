import { type MovingRig, type SmallMotion, SmallMotionSolver } from '../kernel/small-motion.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { OperatingPoint, RequestedLaw } from './requested-law.ts';

/** Small motion about operating points, with the current or the supply voltage held; its result is overwritten. */
export function createBounceSolver(): (point: OperatingPoint, voltageHeld: boolean) => SmallMotion {
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
  return ({ rig, model, over, respond }, voltageHeld) => {
    moving.mass = model.mass;
    moving.drag = model.drag;
    moving.omega = model.omega;
    moving.current = rig.current;
    moving.curvature = over.curvatureRe;
    moving.voltageHeld = voltageHeld;
    moving.resistance = model.windingResistance + model.seriesResistance;
    moving.freeInductance = model.freeInductance;
    moving.capacitance = model.seriesCapacitance;
    return solver.solve(moving, respond());
  };
}

/** Whether a small bounce about the operating point grows or dies, with the drive's own constraint. */
export const SMALL_MOTION: RequestedLaw = {
  quantities: ['bounce_growth', 'guide_damping', 'damped_natural_frequency'],
  create() {
    const solve = createBounceSolver();
    return (point) => {
      const { status, results } = point.rig;
      if (status !== STATUS.lifts) return;
      const { growth, frequency, neededDrag } = solve(point, point.voltageHeld);
      results[Q.bounce_growth] = growth;
      results[Q.guide_damping] = neededDrag;
      results[Q.damped_natural_frequency] = frequency;
    };
  },
};
