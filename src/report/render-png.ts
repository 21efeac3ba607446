import type { ResvgRenderOptions } from '@resvg/resvg-js';
import { FONT } from './charts/palette.ts';

/** The package that makes pixels of a figure. It has a native part, so that not every machine can install it. */
export const PNG_PACKAGE = '@resvg/resvg-js';

/** Pixels for each of the figure: sharp on paper and on a projector. */
const ZOOM = 2;
/** Names of fonts with Helvetica's widths or near them: nothing here looks for a stand-in, as a browser does. */
const FONTS = 'Arial, Helvetica, Liberation Sans, Arimo, Nimbus Sans, DejaVu Sans, Noto Sans, sans-serif';

/** Why no PNG can be made here: the package is not there, or no font is, without which a figure loses every word. */
export type NoPng = 'no package' | 'no font';

/** Null where figures can be rendered, with all their words. */
export async function whyNoPng(options: ResvgRenderOptions = {}): Promise<NoPng | null> {
  const resvg = await load();
  if (resvg === null) return 'no package';
  const word = `<svg xmlns="http://www.w3.org/2000/svg" width="99" height="20"><text x="3" y="15" font-family="${FONTS}">word</text></svg>`;
  return new resvg.Resvg(word, options).getBBox() === undefined ? 'no font' : null;
}

/** A figure of this program as PNG, twice its size. */
export async function renderPng(svg: string): Promise<Uint8Array> {
  const resvg = await load();
  if (resvg === null) throw new Error(`${PNG_PACKAGE} is not installed`);
  const image = await resvg.renderAsync(svg.replaceAll(`"${FONT}"`, `"${FONTS}"`), {
    fitTo: { mode: 'zoom', value: ZOOM },
  });
  return image.asPng();
}

/** It is loaded where it is needed; null where it is not installed. */
async function load(): Promise<typeof import('@resvg/resvg-js') | null> {
  try {
    return await import('@resvg/resvg-js');
  } catch (error) {
    // its own loader throws a plain error where the native part is not there
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ERR_MODULE_NOT_FOUND' || code === 'MODULE_NOT_FOUND' || /native binding/i.test(message)) {
      return null;
    }
    throw error;
  }
}
