import { averageForce } from '../kernel/lift.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { OperatingPoint, RequestedLaw } from './requested-law.ts';
import type { Sideways } from './sideways-plates.ts';
import type { RigState } from './state.ts';

/** A coil is tried beside the axis by this share of its outer radius, where the study does not give it. */
export const USUAL_SHIFT = 0.1;

/** Where between the middle and the end of their play guide posts are pushed hardest is looked for at so many places. */
const PLACES = 4;

/** What floats, or could: a clamped pan is pushed sideways, too. At rest friction holds it. */
function isMovable(rig: RigState): boolean {
  return rig.status === STATUS.lifts || rig.status === STATUS.clamped;
}

/**
 * Does it stay in the middle, and upright: restoring force and torque by a small shift and tilt about the floating part's
 * centre of mass, at the operating gap and current. Both change the current in the second order only, so that it does
 * not matter what the drive holds.
 */
export const SIDEWAYS_STIFFNESS: RequestedLaw = {
  quantities: ['sideways_stiffness', 'tilt_stiffness', 'centring_stiffness'],
  create() {
    return ({ rig, sideways: plates }) => {
      if (!isMovable(rig)) return;
      const answer = plates.prepare(rig);
      if (answer === 'unknown') return;
      const { results, current } = rig;
      const floats = rig.status === STATUS.lifts;
      // -0 is no answer that anybody expects
      const restoring = (second: number) => -averageForce(current, second) || 0;
      if (answer === 'wide') {
        results[Q.sideways_stiffness] = 0;
        if (!floats) return;
        results[Q.tilt_stiffness] = restoring(plates.wideTurn(rig));
        if (results[Q.tilt_stiffness]! > 0) results[Q.centring_stiffness] = 0;
        return;
      }
      answer.evaluate(rig.floating === FLOATS.plate);
      const shift = restoring(answer.shift);
      results[Q.sideways_stiffness] = shift;
      if (!floats) return;
      const turn = restoring(answer.turn);
      const both = restoring(answer.both);
      results[Q.tilt_stiffness] = turn;
      if (turn > 0) results[Q.centring_stiffness] = shift - (both * both) / turn;
    };
  },
};

/** How hard it is pushed outward at a given shift, and what posts have to take within their play. */
export const SIDEWAYS_FORCE: RequestedLaw = {
  quantities: ['sideways_force', 'post_force'],
  create() {
    return ({ rig, sideways: plates }) => {
      if (!isMovable(rig)) return;
      const answer = plates.prepare(rig);
      if (answer === 'unknown') return;
      const { results, slots } = rig;
      results[Q.sideways_force] = outward(rig, answer, shiftOf(rig));
      const play = slots[SLOT.guidesPlay]!;
      if (rig.status !== STATUS.lifts || Number.isNaN(play)) return;
      let most = 0;
      for (let i = 1; i <= PLACES; i++) most = Math.max(most, outward(rig, answer, (play * i) / PLACES));
      results[Q.post_force] = most;
    };
  },
};

/** `sideways_force` against the shift, m, of the design in hand; NaN where nothing is known. */
export function pushedAside({ rig, sideways }: OperatingPoint): (shift: number) => number {
  const answer = isMovable(rig) ? sideways.prepare(rig) : 'unknown';
  return answer === 'unknown' ? () => Number.NaN : (shift) => outward(rig, answer, shift);
}

/** The shift at which a rig is tried, m. */
function shiftOf({ slots, coil }: Pick<RigState, 'slots' | 'coil'>): number {
  const shift = slots[SLOT.sidewaysShift]!;
  return Number.isNaN(shift) ? USUAL_SHIFT * coil.outerRadius : shift;
}

function outward(rig: RigState, answer: Sideways, shift: number): number {
  if (typeof answer === 'string') return 0;
  return averageForce(rig.current, answer.slopeAt(shift));
}
