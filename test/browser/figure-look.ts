import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import type { Page } from 'playwright-core';
import { type PrintedPage, printedPages } from './pdf-pages.ts';

/** What a program makes of a figure: a picture of it, and a page of a PDF, whose words can be read. */
export interface Rendered {
  readonly png: Buffer;
  readonly page: PrintedPage;
}

/** A text of a figure and where a browser sets it, px. */
export interface SetText {
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** By librsvg's `rsvg-convert`. */
export function byRsvg(files: readonly string[]): Map<string, Rendered> {
  const convert = (file: string, format: string) =>
    execFileSync('rsvg-convert', ['--format', format, file], { maxBuffer: 2 ** 26 });
  return new Map(
    files.map((file) => [file, { png: convert(file, 'png'), page: printedPages(convert(file, 'pdf'))[0]! }]),
  );
}

/** By LibreOffice Draw, all files at once: it takes seconds to start. */
export function byLibreOffice(files: readonly string[]): Map<string, Rendered> {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-figures-'));
  try {
    for (const format of ['png', 'pdf']) {
      const args = ['--headless', `-env:UserInstallation=file://${folder}/profile`, '--convert-to', format];
      execFileSync('soffice', [...args, '--outdir', folder, ...files], { stdio: 'pipe' });
    }
    const made = readdirSync(folder);
    return new Map(
      files.map((file) => {
        const name = basename(file, '.svg');
        if (!made.includes(`${name}.png`)) throw new Error(`LibreOffice made nothing of ${file}`);
        const read = (ending: string) => readFileSync(join(folder, `${name}.${ending}`));
        return [file, { png: read('png'), page: printedPages(read('pdf'))[0]! }];
      }),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A figure as Chromium shows it: its texts and a picture of it. */
export async function inBrowser(
  page: Page,
  file: string,
): Promise<{ texts: SetText[]; png: Buffer; width: number }> {
  await page.goto(`file://${file}`);
  const texts = await page.evaluate(() =>
    Array.from(document.querySelectorAll('text'), (each) => {
      const { left, top, right, bottom } = each.getBoundingClientRect();
      return { text: each.textContent!.trim(), left, top, right, bottom };
    }).filter(({ text }) => text !== ''),
  );
  const [width, height] = await page.evaluate(() => {
    const svg = document.documentElement as unknown as SVGSVGElement;
    return [svg.width.baseVal.value, svg.height.baseVal.value] as const;
  });
  const png = await page.screenshot({ clip: { x: 0, y: 0, width, height } });
  return { texts, png, width };
}

/** Px that a text may stand beside its place, and the share of its width by which another font may be wider. */
const ASIDE = 6;
const WIDER = 0.18;

/** Texts of which letters are missing where they are to stand. Turned words come in pieces: so letters are counted. */
export function missingWords(texts: readonly SetText[], { words, width }: PrintedPage, of: number): string[] {
  const px = of / width;
  return texts
    .filter(({ text, left, top, right, bottom }) => {
      const air = ASIDE + WIDER * (right - left);
      const found = words.filter((word) => {
        const x = (px * (word.left + word.right)) / 2;
        const y = (px * (word.top + word.bottom)) / 2;
        return x > left - air && x < right + air && y > top - ASIDE && y < bottom + ASIDE;
      });
      const letters = found.flatMap((word) => [...word.text]);
      return [...text.replaceAll(/\s/g, '')].some((letter) => {
        const at = letters.indexOf(letter);
        if (at >= 0) letters.splice(at, 1);
        return at < 0;
      });
    })
    .map(({ text }) => text);
}

/**
 * Squares of a figure, 8 px wide, in which one picture has ink and the other has none there or beside it: `x,y` of each.
 * Fonts that differ a little do not show, words and lines that are missing do.
 */
export function strayInk(page: Page, pictures: readonly [Buffer, Buffer]): Promise<string[]> {
  const urls = pictures.map((png) => `data:image/png;base64,${png.toString('base64')}`);
  return page.evaluate(async (sources) => {
    const SIDE = 8;
    /** Of 255, mean of a square: less is the rim of a letter. */
    const FAINT = 6;
    const images = await Promise.all(
      sources.map(async (src) => {
        const image = new Image();
        image.src = src;
        await image.decode();
        return image;
      }),
    );
    const [width, height] = [images[0]!.width, images[0]!.height];
    const [columns, rows] = [Math.floor(width / SIDE), Math.floor(height / SIDE)];
    const inks = images.map((image) => {
      const canvas = document.createElement('canvas');
      Object.assign(canvas, { width, height });
      const context = canvas.getContext('2d')!;
      context.fillStyle = '#fff';
      context.fillRect(0, 0, width, height);
      context.drawImage(image, 0, 0, width, height);
      const { data } = context.getImageData(0, 0, width, height);
      const ink = new Float64Array(columns * rows);
      for (let y = 0; y < rows * SIDE; y++) {
        for (let x = 0; x < columns * SIDE; x++) {
          const at = 4 * (y * width + x);
          const dark = 255 - Math.min(data[at]!, data[at + 1]!, data[at + 2]!);
          ink[Math.floor(y / SIDE) * columns + Math.floor(x / SIDE)]! += dark / SIDE / SIDE;
        }
      }
      return ink;
    });
    const near = (ink: Float64Array, x: number, y: number) => {
      let most = 0;
      for (let v = Math.max(0, y - 1); v <= Math.min(rows - 1, y + 1); v++) {
        for (let u = Math.max(0, x - 1); u <= Math.min(columns - 1, x + 1); u++) {
          most = Math.max(most, ink[v * columns + u]!);
        }
      }
      return most;
    };
    const stray: string[] = [];
    for (let y = 0; y < rows; y++) {
      for (let x = 0; x < columns; x++) {
        const at = y * columns + x;
        const [a, b] = [inks[0]!, inks[1]!];
        const missing = (one: Float64Array, other: Float64Array) =>
          one[at]! > FAINT && near(other, x, y) < FAINT / 3;
        if (missing(a, b) || missing(b, a)) stray.push(`${x * SIDE},${y * SIDE}`);
      }
    }
    return stray;
  }, urls);
}
