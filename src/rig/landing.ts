import { GRAVITY } from '../kernel/constants.ts';
import { fallSpeed } from '../kernel/motion/fall-speed.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { RequestedLaw } from './requested-law.ts';

/** How hard what floats comes down when the power fails: the circuit opens, and nothing but drag holds it. */
export const LANDING: RequestedLaw = {
  quantities: ['landing_speed'],
  create() {
    return ({ rig }) => {
      if (rig.status !== STATUS.lifts) return;
      const { slots, results } = rig;
      const height = rig.gap - slots[SLOT.standoff]!;
      results[Q.landing_speed] = fallSpeed(rig.mass, slots[SLOT.guidesDrag]! || 0, height, GRAVITY);
    };
  },
};
