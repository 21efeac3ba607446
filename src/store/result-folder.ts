import { readdir, readFile, rm, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { Study } from '../model/study.ts';
import { unitInCurrency } from '../text/currency.ts';
import { syncFolder, writeAtomically } from './atomic-file.ts';
import { type Attempt, asFolderError, FolderError } from './folder-error.ts';
import { isClaim, lockFolder } from './folder-lock.ts';
import { makeFolder, refuseLink } from './make-folder.ts';
import { createPartFormat } from './part-bytes.ts';
import { digest } from './part-checksum.ts';
import { openParts, type Parts, type PartsRequest } from './parts.ts';
import { FIGURES, PARTS_FOLDER, RESULT_FILES, temporaryOwner } from './result-files.ts';
import {
  type FoundRecord,
  formatRunRecord,
  type Origin,
  RESULT_FORMAT,
  type RunCounts,
  type RunEnd,
  type RunFacts,
  type RunRecord,
  readRunRecord,
} from './run-record.ts';

/** What stands at a path. `finished` is false for a run that was broken off. */
export type FolderState =
  | { readonly kind: 'absent' }
  | { readonly kind: 'empty' }
  | ({ readonly kind: 'result' } & FoundRecord)
  | { readonly kind: 'foreign'; readonly entries: readonly string[] };

const SLUG_LENGTH = 48;
/** A run record is a few kilobytes; anything far larger is none and is not worth reading. */
const LARGEST_RECORD = 1_000_000;
/** Characters of a study that its run record repeats. */
const LONGEST_TEXT = 100_000;

/**
 * The folder's name when none is given: `<slug>-<hash8>`. The slug is lower-case ASCII letters, digits
 * and single hyphens, whatever the title holds.
 */
export function resultFolderName({ title, hash }: Pick<Study, 'title' | 'hash'>): string {
  const slug = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-/, '')
    .slice(0, SLUG_LENGTH)
    .replace(/-$/, '');
  return `${slug || 'study'}-${hash.slice(0, 8)}`;
}

/**
 * What is there, on the way to what is attempted. Throws FolderError when the path cannot be read as a folder or a newer
 * version wrote it.
 */
