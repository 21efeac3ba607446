import type { Judgement } from '../model/cautions/judge.ts';
import type { Study } from '../model/study.ts';
import type { DrawnDesign } from './drawing/rig-outline.ts';
import type { DesignMotion, DesignWarming, LiftPoint } from './report-input.ts';

/** All that the bench card of one design shows as a page. */
export interface CardInput {
  readonly study: Pick<Study, 'title' | 'vary' | 'rig' | 'limits' | 'hash'>;
  readonly design: number;
  /** `design 12`, `the rig`. */
  readonly name: string;
  /** Null for a design that cannot be evaluated. */
  readonly drawn: DrawnDesign | null;
  /** In reading order; each line a topic and its text. */
  readonly sections: readonly CardSection[];
  /** Over the whole width, after the others; null where there is nothing to show. */
  readonly wide: CardSection | null;
  /** Over the whole width, on the back; null where there is nothing to show. */
  readonly last: CardSection | null;
  /** Null where there is nothing to list. */
  readonly table: CardTable | null;
  /** Empty where nothing floats. */
  readonly lift: readonly LiftPoint[];
  readonly operating: LiftPoint | null;
  /** Switched on at once, and set cold and left alone; null where that is not computed. */
  readonly motion: DesignMotion | null;
  readonly warming: DesignWarming | null;
  /** The judgement of every caution on it. */
  readonly cautions: readonly Judgement[];
  /** Of this package. */
  readonly version: string;
}

export interface CardSection {
  readonly heading: string;
  readonly rows: readonly (readonly string[])[];
}

export interface CardTable {
  readonly heading: string;
  readonly columns: readonly {
    readonly label: string;
    /** Empty where there is none. */
    readonly unit: string;
    readonly cells: readonly string[];
  }[];
}
