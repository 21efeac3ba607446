import type { Unit } from '../units.ts';
import type { CautionValueName } from './caution-values.ts';

/** What a caution warns of, the worst first: pages and cards show them in this order. */
export const HAZARDS = Object.freeze({
  shock: 'electric shock',
  fire: 'fire and heat',
  motion: 'moving parts',
  field: 'magnetic field',
  noise: 'noise',
  model: 'what was computed',
});
export type Hazard = keyof typeof HAZARDS;

/** A caution as data: raised when the value lies strictly above or below its threshold. */
export interface CautionRule {
  readonly id: string;
  readonly hazard: Hazard;
  /** For a line that lists many: `kick at switch-off`. */
  readonly brief: string;
  /** What is judged, for the list of what could not be: `implants of visitors`. */
  readonly topic: string;
  /** What was found, in a few words. */
  readonly rule: string;
  readonly value: CautionValueName;
  readonly raisedWhen: 'above' | 'below';
  /** SI, or another of the values. */
  readonly threshold: number | CautionValueName;
  /** Only where this flag is set. */
  readonly only?: CautionValueName;
  readonly unit: Unit;
  /** Other numbers that whoever acts on it needs; `#` is the number with its unit. */
  readonly figures?: readonly FigurePhrase[];
  /** Where that one is raised this one adds nothing, and is left out. */
  readonly impliedBy?: string;
  readonly source: string;
  readonly advice: string;
}

export interface FigurePhrase {
  readonly value: CautionValueName;
  readonly unit: Unit;
  readonly phrase: string;
}

/** A flag is set or not: its threshold lies between. */
export const SET = 0.5;

export const PRACTICE = 'common practice, no source';
