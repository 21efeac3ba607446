import { extremeRows, kneeRow } from '../front/landmarks.ts';
import { ALL_ON_REQUEST, Q } from '../model/quantities.ts';
import { column, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { floatingCurve } from '../report/floating-curve.ts';
import type { ChosenDesign, Provenance, ReportInput } from '../report/report-input.ts';
import { cautionsOf } from '../rig/cautions-of.ts';
import { createDesignReader } from '../rig/design.ts';
import { keepPlates } from '../rig/kept-plates.ts';
import { atOwnDrive } from '../rig/lift-curve.ts';
import { createPlateHeatProfiles } from '../rig/plate-heat-profile.ts';
import { sidewaysCurve, sidewaysPoint } from '../rig/sideways-curve.ts';
import type { SurveyTally } from '../survey/survey.ts';
import { describeFront, type Landmarks } from '../words/describe-front.ts';
import { allowedFor, createSpreadDescriber } from '../words/describe-spread.ts';
import { designMotion } from '../words/design-motion.ts';
import { designWarming } from '../words/design-warming.ts';
import { designWords } from '../words/design-words.ts';
import { objectiveLabel, superlative } from '../words/objective-words.ts';
import { createSensitivityDescriber, type SensitivityDescriber } from '../words/sensitivity-words.ts';
import { sidewaysWords } from '../words/sideways-words.ts';
import { changeableOf, watchedOf } from '../words/watched.ts';
import { designSensitivities } from './design-sensitivities.ts';

/** What a run leaves behind when its tables stand. */
export interface FinishedRun {
  readonly study: Study;
  /** As in `front.csv`; of a study without objectives its design, where it has one alone. */
  readonly front: TableRows;
  /** Has seen every row. */
  readonly survey: SurveyTally;
  /** A few lines for a front that has no design. */
  readonly whyEmpty: string;
  /** How good the answer of a search is, a line each; empty for a plan that seeks nothing. */
  readonly search?: readonly string[];
  /** Left out where nobody else needs it. */
  readonly sensitivityOf?: SensitivityDescriber;
  readonly provenance: Provenance;
}

/** A curve goes on beyond the operating current, to show what is left, and to lift-off where that is not far. */
const BEYOND_OPERATION = 1.4;
const BEYOND_LIFTOFF = 1.15;
const FARTHEST = 2;

/** Everything that a report shows, put together from all stages. */
export function composeReport({
  study,
  front,
  survey,
  whyEmpty,
  search = [],
  sensitivityOf = createSensitivityDescriber(study),
  provenance,
}: FinishedRun): ReportInput {
  const senses = study.objectives.map(({ sense }) => sense);
  const objectives = study.objectives.map((_, o) => column(front, front.objectives, o));
  const landmarks =
    senses.length === 0
      ? NO_LANDMARKS
      : { extremes: extremeRows(objectives, senses), knee: kneeRow(objectives, senses) };
  const reader = createDesignReader(study);
  const slotsOf = (row: number) => {
    reader.read(front.values, row * study.vary.length);
    return Float64Array.from(reader.slots);
  };
  return {
    study,
    objectiveLabels: study.objectives.map(objectiveLabel),
    answer: [...answerOf(study, front, landmarks, whyEmpty).split('\n'), ...search],
    front,
    survey: survey.survey(objectives),
    slotsOf,
    chosen: choose(study, front, landmarks, slotsOf, sensitivityOf),
    watched: study.tolerance ? watchedOf(study) : [],
    changeable: changeableOf(study),
    allowed: allowedFor(study),
    provenance,
  };
}

const NO_LANDMARKS = { extremes: [], knee: -1 } as const;

function answerOf(study: Study, front: TableRows, landmarks: Landmarks, whyEmpty: string): string {
  if (front.count === 0) return whyEmpty;
  return study.objectives.length > 0 ? describeFront(study, front, landmarks) : designWords(study, front, 0);
}

/** The best in each objective and the knee, each once; of a study without objectives its only design. */
function choose(
  study: Study,
  front: TableRows,
  { extremes, knee }: { readonly extremes: readonly number[]; readonly knee: number },
  slotsOf: (row: number) => Float64Array,
  sensitivityOf: SensitivityDescriber,
): ChosenDesign[] {
  if (front.count === 0) return [];
  const reasons = new Map<number, string[]>();
  const add = (row: number, why: string) => reasons.set(row, [...(reasons.get(row) ?? []), why]);
  for (const [o, row] of extremes.entries()) add(row, superlative(study.objectives[o]!));
  if (front.count > 1 && study.objectives.length > 1) add(knee, 'best compromise');
  if (study.objectives.length === 0) add(0, 'the design of this study');

  const quantity = (q: number, row: number) => front.quantities[q * front.count + row]!;
  const highest = Math.max(
    ...[...reasons.keys()].map((row) => {
      const current = quantity(Q.current, row);
      const liftoff = Math.min(BEYOND_LIFTOFF * quantity(Q.liftoff_current, row), FARTHEST * current);
      return Math.max(BEYOND_OPERATION * current, liftoff || 0);
    }),
  );
  const heatOf = createPlateHeatProfiles(study);
  const spreadOf = createSpreadDescriber(study);
  const width = study.vary.length;
  const kept = keepPlates();
  return [...reasons].map(([row, why]) => {
    const slots = slotsOf(row);
    const values = front.values.subarray(row * width, (row + 1) * width);
    // with what is computed on request, which rows may not hold
    const { results } = atOwnDrive(study.rig, slots, ALL_ON_REQUEST, kept);
    return {
      row,
      why: why.join(', '),
      lift: floatingCurve(study.rig, slots, highest, quantity(Q.current, row)),
      cautions: cautionsOf(study.rig, slots, results),
      sideways: {
        words: sidewaysWords(slots, results),
        curve: sidewaysCurve(study.rig, slots, kept),
        at: sidewaysPoint(slots, results),
      },
      heat: heatOf(values),
      spread: spreadOf(slots),
      sensitivities: designSensitivities(sensitivityOf(values)),
      motion: designMotion(study.rig, slots, kept),
      warming: designWarming(study.rig, slots),
    };
  });
}
