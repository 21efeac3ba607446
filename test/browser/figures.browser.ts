import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nightly } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';
import { launch } from './chromium.ts';
import { byLibreOffice, byRsvg, inBrowser, missingWords, type Rendered, strayInk } from './figure-look.ts';

/** A picture of each kind, that somebody has looked at in a browser. */
const FIGURES = ['test/golden/figures', 'studies/figures', 'docs'].flatMap((folder) =>
  readdirSync(join(PROJECT, folder))
    .filter((name) => name.endsWith('.svg'))
    .map((name) => `${folder}/${name}`),
);

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launch();
  page = await browser.newPage({ viewport: { width: 1000, height: 1000 } });
});
afterAll(() => browser.close());

const PROGRAMS: [string, (files: readonly string[]) => Map<string, Rendered>][] = [
  ['rsvg-convert', byRsvg],
  // it takes a package of 400 MB
  ...(nightly ? ([['LibreOffice', byLibreOffice]] as [string, typeof byLibreOffice][]) : []),
];

describe.each(PROGRAMS)('a figure in %s', (_, render) => {
  let rendered: Map<string, Rendered>;
  beforeAll(() => {
    rendered = render(FIGURES.map((file) => join(PROJECT, file)));
  });

  it.each(FIGURES)('%s keeps its words and its layout', async (file) => {
    const path = join(PROJECT, file);
    const { texts, png, width } = await inBrowser(page, path);
    const other = rendered.get(path)!;
    expect(texts.length).toBeGreaterThan(3);
    expect(missingWords(texts, other.page, width)).toEqual([]);
    await page.goto('about:blank');
    expect(await strayInk(page, [png, other.png])).toEqual([]);
  });
});