export async function inspectFolder(folder: string, attempt?: Attempt): Promise<FolderState> {
  let entries: string[];
  try {
    entries = await readdir(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return { kind: 'absent' };
    throw asFolderError(error, folder, attempt);
  }
  const lasting = entries.filter((name) => temporaryOwner(name) === null && !isClaim(name)).sort();
  if (lasting.length === 0) return { kind: 'empty' };
  const record = lasting.includes(RESULT_FILES.run) ? await readRecord(folder, attempt) : null;
  if (record === null) return { kind: 'foreign', entries: lasting };
  const { format } = record;
  if (format > RESULT_FORMAT) {
    throw new FolderError(
      'NEWER_FORMAT',
      folder,
      `${folder} was written by a newer version (format ${format}, this version knows ${RESULT_FORMAT})`,
    );
  }
  return { kind: 'result', ...record };
}

async function readRecord(folder: string, attempt?: Attempt): Promise<FoundRecord | null> {
  const path = join(folder, RESULT_FILES.run);
  try {
    const { size } = await stat(path);
    return size > LARGEST_RECORD ? null : readRunRecord(await readFile(path, 'utf8'));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EISDIR') return null;
    throw asFolderError(error, folder, attempt);
  }
}

/** A result folder that this process alone writes to, until it is closed. */
export interface OpenResult {
  readonly parts: Parts;
  /** Gives the folder free for other runs. */
  close(): Promise<void>;
}

/**
 * Makes the folder ready for a run of this study and locks it: an unfinished run record, the study as run, the parts
 * of a run that was broken off, and no tables. Throws FolderError when the folder holds another study's result, one of
 * another origin or anything else, and when another run is at it.
 */
export async function openResult(
  folder: string,
  study: Study,
  facts: RunFacts,
  onDamage: PartsRequest['onDamage'],
): Promise<OpenResult> {
  // looked at before anything is made, so that what is not ours stays as it is
  refuseOther(folder, study, facts.origin, await inspectFolder(folder));
  let unlock = async () => {};
  try {
    for (const name of [PARTS_FOLDER, FIGURES]) await refuseLink(folder, name);
    await makeFolder(resolve(folder));
    await syncFolder(dirname(resolve(folder)));
    unlock = await lockFolder(folder);
    const state = await inspectFolder(folder);
    refuseOther(folder, study, facts.origin, state);
    await writeAtomically(folder, RESULT_FILES.run, formatRunRecord(recordOf(study, facts, null, null)));
    await sweep(folder);
    await writeAtomically(folder, RESULT_FILES.study, study.text);
    const stamp = stampOf(study.hash, facts.origin);
    return {
      parts: await openParts({ folder, format: createPartFormat(study, stamp), onDamage }),
      close: unlock,
    };
  } catch (error) {
    await unlock();
    throw asFolderError(error, folder);
  }
}

/**
 * A finished result, locked, to read its rows again: its tables stay. Throws FolderError as `openResult`.
 */
export async function reopenResult(
  folder: string,
  study: Study,
  facts: RunFacts,
  onDamage: PartsRequest['onDamage'],
): Promise<OpenResult> {
  refuseOther(folder, study, facts.origin, await inspectFolder(folder));
  const unlock = await lockFolder(folder);
  try {
    const stamp = stampOf(study.hash, facts.origin);
    return {
      parts: await openParts({ folder, format: createPartFormat(study, stamp), onDamage }),
      close: unlock,
    };
  } catch (error) {
    await unlock();
    throw asFolderError(error, folder);
  }
}

/** Marks parts as those of a study and of what their rows follow from; `format` is that of the result. */
export function stampOf(
  studyHash: string,
  { code, catalogue, engine }: Origin,
  format = RESULT_FORMAT,
): string {
  return digest([format, studyHash, code, catalogue, engine].join('\n'));
}

function refuseOther(folder: string, study: Study, origin: Origin, state: FolderState): void {
  if (state.kind === 'foreign') throw notAResult(folder, state.entries);
  if (state.kind !== 'result') return;
  if (state.hash !== study.hash) {
    throw new FolderError(
      'OTHER_STUDY',
      folder,
      `${folder} holds the result of another study, '${state.title}' (${state.hash.slice(0, 8)}); choose another folder`,
    );
  }
  const changed = state.format < RESULT_FORMAT ? 'an older version' : describeChanges(state.origin, origin);
  if (changed !== null) {
    throw new FolderError(
      'OTHER_ORIGIN',
      folder,
      `${folder} was begun with ${changed}, and its rows would not fit those of now; --fresh starts over in a new place`,
    );
  }
}

/** What rows then followed from and no longer do, in words; null where nothing changed. */
export function describeChanges(then: Origin | null, now: Origin): string | null {
  if (then === null) return 'an older version';
  const changes = [
    ...(then.code === now.code ? [] : [`another version of the physics (${then.code}, now ${now.code})`]),
    ...(then.catalogue === now.catalogue
      ? []
      : [`another catalogue of metals and wires (${then.catalogue}, now ${now.catalogue})`]),
    ...(then.engine === now.engine ? [] : [`another JavaScript engine (${then.engine}, now ${now.engine})`]),
  ];
  return changes.length === 0 ? null : changes.join(' and ');
}

/** Marks the result as finished. To be called when the tables stand. */
export async function finishResult(
  folder: string,
  study: Study,
  facts: RunFacts,
  counts: RunCounts,
  end: RunEnd,
): Promise<void> {
  await writeAtomically(folder, RESULT_FILES.run, formatRunRecord(recordOf(study, facts, counts, end)));
}

function recordOf(study: Study, facts: RunFacts, counts: RunCounts | null, end: RunEnd | null): RunRecord {
  return {
    format: RESULT_FORMAT,
    eddylift: facts.version,
    origin: facts.origin,
    node: facts.node,
    study: {
      title: study.title,
      hash: study.hash,
      text: study.text.length <= LONGEST_TEXT ? study.text : null,
    },
    seed: facts.seed,
    threads: facts.threads,
    started: facts.started,
    finished: end?.finished ?? null,
    seconds: end?.seconds ?? null,
    counts,
    search: end?.search ?? null,
    front: end?.front ?? null,
    objectives: study.objectives.map(({ text, sense, unit }) => ({
      text,
      sense,
      unit: unitInCurrency(unit, study),
    })),
  };
}

function notAResult(folder: string, entries: readonly string[]): FolderError {
  const some = entries.slice(0, 3).map((name) => JSON.stringify(name));
  const more = entries.length > some.length ? ', ...' : '';
  return new FolderError(
    'NOT_A_RESULT',
    folder,
    `${folder} is not empty and holds no result (it has ${some.join(', ')}${more}); choose another folder`,
  );
}

/** Tables of an earlier run of this study, and what a killed process left half-written. */
async function sweep(folder: string): Promise<void> {
  const { run, study, ...tables } = RESULT_FILES;
  for (const name of Object.values(tables)) await rm(join(folder, name), { force: true });
  await rm(join(folder, FIGURES), { recursive: true, force: true });
  for (const name of await readdir(folder)) {
    const owner = temporaryOwner(name);
    if (owner !== null && !isRunning(owner)) await rm(join(folder, name), { force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}
