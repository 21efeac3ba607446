import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { writeAtomically } from './atomic-file.ts';
import { asFolderError } from './folder-error.ts';
import { refuseLink } from './make-folder.ts';
import { FIGURES, type MOTION_FILES, type WARM_FILES } from './result-files.ts';

/** Figures as a result names them; other files in its folder are somebody's own. */
const OURS =
  /^(?:front|effects|map|lift|ordered|sideways|sensitivities|spread|shares|motion|warm|rig)(?:-\d+)?\.svg$/;
/** No figure is larger, bytes. */
const LARGEST = 20 * 2 ** 20;

type Render = (svg: string) => Promise<Uint8Array>;
type Svg = `${typeof FIGURES}/${string}.svg` | typeof MOTION_FILES.figure | typeof WARM_FILES.figure;

/** A PNG beside each figure of a finished result. Throws FolderError. */
export async function writePngs(folder: string, render: Render): Promise<void> {
  let names: string[];
  try {
    await refuseLink(folder, FIGURES);
    names = (await readdir(join(folder, FIGURES))).filter((name) => OURS.test(name)).sort();
  } catch (error) {
    throw asFolderError(error, folder);
  }
  for (const name of names) await writePng(folder, `${FIGURES}/${name.replace(/\.svg$/, '')}.svg`, render);
}

/** A PNG beside one figure. Throws FolderError. */
export async function writePng(folder: string, svg: Svg, render: Render): Promise<void> {
  const path = join(folder, svg);
  let text: string;
  try {
    if ((await stat(path)).size > LARGEST) return;
    text = await readFile(path, 'utf8');
  } catch (error) {
    throw asFolderError(error, folder);
  }
  await writeAtomically(folder, svg.replace(/\.svg$/, '.png') as `${string}.png`, await render(text));
}
