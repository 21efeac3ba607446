import { UNITS } from '../units.ts';
import { type CautionRule, SET } from './caution-rule.ts';

export const MOTION_RULES: readonly CautionRule[] = [
  {
    id: 'falls',
    hazard: 'motion',
    brief: 'falls on fingers when the power fails',
    topic: 'fall when the power fails',
    rule: 'fingers fit under what floats, and it falls when the power fails',
    value: 'gap',
    raisedWhen: 'above',
    threshold: 4e-3,
    only: 'lifts',
    unit: UNITS.mm,
    tells: [
      { value: 'height', unit: UNITS.mm, phrase: 'it falls #' },
      { value: 'fallEnergy', unit: UNITS.J, phrase: 'with #' },
    ],
    source:
      'ISO 13857: a fingertip enters a slot of more than 4 mm (seen quoted); ISO 13854: a finger is crushed in less than 25 mm (seen quoted)',
    advice:
      'Nobody reaches under it while it is on: fence it off, and switch off and wait before adjusting anything.',
  },
  {
    id: 'switch-on',
    hazard: 'motion',
    brief: 'jumps when switched on at full voltage',
    topic: 'jump at switch-on',
    rule: 'switched on at full voltage it jumps',
    value: 'switchOnLiftOverWeight',
    raisedWhen: 'above',
    threshold: 1,
    only: 'floats',
    unit: UNITS.one,
    source: 'computed: average lift at the standoff over weight',
    advice:
      'Raise the drive from zero every time, and see that it cannot be switched on at a raised setting.',
  },
  {
    id: 'no-guidance',
    hazard: 'motion',
    brief: 'not held sideways',
    topic: 'guidance sideways',
    rule: 'nothing holds a floating coil or plate sideways',
    value: 'unheld',
    raisedWhen: 'above',
    threshold: SET,
    unit: UNITS.one,
    source:
      'computed (centring_stiffness, on request); by symmetry a uniform wide plate gives no sideways force',
    advice: 'Use posts or tethers with play, and leads slack enough to follow the whole travel.',
  },
  {
    id: 'pushed-off',
    hazard: 'motion',
    brief: 'pushed off sideways',
    topic: 'force sideways',
    rule: 'it is pushed off sideways',
    value: 'outwardOverWeight',
    raisedWhen: 'above',
    threshold: 1e-3,
    only: 'floats',
    unit: UNITS.one,
    tells: [
      { value: 'outwardForce', unit: UNITS.N, phrase: 'that is #' },
      { value: 'sidewaysShift', unit: UNITS.mm, phrase: '# beside the axis' },
      { value: 'postForce', unit: UNITS.N, phrase: 'posts take #' },
    ],
    source:
      'computed (sideways_force, on request): mean force over weight; by current sheets, see sideways.md',
    advice:
      'Posts must stop it before it gets going, and take its force at the end of their play; a wider plate, or an outer winding wound against the coil, pushes less or back.',
  },
  {
    id: 'pan-floats',
    hazard: 'motion',
    brief: 'the pan may float away',
    topic: 'lift of the pan',
    rule: 'the average force exceeds the weight of pan and load: it may float away',
    value: 'panLiftOverWeight',
    raisedWhen: 'above',
    threshold: 1,
    only: 'clamped',
    unit: UNITS.one,
    source: 'computed: average force over weight',
    advice: 'Lower the current, load the pan or clamp it: hot contents may spill.',
  },
];

const EAR_SOURCE = 'Directive 2003/10/EC: 80 dB(A) over eight hours, the lower action value (seen)';

export const NOISE_RULES: readonly CautionRule[] = [
  {
    id: 'chatters',
    hazard: 'noise',
    brief: 'chatters',
    topic: 'chatter',
    rule: 'it chatters: the peaks of the force exceed the weight, their mean does not',
    value: 'currentOverChatter',
    raisedWhen: 'above',
    threshold: 1,
    only: 'rests',
    unit: UNITS.one,
    source: `computed: current over that at which the peak force equals the weight; ${EAR_SOURCE}`,
    advice:
      'It hammers loudly and wears enamel and standoff through. Pass through this range quickly; wear hearing protection.',
  },
  {
    id: 'rattles',
    hazard: 'noise',
    brief: 'rattles',
    topic: 'rattle of the pan',
    rule: 'the peak force exceeds the weight of pan and load: it rattles',
    value: 'panPeakLiftOverWeight',
    raisedWhen: 'above',
    threshold: 1,
    only: 'clamped',
    unit: UNITS.one,
    source: `computed: average plus double-frequency force over weight; ${EAR_SOURCE}`,
    advice: 'Lower the current, load the pan or clamp it.',
  },
  {
    id: 'hum',
    hazard: 'noise',
    brief: 'may hum loudly enough to harm hearing',
    topic: 'hum',
    rule: 'it may hum loudly enough to harm hearing',
    value: 'humLevel',
    raisedWhen: 'above',
    threshold: 80,
    unit: UNITS.dBA,
    source: `${EAR_SOURCE}; the level is an estimate to 10 dB`,
    advice:
      'Measure it with a sound level meter. Lower the current, stand farther off, limit the time; wear hearing protection.',
  },
];
