import { Q } from '../model/quantities.ts';
import { DUTY_CYCLE } from './duty-cycle.ts';
import { LANDING } from './landing.ts';
import { LEFT_ALONE } from './left-alone.ts';
import type { OperatingPoint, RequestedLaw } from './requested-law.ts';
import { SIDEWAYS_FORCE, SIDEWAYS_STIFFNESS } from './sideways.ts';
import { SMALL_MOTION } from './small-motion.ts';
import { SWITCH_ON_MOTION } from './switch-on-motion.ts';

const LAWS: readonly RequestedLaw[] = [
  SMALL_MOTION,
  SIDEWAYS_STIFFNESS,
  SIDEWAYS_FORCE,
  LANDING,
  SWITCH_ON_MOTION,
  LEFT_ALONE,
  DUTY_CYCLE,
];

/** The laws behind these quantities (indices), each once. */
export function createRequestedLaws(
  requested: readonly number[],
): readonly ((point: OperatingPoint) => void)[] {
  return LAWS.filter(({ quantities }) => quantities.some((name) => requested.includes(Q[name]))).map((law) =>
    law.create(),
  );
}
