import type { MotionDrive } from '../kernel/motion/motion-run.ts';
import { UNITS } from '../model/units.ts';
import type { MotionSummary } from '../rig/motion-summary.ts';
import { measure, significant } from '../text/significant.ts';

export type MotionTopics = readonly (readonly [topic: string, words: string])[];

/** What was done to the rig: `96 V switched on at once, ...`. */
export function driveWords(drive: MotionDrive, isWorst: boolean): string {
  const unit = drive.quantity === 'voltage' ? UNITS.V : UNITS.A;
  const to = measure(drive.to, unit);
  const rise =
    drive.rise > 0
      ? `from ${measure(drive.from, unit)} to ${to} in ${measure(drive.rise, UNITS.s)}`
      : `${to} switched on at once`;
  const degrees = `${significant((drive.phase * 180) / Math.PI)}° after a zero of the mains`;
  const phase = isWorst ? `, ${degrees}: where it draws most` : drive.phase === 0 ? '' : `, ${degrees}`;
  const cut = Number.isFinite(drive.cutAt) ? `, cut off after ${measure(drive.cutAt, UNITS.s)}` : '';
  return `${rise}${phase}${cut}`;
}

/** A bounce that changes by less than this share while it is watched goes on. */
const STEADY = 0.05;

/** A run in words, topic by topic; an empty topic is left out. */
export function motionTopics(summary: MotionSummary): MotionTopics {
  const {
    seconds,
    everLifted,
    liftoffCurrent,
    liftoffVoltage,
    lost,
    highest,
    highestTime,
    steadyHeight,
    overshoot,
    clearance,
    bounceFrequency,
    bounceGrowth,
    settlingTime,
    peakCurrent,
    peakCurrentTime,
    landingSpeed,
    landingTime,
    landingEnergy,
  } = summary;
  const at = (time: number) => `after ${measure(time, UNITS.s)}`;
  const topics: (readonly [string, string])[] = [];
  if (!everLifted) {
    const needs = Number.isNaN(liftoffCurrent)
      ? 'the plate attracts the coil'
      : `it takes ${measure(liftoffCurrent, UNITS.A)}, ${measure(liftoffVoltage, UNITS.V)} at the coil, to float`;
    topics.push(['lift', `it never lifts in ${measure(seconds, UNITS.s)}: ${needs}`]);
  } else {
    const over = overshoot > 0 ? `, ${measure(overshoot, UNITS.mm)} above where it comes to float` : '';
    topics.push(['highest point', `${measure(highest, UNITS.mm)} ${at(highestTime)}${over}`]);
    if (!Number.isNaN(steadyHeight))
      topics.push(['comes to float', `${measure(steadyHeight, UNITS.mm)} high`]);
    else topics.push(['comes to float', 'nowhere: with this drive it rests in the end']);
  }
  if (lost) topics.push(['lost', `it flies out of the range that is computed ${at(seconds)}`]);
  if (!Number.isNaN(clearance) && everLifted) {
    topics.push([
      'headroom',
      clearance > 0
        ? `least clearance ${measure(clearance, UNITS.mm)}`
        : `it hits what is above it: ${measure(-clearance, UNITS.mm)} too high`,
    ]);
  }
  if (!Number.isNaN(bounceFrequency)) {
    const grows = Number.isNaN(bounceGrowth)
      ? ''
      : Math.abs(bounceGrowth) * seconds < STEADY
        ? ', goes on as it is: it hops'
        : bounceGrowth > 0
          ? `, grows by itself at ${measure(bounceGrowth, UNITS.per_s)}`
          : `, dies away at ${measure(-bounceGrowth, UNITS.per_s)}`;
    topics.push(['bounce', `${measure(bounceFrequency, UNITS.Hz)}${grows}`]);
  }
  if (!Number.isNaN(settlingTime) && everLifted) {
    topics.push([
      'settles',
      Number.isFinite(settlingTime)
        ? `stays within a millimetre ${at(settlingTime)}`
        : `does not stay within a millimetre in the ${measure(seconds, UNITS.s)} watched`,
    ]);
  }
  topics.push(['largest current', `${measure(peakCurrent, UNITS.A)} ${at(peakCurrentTime)}`]);
  if (!Number.isNaN(landingSpeed)) {
    const energy = significant(landingEnergy);
    topics.push([
      'hardest landing',
      `${measure(landingSpeed, UNITS.m_per_s)} ${at(landingTime)}, with ${energy} J`,
    ]);
  }
  return topics;
}
