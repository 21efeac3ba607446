import type { Report } from '../report/report-input.ts';
import { syncFolder, writeAtomically } from './atomic-file.ts';
import { asFolderError } from './folder-error.ts';
import { makeOwnFolder } from './make-folder.ts';
import { FIGURES, RESULT_FILES } from './result-files.ts';

/** Writes `report.html` and the pictures of `figures/`, each whole or not at all. Throws FolderError. */
export async function writeReport(folder: string, { html, figures }: Report): Promise<void> {
  try {
    await makeOwnFolder(folder, FIGURES);
    await syncFolder(folder);
  } catch (error) {
    throw asFolderError(error, folder);
  }
  for (const { name, svg } of figures) await writeAtomically(folder, `${FIGURES}/${name}`, `${svg}\n`);
  await writeAtomically(folder, RESULT_FILES.report, html);
}
