import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Study } from '../model/study.ts';
import { RESULT_FILES } from '../store/result-files.ts';
import { describeChanges, inspectFolder, resultFolderName } from '../store/result-folder.ts';
import { origin } from './origin.ts';

/** Where results go when nobody names a folder. */
export const RESULTS = 'results';

export interface ChosenFolder {
  /** As the user would write it. */
  readonly shown: string;
  readonly path: string;
  /** The finished result of this very study is there. */
  readonly finished: boolean;
  /** Its report is there, too. */
  readonly reported: boolean;
  /** What this program does otherwise than the one that finished the result; null where rows would be the same. */
  readonly changed: string | null;
}

export interface FolderChoice {
  /** The folder of `--out`; null: results/<slug>-<hash8>. */
  readonly out: string | null;
  /** Whether `out` holds one folder a study, or is the folder itself. */
  readonly several: boolean;
  /** Start over in a new place when there is something already. */
  readonly fresh: boolean;
  /** A share has a folder of its own. */
  readonly share: { readonly part: number; readonly of: number } | null;
  readonly cwd: string;
}

/** The folder for a study's result. A folder with something else in it is chosen, too: who writes to it refuses. */
export async function chooseFolder(study: Study, choice: FolderChoice): Promise<ChosenFolder> {
  const { out, several, fresh, share, cwd } = choice;
  const name = `${resultFolderName(study)}${share ? `-share-${share.part}-of-${share.of}` : ''}`;
  const shown = out !== null && !several ? out : join(out ?? RESULTS, name);
  if (fresh) return nextFree(shown, cwd);
  const path = resolve(cwd, shown);
  const state = await inspectFolder(path);
  const finished = state.kind === 'result' && state.hash === study.hash && state.finished;
  const changed = finished ? describeChanges(state.origin, origin()) : null;
  return {
    shown,
    path,
    finished,
    reported: finished && existsSync(join(path, RESULT_FILES.report)),
    changed,
  };
}

async function nextFree(shown: string, cwd: string): Promise<ChosenFolder> {
  const stem = shown.replace(/[/\\]+$/, '');
  for (let n = 1; ; n++) {
    const candidate = n === 1 ? stem : `${stem}-${n}`;
    const path = resolve(cwd, candidate);
    const { kind } = await inspectFolder(path);
    if (kind === 'absent' || kind === 'empty')
      return { shown: candidate, path, finished: false, reported: false, changed: null };
  }
}
