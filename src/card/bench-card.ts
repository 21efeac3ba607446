import { roundSteps } from '../math/round-steps.ts';
import type { Judgement } from '../model/cautions/judge.ts';
import { BEYOND_SUPPLY, FLOATS, SLOT } from '../model/inputs.ts';
import { ALL_ON_REQUEST, Q } from '../model/quantities.ts';
import { REASONS, STATUS, STATUSES, type Status } from '../model/status.ts';
import type { Study } from '../model/study.ts';
import { cautionsOf } from '../rig/cautions-of.ts';
import { createDesignReader } from '../rig/design.ts';
import { createEvaluator } from '../rig/evaluate.ts';
import { improve } from '../rig/improve.ts';
import { atOwnDrive, atSupplyLimit, type DrivenPoint, liftCurve } from '../rig/lift-curve.ts';
import { type WindingGuide, windingGuides } from '../rig/winding-guide.ts';
import { createSpreadDescriber, type DescribedSpread } from '../words/describe-spread.ts';
import { remedyRows, restingWords } from '../words/improvement-words.ts';
import { type LimitStanding, limitStandings } from '../words/limit-standing.ts';
import { rigWords } from '../words/rig-words.ts';
import { createSensitivityDescriber, type DescribedSensitivities } from '../words/sensitivity-words.ts';

/** Everything about one design that goes on its card. Numbers are SI. */
export interface BenchCard {
  readonly study: Study;
  readonly design: number;
  /** How its heading calls it: `design 12`, or `one rig` where there is no other. */
  readonly name: string;
  /** Null where nothing of the rig was changed. */
  readonly change: CardChange | null;
  /** Its varied inputs. */
  readonly values: Float64Array;
  readonly slots: Float64Array;
  readonly status: Status;
  /** Empty where there is nothing to explain. */
  readonly reason: string;
  readonly rig: readonly (readonly [part: string, words: string])[];
  /** At the design's own drive. */
  readonly point: DrivenPoint;
  /** In order of current; empty for a design that cannot be evaluated. */
  readonly curve: readonly DrivenPoint[];
  /** Whether the curve ends where the supply does, and at what of it; else it ends at a round multiple of the drive. */
  readonly end: 'supply limit' | 'beyond the drive';
  readonly windings: readonly WindingGuide[];
  readonly limits: readonly LimitStanding[];
  /** Null for a study without tolerances, and for a design without an answer. */
  readonly spread: DescribedSpread | null;
  /** What a little more of each input changes; null for a design without an answer. */
  readonly sensitivities: DescribedSensitivities | null;
  /** Of a rig that rests: why, in a sentence, and the changes nearest to lifting it; null for any other. */
  readonly resting: { readonly why: string; readonly remedies: readonly string[] } | null;
  /** The judgement of every caution on it. */
  readonly cautions: readonly Judgement[];
}

/** An input that was changed, as written. */
export interface Change {
  readonly path: string;
  readonly from: string;
  readonly to: string;
}

/** A card beside that of the same rig before some of its inputs were changed. */
export interface CardChange {
  readonly before: BenchCard;
  readonly changes: readonly Change[];
}

/** Rows of the table of currents. */
const MOST_ROWS = 11;
/** Where no supply limit ends it, or the study allows drives beyond, the table goes on to this multiple of the drive's current. */
const BEYOND = 1.5;

/** The card of one design of a study, by its varied values. */
export function makeCard(
  study: Study,
  design: number,
  values: Float64Array,
  change: CardChange | null = null,
): BenchCard {
  const reader = createDesignReader(study);
  reader.read(values, 0);
  const { slots } = reader;
  const { rig } = study;
  const point = atOwnDrive(rig, slots, ALL_ON_REQUEST);
  const row = createEvaluator(study)({ first: design, count: 1, values });
  const answered = !Number.isNaN(point.current);
  const limit = answered ? atSupplyLimit(rig, slots) : null;
  const isBeyond = limit !== null && point.current > limit.current && isAllowedBeyond(slots);
  const end = limit === null || isBeyond ? 'beyond the drive' : 'supply limit';
  const top = limit === null || isBeyond ? BEYOND * point.current : limit.current;
  return {
    study,
    design,
    name: change
      ? `${change.before.name}, changed`
      : study.vary.length === 0
        ? 'the rig'
        : `design ${design}`,
    change,
    values,
    slots,
    status: STATUSES[point.status]!,
    reason: REASONS[point.reason]!.text,
    rig: rigWords(study, { values, slots }),
    point,
    curve: answered ? liftCurve(rig, slots, currentsUpTo(top, point, slots)) : [],
    end,
    windings: STATUSES[point.status] === 'impossible' ? [] : windingGuides(rig, slots),
    limits: answered ? limitStandings(study, row, slots) : [],
    spread: answered ? createSpreadDescriber(study)(slots) : null,
    sensitivities: answered ? createSensitivityDescriber(study)(values) : null,
    resting: point.status === STATUS.rests ? restingOf(study, slots, point.results) : null,
    cautions: cautionsOf(rig, slots, point.results),
  };
}

/** Changes that a card of a resting rig names. */
const REMEDIES = 3;

function restingOf(study: Study, slots: Float64Array, results: Float64Array): BenchCard['resting'] {
  const improvements = improve(study, slots, null, false);
  return {
    why: restingWords(slots, results),
    remedies: remedyRows(study, slots, improvements, REMEDIES).map((row) => row.join(': ')),
  };
}

function isAllowedBeyond(slots: Float64Array): boolean {
  return slots[SLOT.beyondSupply] === BEYOND_SUPPLY.allowed;
}

/** Round currents, from where a floating rig begins to chatter; the drive's own current among them. */
function currentsUpTo(top: number, point: DrivenPoint, slots: Float64Array): number[] {
  const buzz = slots[SLOT.floats] === FLOATS.nothing ? 0 : point.results[Q.chatter_current]!;
  const steps = roundSteps(buzz < top ? buzz : 0, top, MOST_ROWS);
  const { current } = point;
  const known = steps.some((step) => Math.abs(step - current) < SAME * current);
  return (known || !(current < top) ? steps : [...steps, current]).sort((a, b) => a - b);
}

/** Currents this close, relatively, are one. */
const SAME = 1e-6;
