import { resolve } from 'node:path';
import { writeAtomically } from './atomic-file.ts';
import { asFolderError } from './folder-error.ts';
import { makeFolder } from './make-folder.ts';
import { RESULT_FILES } from './result-files.ts';

/** `batch.json`: several studies run one after the other. */
export interface BatchRecord {
  /** Version of this package. */
  readonly eddylift: string;
  /** ISO 8601; `finished` is null while studies are to come, and stays so when the batch is broken off. */
  readonly started: string;
  readonly finished: string | null;
  readonly seconds: number;
  readonly studies: readonly BatchStudy[];
}

export interface BatchStudy {
  /** As given on the command line. */
  readonly file: string;
  readonly status: string;
  /** Exit code that the study alone would have had; null while it is to come. */
  readonly code: number | null;
  readonly designs: number | null;
  readonly feasible: number | null;
  readonly front: number | null;
  readonly seconds: number | null;
  readonly folder: string | null;
}

/** Writes the record into the folder that holds the studies' folders. Throws FolderError. */
export async function writeBatch(folder: string, record: BatchRecord): Promise<void> {
  try {
    await makeFolder(resolve(folder));
  } catch (error) {
    throw asFolderError(error, folder);
  }
  await writeAtomically(folder, RESULT_FILES.batch, `${JSON.stringify(record, null, 2)}\n`);
}
