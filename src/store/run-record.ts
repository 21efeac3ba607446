import type { Status } from '../model/status.ts';

/** The version of everything in a result folder; a reader refuses a higher one. */
export const RESULT_FORMAT = 4;

/** What the rows of a result follow from, besides the study. Rows of different origins do not go together. */
export interface Origin {
  /** Digests of the physics and all that leads from a study to its designs, and of the catalogue. */
  readonly code: string;
  readonly catalogue: string;
  /** The JavaScript engine, whose sine and exponential are not the same in every version. */
  readonly engine: string;
}

/** What is known of a run before it starts. */
export interface RunFacts {
  /** Version of this package. */
  readonly version: string;
  readonly origin: Origin;
  /** Version of Node, such as `v20.11.0`. */
  readonly node: string;
  readonly threads: number;
  /** Null for a plan without probability. */
  readonly seed: number | null;
  /** ISO 8601. */
  readonly started: string;
}

export interface RunCounts {
  readonly designs: number;
  readonly statuses: Readonly<Record<Status, number>>;
  readonly feasible: number;
  readonly front: number;
}

/** How a search went, beside its tables. */
export type SearchRecord =
  | { readonly kind: 'nelder_mead'; readonly starts: number; readonly ends: Readonly<Record<string, number>> }
  | {
      readonly kind: 'genetic';
      readonly end: string;
      readonly generations: number;
      readonly growth: number | null;
    };

/** The front in numbers; objectives in the units that `objectives` gives, in their order. */
export interface FrontRecord {
  /** The share of the box between `best` and `reference` that the front dominates. */
  readonly hypervolume: number | null;
  readonly best: readonly number[];
  readonly reference: readonly number[];
  readonly spread: number | null;
  /** Row id. */
  readonly knee: number;
}

export interface RunEnd {
  /** Null for a plan that seeks nothing. */
  readonly search: SearchRecord | null;
  /** Null where no design is on the front. */
  readonly front: FrontRecord | null;
  /** ISO 8601. */
  readonly finished: string;
  readonly seconds: number;
}

/** `run.json`. `finished`, `seconds` and `counts` are null until the tables stand. */
export interface RunRecord {
  readonly format: number;
  readonly eddylift: string;
  readonly origin: Origin;
  readonly node: string;
  /** `text`: the study as run once more, so that changes can be listed; null where it is long. */
  readonly study: { readonly title: string; readonly hash: string; readonly text: string | null };
  readonly seed: number | null;
  readonly threads: number;
  readonly started: string;
  readonly finished: string | null;
  readonly seconds: number | null;
  readonly counts: RunCounts | null;
  readonly search: SearchRecord | null;
  readonly front: FrontRecord | null;
  readonly objectives: readonly { readonly text: string; readonly sense: string; readonly unit: string }[];
}

/** What another part of the program, or another version of it, left behind: enough to know whose it is. */
export interface FoundRecord {
  readonly format: number;
  /** Printable, whatever the file holds. */
  readonly title: string;
  readonly hash: string;
  /** The study as run; null where the record does not hold it. Whether it fits the hash is for the reader to see. */
  readonly text: string | null;
  /** Rows of a finished result; null where the record does not hold it. */
  readonly designs: number | null;
  /** Null in what a version without parts wrote. */
  readonly origin: Origin | null;
  readonly finished: boolean;
}

export function formatRunRecord(record: RunRecord): string {
  return `${JSON.stringify(record, null, 2)}\n`;
}

/** Null when the text is no run record. */
export function readRunRecord(text: string): FoundRecord | null {
  let record: Partial<RunRecord> | null;
  try {
    record = JSON.parse(text);
  } catch {
    return null;
  }
  const format: unknown = record?.format;
  const title: unknown = record?.study?.title;
  const hash: unknown = record?.study?.hash;
  const study: unknown = record?.study?.text;
  const designs: unknown = record?.counts?.designs;
  if (typeof format !== 'number' || typeof title !== 'string') return null;
  if (typeof hash !== 'string' || !/^[0-9a-f]{64}$/.test(hash)) return null;
  return {
    format,
    title: printable(title),
    hash,
    text: typeof study === 'string' ? study : null,
    designs: typeof designs === 'number' && Number.isSafeInteger(designs) ? designs : null,
    origin: originOf(record?.origin),
    finished: typeof record?.finished === 'string',
  };
}

function originOf(found: Partial<Origin> | undefined): Origin | null {
  const { code, catalogue, engine } = found ?? {};
  if (typeof code !== 'string' || typeof catalogue !== 'string' || typeof engine !== 'string') return null;
  return { code, catalogue, engine };
}

/** The title goes to a terminal: no control or direction characters, not endless. */
function printable(text: string): string {
  return text.replace(/[\p{Cc}\p{Cf}]/gu, ' ').slice(0, 200);
}
