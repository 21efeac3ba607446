import { QUANTITIES } from '../model/quantities.ts';
import { column, type RowBatch } from '../model/rows.ts';
import type { Varied } from '../model/study.ts';
import type { DescentReport, Work } from '../plan/plan.ts';
import type { Done } from '../run/workforce.ts';
import type { PartFormat } from '../store/part-bytes.ts';
import { printable } from './announcement.ts';
import { contradiction } from './row-consistency.ts';
import type { Signer } from './signature.ts';

/** What of parts the queue needs, since a stage imports no other, and whose results they are. */
export interface Packing {
  /** Of the study whose rows they are. */
  readonly stamp: string;
  readonly signer: Signer;
  readonly format: PartFormat;
  /** The checksum of a part. */
  readonly checksum: (bytes: Uint8Array) => string;
  /** What is signed of a part: nobody can make other bytes for it. */
  readonly digest: (bytes: Uint8Array) => string;
  /** Batches of so many rows are parts of their own and are written as they came. */
  readonly wholePart: number;
  /** What the study varies. */
  readonly vary: readonly Varied[];
}

/** Work done elsewhere: rows as the bytes of a part, and what a part does not hold of them. */
export interface ResultFields {
  readonly bytes: Buffer;
  /** Their `digest`. */
  readonly checksum: string;
  /** JSON: a ResultNote. */
  readonly note: string;
  /** Of checksum and note, as the result of this piece of work of this study; empty without a secret. */
  readonly signature: string;
}

interface ResultNote {
  readonly count: number;
  readonly report: DescentReport | null;
  /** What broke off the first design whose evaluation threw; null when none did. */
  readonly fault: string | null;
  readonly worker: string;
}

/** `number`: that of the piece of work. */
export function toFields(
  { rows, report = null }: Done,
  number: number,
  fault: string | null,
  worker: string,
  { format, digest, stamp, signer }: Packing,
): ResultFields {
  const bytes = rows.packed?.bytes ?? format.toBytes([{ rows, report: null }]);
  const sum = digest(bytes);
  const note = JSON.stringify({ count: rows.count, report, fault, worker } satisfies ResultNote);
  return {
    bytes: Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength),
    checksum: sum,
    note,
    signature: signer.sign('result', stamp, `${number}`, sum, note),
  };
}

export interface Returned extends Done {
  readonly fault: string | null;
  /** As it calls itself. */
  readonly worker: string;
}

/** What came back for a piece of work, or what is wrong with it: whoever can reach the queue can write there. */
export function fromFields(
  fields: Readonly<Record<string, Buffer>>,
  number: number,
  work: Work,
  packing: Packing,
): Returned | string {
  const { format, checksum, digest, wholePart, vary, stamp, signer } = packing;
  const { bytes } = fields;
  const [json, claimed, signature] = [fields.note, fields.checksum, fields.signature].map(
    (field) => field?.toString('utf8') ?? '',
  ) as [string, string, string];
  if (bytes === undefined || json === '' || claimed === '') return 'it is incomplete';
  const unsigned = signer.check(signature, 'result', stamp, `${number}`, claimed, json);
  if (unsigned !== null) return unsigned;
  const note = readNote(json);
  if (note === null) return 'it is incomplete';
  const { count, report, fault } = note;
  const isDescent = 'from' in work;
  if (isDescent !== (report !== null)) return 'it is that of other work';
  if (isDescent ? count < 1 || count > work.settings.evaluations + 1 : count !== work.count) {
    return `it has ${count} rows`;
  }
  if (digest(bytes) !== claimed) return 'its checksum does not fit';
  const part = format.fromBytes(bytes, { first: isDescent ? 0 : work.first, count });
  if (part === null || part.batches.length !== 1) return 'it is of another study or version';
  const { rows } = part;
  if (!sameStart(rows.values, isDescent ? work.from.design : work.values)) return 'it is of other designs';
  if (isDescent && !valuesKnown(rows, vary)) return 'it is of designs that the study does not have';
  const contradicts = contradiction(rows);
  if (contradicts !== null) return contradicts;
  if (!wordsKnown(rows)) return 'it has words that nobody knows';
  if (report !== null && report.best >= count) return 'its report is of other rows';
  const packed =
    report === null && count >= wholePart ? { packed: { bytes, checksum: checksum(bytes) } } : {};
  return { rows: { ...rows, ...packed }, report, fault, worker: note.worker };
}

const ENDS: readonly string[] = ['settled', 'spent', 'broken off'];

function readNote(json: string): ResultNote | null {
  let found: Partial<ResultNote> | null;
  try {
    found = JSON.parse(json);
  } catch {
    return null;
  }
  const { count, report = null, fault = null, worker } = found ?? {};
  if (!Number.isSafeInteger(count) || typeof worker !== 'string') return null;
  if (fault !== null && typeof fault !== 'string') return null;
  if (report !== null) {
    const { best, feasible, end } = report;
    if (!Number.isSafeInteger(best) || best < 0 || typeof feasible !== 'boolean' || !ENDS.includes(end)) {
      return null;
    }
  }
  const plain = report && { best: report.best, feasible: report.feasible, end: report.end };
  return {
    count: count!,
    report: plain,
    fault: fault === null ? null : printable(fault),
    worker: printable(worker),
  };
}

function sameStart(found: Float64Array, sent: Float64Array): boolean {
  if (found.length < sent.length) return false;
  for (let i = 0; i < sent.length; i++) if (!Object.is(found[i], sent[i])) return false;
  return true;
}

/** Tables look a choice up by its level; a batch's values are compared one by one. */
function valuesKnown({ values, count }: RowBatch, vary: readonly Varied[]): boolean {
  const known = vary.map((varied) =>
    varied.kind === 'number' ? Number.isFinite : (level: number) => isCode(level, varied.levels.length),
  );
  for (let row = 0, at = 0; row < count; row++) {
    for (const isKnown of known) if (!isKnown(values[at++]!)) return false;
  }
  return true;
}

/** Quantities that are words travel as codes; tables look them up. */
const WORDED = QUANTITIES.filter(({ words }) => words.length > 0);

function wordsKnown(rows: RowBatch): boolean {
  return WORDED.every(({ index, words }) =>
    column(rows, rows.quantities, index).every((code) => Number.isNaN(code) || isCode(code, words.length)),
  );
}

function isCode(value: number, codes: number): boolean {
  return Number.isInteger(value) && value >= 0 && value < codes;
}
