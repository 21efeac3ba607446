import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A printed page: its size and where its words stand, in points from the upper left corner. */
export interface PrintedPage {
  readonly width: number;
  readonly height: number;
  readonly words: readonly {
    readonly left: number;
    readonly right: number;
    readonly top: number;
    readonly bottom: number;
    readonly text: string;
  }[];
}

/** The pages of a PDF, read by poppler's pdftotext. */
export function printedPages(pdf: Uint8Array): PrintedPage[] {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-pdf-'));
  try {
    const file = join(folder, 'report.pdf');
    writeFileSync(file, pdf);
    const boxes = execFileSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8', maxBuffer: 2 ** 28 });
    return boxes
      .split('<page ')
      .slice(1)
      .map((page) => {
        const size = /width="([\d.]+)" height="([\d.]+)"/.exec(page)!;
        const words = page.matchAll(
          /<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g,
        );
        return {
          width: Number(size[1]),
          height: Number(size[2]),
          words: Array.from(words, ([, left, top, right, bottom, text]) => ({
            left: Number(left),
            right: Number(right),
            top: Number(top),
            bottom: Number(bottom),
            text: plain(text!),
          })),
        };
      });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  '#39': "'",
};

function plain(text: string): string {
  return text.replace(/&([a-z]+|#39);/g, (whole, name: string) => ENTITIES[name] ?? whole);
}
