import { UNITS } from '../units.ts';
import { type CautionRule, PRACTICE } from './caution-rule.ts';

const ICNIRP =
  'ICNIRP 2010, Health Phys. 99, 818-836, reference levels (seen quoted); from 100 kHz also ICNIRP 2020, Health Phys. 118, 483-524 (whole body, from memory)';
const IMPLANTS =
  '1999/519/EC, which EN 50527-1 takes for granted: 0.1 mT at 50 Hz, 6.25 µT from 0.8 to 150 kHz (seen quoted; ranges from memory)';

export const FIELD_RULES: readonly CautionRule[] = [
  {
    id: 'implants-visitor',
    hazard: 'field',
    brief: 'implants of visitors',
    topic: 'implants of visitors',
    rule: 'the field at the visitor can disturb pacemakers and other implants',
    value: 'visitorField',
    raisedWhen: 'above',
    threshold: 'implantLevel',
    unit: UNITS.mT,
    source: IMPLANTS,
    advice:
      'Put up a warning at the entrance and keep wearers of implants beyond the line where the field falls below it. Meeting any reference level does not rule out interference: their physician decides.',
  },
  {
    id: 'implants-operator',
    hazard: 'field',
    brief: 'implants of the operator',
    topic: 'implants of the operator',
    rule: 'the field at the operator can disturb pacemakers and other implants',
    value: 'operatorField',
    raisedWhen: 'above',
    threshold: 'implantLevel',
    unit: UNITS.mT,
    source: IMPLANTS,
    advice: 'Nobody with an implant operates it, or only after an assessment by EN 50527.',
  },
  {
    id: 'field-occupational',
    hazard: 'field',
    brief: 'visitor above the level for people at work',
    topic: 'field at the visitor',
    rule: 'the field at the visitor exceeds the reference level for people at work',
    value: 'visitorField',
    raisedWhen: 'above',
    threshold: 'occupationalLevel',
    unit: UNITS.mT,
    source: ICNIRP,
    advice: 'Nobody should stand this near while it runs: move the barrier outward.',
  },
  {
    id: 'field-public',
    hazard: 'field',
    brief: 'visitor above the public level',
    topic: 'field at the visitor',
    rule: 'the field at the visitor exceeds the reference level for the public',
    value: 'visitorField',
    raisedWhen: 'above',
    threshold: 'publicLevel',
    impliedBy: 'field-occupational',
    unit: UNITS.mT,
    source: ICNIRP,
    advice:
      'Move the barrier outward, or lower current times turns, until the field at the barrier is below it.',
  },
  {
    id: 'field-operator',
    hazard: 'field',
    brief: 'operator above the level for people at work',
    topic: 'field at the operator',
    rule: 'the field at the operator exceeds the reference level for people at work',
    value: 'operatorField',
    raisedWhen: 'above',
    threshold: 'occupationalLevel',
    unit: UNITS.mT,
    source: ICNIRP,
    advice: 'Operate it from farther away.',
  },
  {
    id: 'loose-metal',
    hazard: 'field',
    brief: 'rings, watches, tools and steel',
    topic: 'metal near the coil',
    rule: 'rings, watches, tools and steel near the coil heat up or are pulled',
    value: 'coilField',
    raisedWhen: 'above',
    threshold: 'occupationalLevel',
    unit: UNITS.mT,
    source: `${PRACTICE}; the level is that of ICNIRP for people at work`,
    advice:
      'Take off rings, bracelets and watches, keep tools, bank cards and loose steel an arm’s length away, and hold nothing of metal over the coil.',
  },
];
