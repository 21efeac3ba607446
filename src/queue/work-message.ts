import type { Descent, Work } from '../plan/plan.ts';
import type { Signer } from './signature.ts';

/** Work as it lies in the queue: its message as text, so that what is signed is what is read, and the signature. */
export interface SealedWork {
  readonly work: string;
  readonly signature: string;
}

/** `numbered`: as in `toMessage`. */
export function sealWork(
  work: Work,
  number: number,
  stamp: string,
  signer: Signer,
  numbered: boolean,
): SealedWork {
  const text = JSON.stringify(toMessage(work, numbered));
  return { work: text, signature: signer.sign('work', stamp, `${number}`, text) };
}

/** The study that work is for, as far as its work follows from it. */
export interface WorkStudy {
  /** How many inputs vary, and how many objectives there are. */
  readonly width: number;
  readonly objectives: number;
  /** The values of so many designs from `first` on; null where the plan does not have them, or knows none beforehand. */
  readonly designs: (first: number, count: number) => Float64Array | null;
}

/** Null for anything that is no work for the study, or is not signed as it must be. */
export function openWork(
  found: unknown,
  number: number,
  { stamp, signer, ...study }: WorkStudy & { stamp: string; signer: Signer },
): Work | null {
  const { work, signature } = (found ?? {}) as Partial<Record<string, unknown>>;
  if (typeof work !== 'string' || typeof signature !== 'string') return null;
  if (signer.check(signature, 'work', stamp, `${number}`, work) !== null) return null;
  try {
    return fromMessage(JSON.parse(work), study);
  } catch {
    return null;
  }
}

/** Work on its way to a worker, as JSON: numbers that JSON has no word for, infinities, travel as bytes. */
export type WorkMessage =
  | { readonly first: number; readonly count: number; readonly values?: string }
  | {
      readonly start: number;
      readonly seed: number;
      readonly objective: number;
      readonly id: number;
      readonly caps: string;
      readonly extents: string;
      readonly design: string;
      readonly costs: string;
      readonly violation: string;
      readonly settings: Descent['settings'];
    };

/** `numbered`: the plan's designs follow from their numbers, so that their values, 50 kB for 1000 designs, stay here. */
export function toMessage(work: Work, numbered: boolean): WorkMessage {
  if (!('from' in work)) {
    const { first, count, values } = work;
    return { first, count, ...(!numbered && { values: pack(values) }) };
  }
  const { start, seed, objective, caps, extents, from, settings } = work;
  const { evaluations, tolerance, resolution } = settings;
  return {
    ...{ start, seed, objective, id: from.id },
    caps: pack(Float64Array.from(caps)),
    extents: pack(Float64Array.from(extents)),
    design: pack(from.design),
    costs: pack(from.costs),
    violation: pack(Float64Array.of(from.violation)),
    settings: { evaluations, tolerance, resolution },
  };
}

/** Most designs of a batch that is taken from a queue; a plan's own are far smaller. */
const MOST_DESIGNS = 2 ** 17;
/** Likewise, evaluations of a descent. */
const MOST_EVALUATIONS = 2 ** 20;

/** Null for anything that is no work for the study. */
export function fromMessage(found: unknown, { width, objectives, designs }: WorkStudy): Work | null {
  if (typeof found !== 'object' || found === null) return null;
  const message = found as Record<string, unknown>;
  if ('first' in message) {
    const { first, count } = message;
    if (!isCount(first, Number.MAX_SAFE_INTEGER) || !isCount(count, MOST_DESIGNS)) return null;
    const values = 'values' in message ? unpack(message.values, count * width) : designs(first, count);
    return values && { first, count, values };
  }
  const { start, seed, objective, id, settings } = message;
  const { evaluations, tolerance, resolution } = (settings ?? {}) as Record<string, unknown>;
  const caps = unpack(message.caps, objectives);
  const extents = unpack(message.extents, objectives);
  const design = unpack(message.design, width);
  const costs = unpack(message.costs, objectives);
  const violation = unpack(message.violation, 1);
  if (!caps || !extents || !design || !costs || !violation) return null;
  if (!isCount(start, Number.MAX_SAFE_INTEGER) || !isCount(seed, Number.MAX_SAFE_INTEGER)) return null;
  if (!isCount(id, Number.MAX_SAFE_INTEGER) || !isCount(objective, objectives - 1)) return null;
  if (!isCount(evaluations, MOST_EVALUATIONS)) return null;
  if (typeof tolerance !== 'number' || typeof resolution !== 'number') return null;
  return {
    ...{ start, seed, objective, caps: [...caps], extents: [...extents] },
    from: { id, design, costs, violation: violation[0]! },
    settings: { evaluations, tolerance, resolution },
  };
}

function isCount(value: unknown, most: number): value is number {
  return Number.isSafeInteger(value) && (value as number) >= 0 && (value as number) <= most;
}

function pack(values: Float64Array): string {
  return Buffer.from(values.buffer, values.byteOffset, values.byteLength).toString('base64');
}

function unpack(text: unknown, length: number): Float64Array | null {
  if (typeof text !== 'string') return null;
  const bytes = Uint8Array.from(Buffer.from(text, 'base64'));
  return bytes.length === 8 * length ? new Float64Array(bytes.buffer) : null;
}
