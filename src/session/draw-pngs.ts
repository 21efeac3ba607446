import { readFileSync } from 'node:fs';
import { UsageError } from '../errors.ts';
import { type NoPng, PNG_PACKAGE, renderPng, whyNoPng } from '../report/render-png.ts';
import { writePng, writePngs } from '../store/write-pngs.ts';
import { packageFile } from './version.ts';

/** Throws UsageError, which names what to install, where no PNG can be made: before anything is computed for it. */
export async function requirePngs(why: () => Promise<NoPng | null> = whyNoPng): Promise<void> {
  const reason = await why();
  if (reason === null) return;
  if (reason === 'no font') {
    throw new UsageError(
      '--png needs a font on this machine, or its pictures would be without words: install one such as Liberation Sans (fonts-liberation) or DejaVu Sans (fonts-dejavu-core)',
    );
  }
  const { optionalDependencies } = JSON.parse(readFileSync(packageFile(), 'utf8')) as {
    optionalDependencies: Readonly<Record<string, string>>;
  };
  throw new UsageError(
    `--png needs a package that is not installed here: npm install ${PNG_PACKAGE}@${optionalDependencies[PNG_PACKAGE]}, with --global where Eddylift was installed so; figures are SVG without it`,
  );
}

/** A PNG beside each figure of a finished result. Throws FolderError. */
export function drawPngs(folder: string): Promise<void> {
  return writePngs(folder, renderPng);
}

/** A PNG beside one figure. Throws FolderError. */
export function drawPng(folder: string, figure: Parameters<typeof writePng>[1]): Promise<void> {
  return writePng(folder, figure, renderPng);
}
