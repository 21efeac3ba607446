import type { Study } from '../model/study.ts';

/** What the command writes into a live page, and all that the page knows besides the laws. */
export interface LiveData {
  readonly study: LiveStudy;
  /** The design that the page begins with. */
  readonly design: number;
  /** Its varied inputs. */
  readonly values: Float64Array;
  /** What the study holds besides its rig, drive, plan and what varies, as YAML: limits, objectives, tolerances. */
  readonly otherSections: string;
  /** Of this package. */
  readonly version: string;
  /** Designs of the study to choose from; left out where they are found by a search alone. */
  readonly designs?: {
    /** Of the whole plan. */
    readonly total: number;
    readonly ids: readonly number[];
    /** ids.length x vary.length */
    readonly values: Float64Array;
  };
}

export type LiveStudy = Pick<
  Study,
  'title' | 'hash' | 'rig' | 'vary' | 'derive' | 'limits' | 'objectives' | 'tolerance' | 'requested'
>;

/** JSON that also holds arrays of doubles and numbers that are not finite. */
export function pack(value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) return { [NUMBER]: String(value) };
  if (value instanceof Float64Array) return { [ARRAY]: Array.from(value, pack) };
  if (Array.isArray(value)) return value.map(pack);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, pack(inner)]));
}

export function unpack(packed: unknown): unknown {
  if (Array.isArray(packed)) return packed.map(unpack);
  if (typeof packed !== 'object' || packed === null) return packed;
  const object = packed as Record<string, unknown>;
  if (NUMBER in object) return Number(object[NUMBER]);
  if (ARRAY in object)
    return Float64Array.from((object[ARRAY] as unknown[]).map((each) => unpack(each) as number));
  return Object.fromEntries(Object.entries(object).map(([key, inner]) => [key, unpack(inner)]));
}

const NUMBER = '$number';
const ARRAY = '$doubles';
