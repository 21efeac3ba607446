import { stat } from 'node:fs/promises';
import { basename, dirname, resolve } from 'node:path';
import { UsageError } from '../errors.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { createPartFormat } from '../store/part-bytes.ts';
import { covering, listParts, readRows } from '../store/parts.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { describeChanges, type FolderState, inspectFolder, stampOf } from '../store/result-folder.ts';
import { count } from '../words/describe-plan.ts';
import { type FoundResult, findResult } from './find-result.ts';
import type { Io } from './io.ts';
import { loadStudy } from './load-study.ts';
import { type DesignChoice, numberOf } from './named-design.ts';
import { origin } from './origin.ts';
import { STDIN } from './read-study-file.ts';

export interface FoundDesign {
  readonly study: Study;
  readonly design: number;
  /** What varies, for this design. */
  readonly values: Float64Array;
}

/** A study, and the result that it was read from, null where it was read from a study file. */
export interface FoundStudy {
  readonly study: Study;
  readonly result: FoundResult | null;
}

/**
 * The study of a study file or of a result folder; null when it has problems, which then stand on stderr. Throws
 * UsageError, in one line, when the place cannot be used.
 */
export async function findStudy(place: string, io: Io): Promise<FoundStudy | null> {
  const kind = await kindOf(place, io);
  if (kind === 'result') {
    const result = await findResult(place, io);
    if (result) noteOtherOrigin(place, result, io);
    return result && { study: result.study, result };
  }
  if (kind !== 'file') {
    throw new UsageError(`${place} is a folder but no result: it has no ${RESULT_FILES.run} of a run`);
  }
  // the study of a result is trusted no further where it is named by itself
  const folder = dirname(place);
  const isOwn = basename(place) === RESULT_FILES.study && (await kindOf(folder, io)) === 'result';
  if (isOwn) await findResult(folder, io);
  const study = await loadStudy(place, true, io);
  return study && { study, result: null };
}

/** A result's tables stay as they are, while its designs are computed anew for a card. */
function noteOtherOrigin(place: string, { record }: FoundResult, io: Io): void {
  const changed = describeChanges(record.origin, origin());
  if (changed === null) return;
  io.stderr.write(
    `eddylift: ${place} was made with ${changed}; what is shown here is computed by this version\n`,
  );
}

async function kindOf(place: string, io: Io): Promise<FolderState['kind'] | 'file'> {
  if (place === STDIN) return 'file';
  const path = resolve(io.cwd, place);
  const isFolder = await stat(path).then(
    (found) => found.isDirectory(),
    // whoever reads the study reports what is wrong with the path
    () => false,
  );
  return isFolder ? (await inspectFolder(path, 'read the result in')).kind : 'file';
}

/**
 * A design of a study file, or of the study in a result folder; null when the study has problems, which then stand on
 * stderr. Throws UsageError, in one line, when the place cannot be used or there is no such design.
 */
export async function findDesign(place: string, choice: DesignChoice, io: Io): Promise<FoundDesign | null> {
  const found = await findStudy(place, io);
  if (found === null) return null;
  const design = await numberOf(choice, found, place, io);
  return design === null ? null : designOf(found, design);
}

export async function designOf({ study, result }: FoundStudy, design: number): Promise<FoundDesign> {
  // every row of a grid or a scatter follows from the plan; those of a search stand in the parts alone
  const values = valuesInPlan(study, design) ?? (await valuesInParts(study, result, design));
  return { study, design, values };
}

/** Null for a plan that finds its designs while it runs. */
function valuesInPlan(study: Study, design: number): Float64Array | null {
  const plan = createPlan(study);
  if (plan.total === null) return null;
  refuseBeyond(plan.total, design);
  if (plan.design) return plan.design(design);
  const width = study.vary.length;
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) {
    const at = design - work.first;
    if (at < work.count) return work.values.slice(at * width, (at + 1) * width);
  }
  return null;
}

async function valuesInParts(
  study: Study,
  result: FoundResult | null,
  design: number,
): Promise<Float64Array> {
  if (!result?.record.origin) {
    throw new UsageError(
      `the designs of a search (plan: ${study.plan.kind}) are found while it runs: name its result folder`,
    );
  }
  const { folder, record } = result;
  const parts = await listParts(folder);
  const last = parts.at(-1);
  refuseBeyond(record.designs ?? (last ? last.first + last.count : 0), design);
  const stamp = stampOf(record.hash, result.record.origin, record.format);
  const rows = await readRows(
    folder,
    covering(folder, parts, design, 1),
    createPartFormat(study, stamp),
    design,
    1,
  );
  if ('damaged' in rows) throw new UsageError(`design ${design} cannot be read: ${rows.damaged}`);
  return rows.values;
}

function refuseBeyond(total: number, design: number): void {
  if (design < total) return;
  const known =
    total === 1
      ? 'there is one, design 0'
      : `there are ${count(total, 'design')}${total > 0 ? `, 0 to ${total - 1}` : ''}`;
  throw new UsageError(`there is no design ${design}: ${known}`);
}
