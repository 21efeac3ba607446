import type { Judgement } from '../model/cautions/judge.ts';
import type { TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import type { Unit } from '../model/units.ts';
import type { SidewaysPoint } from '../rig/sideways-curve.ts';
import type { SpreadProfile } from '../rig/spread-profile.ts';
import type { RunFacts } from '../store/run-record.ts';
import type { Survey } from '../survey/survey.ts';

/** All that a report is made of. Making it needs neither clock nor disk nor physics. */
export interface ReportInput {
  readonly study: Study;
  /** What each objective is about: `coil mass`. */
  readonly objectiveLabels: readonly string[];
  /** What the study found, a sentence each; for an empty front, why. */
  readonly answer: readonly string[];
  /** The front, in the order of `front.csv`. */
  readonly front: TableRows;
  readonly survey: Survey;
  /** The inputs of a design of the front, by its row there: one SI number per slot. */
  readonly slotsOf: (row: number) => Float64Array;
  /** Designs to look at closely: the best in each objective and the knee. Empty when the front is. */
  readonly chosen: readonly ChosenDesign[];
  /** What spreads within the study's tolerances; empty for a study without. */
  readonly watched: readonly WatchedQuantity[];
  /** What a builder may change by changing inputs: quantities of sensitivities. */
  readonly changeable: readonly Pick<WatchedQuantity, 'label' | 'unit'>[];
  /** What the tolerances are of, in the study's order: `standoff`. */
  readonly allowed: readonly string[];
  readonly provenance: Provenance;
}

/** A quantity whose spread is shown. */
export interface WatchedQuantity {
  readonly label: string;
  readonly unit: Unit;
  /** Where limits hold it against a number, SI. */
  readonly bounds: readonly { readonly value: number }[];
}

/** How a design turns out within the study's tolerances. */
export interface DesignSpread {
  /** Its quantities are those watched. */
  readonly profile: SpreadProfile;
  /** What was allowed for: `standoff ± 0.16 mm, ...`. */
  readonly allowed: string;
  /** The same in words, a topic a row. */
  readonly rows: readonly (readonly [topic: string, words: string])[];
  /** How to read shares; null where there are none. */
  readonly note: string | null;
}

/** What a little more of each input does to a design. */
export interface DesignSensitivities {
  /** In words: a quantity a row, what changes it most. */
  readonly rows: readonly (readonly [topic: string, words: string])[];
  /** Inputs that change something, those that do most first. */
  readonly inputs: readonly {
    /** `wire's diameter`, `room's temperature (1 °C more)` */
    readonly name: string;
    /** What the design has: `2 mm`. */
    readonly value: string;
    /** A change a quantity, in its unit: as text, and as a number for one per cent more; NaN where that has none. */
    readonly changes: readonly { readonly text: string; readonly more: number }[];
  }[];
  /** How the rows are to be read. */
  readonly note: string;
}

export interface ChosenDesign {
  /** Into the front. */
  readonly row: number;
  /** Why it was chosen, in a word or two: `lightest`, `knee`. */
  readonly why: string;
  /** In order of current; empty where nothing floats. */
  readonly lift: readonly LiftPoint[];
  /** The judgement of every caution on it. */
  readonly cautions: readonly Judgement[];
  /** Null where it is not known. */
  readonly heat: HeatProfile | null;
  /** Null for a study without tolerances. */
  readonly spread: DesignSpread | null;
  /** Null for a design without an answer. */
  readonly sensitivities: DesignSensitivities | null;
  /** Switched on at once; null where nothing floats or its motion is not computed. */
  readonly motion: DesignMotion | null;
  /** Set cold and left alone; null where it has no operating point. */
  readonly warming: DesignWarming | null;
  /** Left out where it was not computed. */
  readonly sideways?: DesignSideways;
}

/** A design in time, SI. */
export interface DesignMotion {
  /** What was done to it: `96 V switched on at once, ...`. */
  readonly drive: string;
  /** What came of it, a topic a row. */
  readonly rows: readonly (readonly [topic: string, words: string])[];
  readonly time: readonly number[];
  /** Over rest. */
  readonly height: readonly number[];
  readonly steadyHeight: number;
  /** NaN where the study gives none. */
  readonly headroom: number;
}

/** A design as it warms, SI. */
export interface DesignWarming {
  /** What stays as it is: `supply voltage`. */
  readonly held: string;
  /** What comes of it, a topic a row. */
  readonly rows: readonly (readonly [topic: string, words: string])[];
  readonly moments: readonly {
    readonly time: number;
    readonly current: number;
    readonly height: number;
    readonly mean: number;
    readonly hottest: number;
    /** NaN where its size is not known. */
    readonly plate: number;
  }[];
  /** False: no height to show. */
  readonly floats: boolean;
  /** Of the insulation; NaN where not known. */
  readonly thermalClass: number;
  /** What happens on the way, in a word or two; null: that the thermal class is reached. */
  readonly events: readonly { readonly time: number; readonly label: string | null }[];
}

/** What happens to a design beside the axis. */
export interface DesignSideways {
  /** `pushed off: 0.19 of its weight at 40 mm`, `leans back with 0.11 N·m/°`. */
  readonly words: readonly string[];
  /** Empty where nothing pushes it. */
  readonly curve: readonly SidewaysPoint[];
  /** Where the study looks at it; null where nothing pushes it. */
  readonly at: SidewaysPoint | null;
}

/** Where the heat falls in a plate, SI. */
export interface HeatProfile {
  /** Distances from the axis, ascending. */
  readonly radii: Float64Array;
  /** W/m2, all layers together. */
  readonly density: Float64Array;
}

/** How high a rig floats at a current, SI. */
export interface LiftPoint {
  /** A rms. */
  readonly current: number;
  /** m above rest; 0 while it rests. */
  readonly height: number;
  /** The supply cannot give it; drawn faded. */
  readonly beyond?: boolean;
  /** As far as the supply goes. */
  readonly atLimit?: boolean;
}

export interface Provenance extends RunFacts {
  /** s, from the start of the run to the report. */
  readonly seconds: number;
}

/** A report as files: nothing is written here. */
export interface Report {
  readonly html: string;
  readonly figures: readonly Figure[];
}

export interface Figure {
  /** File name below `figures/`. */
  readonly name: `${string}.svg`;
  readonly svg: string;
}
