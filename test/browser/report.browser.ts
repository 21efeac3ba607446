import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder } from '../support/cli.ts';
import { hostileStudy } from '../support/hostile-study.ts';
import { PROJECT } from '../support/source-files.ts';
import { launch, nextFrame, open, type Watched } from './chromium.ts';
import { printedPages } from './pdf-pages.ts';

/** Past 300 lines: every look at the report shares one browser and the results it is opened on. */

const AXE = createRequire(import.meta.url).resolve('axe-core');
const STUDIES = [
  ...readdirSync(join(PROJECT, 'studies'))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => name.replace('.yaml', '')),
  // calibrated, with tolerances
  'bench/next-design',
];

const folder = scratchFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function run(study: string, out: string): Promise<void> {
  const { code, err } = await cli(['run', study, '--out', out, '--quiet'], folder);
  expect({ code, err }).toEqual({ code: 0, err: '' });
}

function frontOf(out: string): Record<string, string>[] {
  return parse(readFileSync(join(folder, out, 'front.csv')), { columns: true });
}

function reportOf(out: string): string {
  return join(folder, out, 'report.html');
}

/** A screen of a table, and of a small phone. */
const SCREENS = [
  ['light', 1000],
  ['dark', 1000],
  ['light', 360],
] as const;

/** Reports that are looked at on the phone, too: between them they have every section. */
const NARROW = ['metal-and-turns', 'pan-heater', 'bench/next-design'];

/** What a screen shows is no wider than it: parts of it scroll by themselves. */
async function fits(page: Page, width: number): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
}

async function violations(page: Page): Promise<string[]> {
  await page.addScriptTag({ path: AXE });
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations: found } = await axe.run();
    return found.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  });
}

describe.each(STUDIES)('the report of %s', (name) => {
  let watched: Watched;
  let front: Record<string, string>[];
  beforeAll(async () => {
    await run(join(PROJECT, 'studies', `${name}.yaml`), name);
    front = frontOf(name);
    watched = await open(browser, reportOf(name));
  });
  afterAll(() => watched.page.close());

  it('opens from disk without a complaint and asks for nothing else', () => {
    expect(watched.complaints).toEqual([]);
    expect(watched.requests).toEqual([]);
  });

  it('shows as many dots on the front, and rows in its table, as front.csv has rows', async () => {
    const { page } = watched;
    const charts = page.locator('#front figure svg[role=group]');
    expect(await charts.count()).toBeGreaterThan(0);
    for (const chart of await charts.all()) expect(await chart.locator('a').count()).toBe(front.length);
    expect(await page.locator('#front tbody tr').count()).toBe(front.length);
  });

  it.each(SCREENS.filter(([, width]) => width > 500 || NARROW.includes(name)))(
    'has no accessibility violation on a %s screen %d px wide',
    async (colorScheme, width) => {
      // a checker is a script, which the page's own policy would not let in
      const { page } = await open(browser, reportOf(name), {
        colorScheme,
        bypassCSP: true,
        viewport: { width, height: 800 },
      });
      await fits(page, width);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      expect(await violations(page)).toEqual([]);
      await page.locator('#front tbody a').first().click();
      expect(await violations(page)).toEqual([]);
      await page.close();
    },
  );

  it('prints on A4 with every chart whole on one page and nothing beyond the margins', async () => {
    const { page } = await open(browser, reportOf(name));
    const pdf = await page.pdf({ preferCSSPageSize: true });
    await page.close();
    const pages = printedPages(pdf);
    expect(pages.length).toBeGreaterThan(1);
    for (const { width, height, words } of pages) {
      // A4 in points, rounded by the printer
      expect([Math.round(width), Math.round(height)]).toEqual([595, 842]);
      for (const word of words) {
        expect([word.left >= 0, word.right <= width, word.bottom <= height], word.text).toEqual([
          true,
          true,
          true,
        ]);
      }
    }
    await checkWholeCharts(name);
  });
});

/** Each figure, laid out for print, is no larger than the printable part of a page. */
async function checkWholeCharts(name: string): Promise<void> {
  const MM = 96 / 25.4;
  const [width, height] = [(210 - 28) * MM, (297 - 30) * MM];
  const { page } = await open(browser, reportOf(name), {
    viewport: { width: Math.floor(width), height: Math.floor(height) },
  });
  await page.emulateMedia({ media: 'print' });
  const boxes = await page.locator('figure').evaluateAll((figures) =>
    figures.map((figure) => {
      const { width: w, height: h, left } = figure.getBoundingClientRect();
      const svg = figure.querySelector('svg')!.getBoundingClientRect();
      return { w, h, left, svgRight: svg.right, breaks: getComputedStyle(figure).breakInside };
    }),
  );
  for (const box of boxes) {
    expect(box.left).toBeGreaterThanOrEqual(0);
    expect(Math.max(box.w, box.svgRight)).toBeLessThanOrEqual(Math.ceil(width));
    expect(box.h).toBeLessThanOrEqual(height);
    expect(box.breaks).toBe('avoid');
  }
  await page.close();
}

describe('what a reader does with a report', () => {
  const name = 'metal-and-turns';
  let watched: Watched;
  let front: Record<string, string>[];
  beforeAll(async () => {
    front = frontOf(name);
    watched = await open(browser, reportOf(name));
  });
  afterAll(async () => {
    expect(watched.complaints).toEqual([]);
    await watched.page.close();
  });
  const dot = (design: string) => watched.page.locator(`#front figure svg a[href="#design-${design}"]`);
  const card = () => watched.page.locator('dialog#card');
  const hover = () => watched.page.locator('#hover');

  it('points at a dot and reads which design it is', async () => {
    const { design, coil_turns: turns } = front[20]!;
    await dot(design!).hover();
    expect(await hover().isVisible()).toBe(true);
    const text = await hover().textContent();
    expect(text).toContain(`design ${design}`);
    expect(text).toContain(`coil turns: ${turns}`);
    await watched.page.mouse.move(2, 2);
    expect(await hover().isVisible()).toBe(false);
  });

  it('clicks a dot and reads all numbers of that design, those of front.csv', async () => {
    const row = front[20]!;
    await dot(row.design!).click();
    expect(await card().isVisible()).toBe(true);
    expect(await card().locator('h2').textContent()).toBe(`Design ${row.design}`);
    const value = async (label: string) =>
      card()
        .locator('dl > div', { has: watched.page.locator(`dt:text-is("${label}")`) })
        .locator('dd')
        .last()
        .textContent();
    expect(await value('coil turns')).toBe(row.coil_turns);
    for (const [label, column, unit] of [
      ['coil mass', 'coil_mass_kg', 'kg'],
      ['height', 'height_mm', 'mm'],
      ['lift-off voltage', 'liftoff_voltage_V', 'V'],
    ] as const) {
      expect(await value(label)).toBe(`${Number(Number(row[column]).toPrecision(4))} ${unit}`);
    }
    expect(await card().locator('svg').count()).toBe(1);
  });

  it('walks to the next design, closes the card with Escape and is back on the dot', async () => {
    await card().getByRole('button', { name: 'Next' }).click();
    expect(await card().locator('h2').textContent()).toBe(`Design ${front[21]!.design}`);
    await watched.page.keyboard.press('Escape');
    expect(await card().isVisible()).toBe(false);
  });

  it('reaches the chart, every dot, a card and its buttons by keyboard alone', async () => {
    const { page } = watched;
    await page.locator('nav a').last().focus();
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('href') ?? '');
    const isOnChart = () => page.evaluate(() => document.activeElement?.closest('#front figure') !== null);
    for (let i = 0; i < 40 && !(await isOnChart()); i++) await page.keyboard.press('Tab');
    await page.keyboard.press('Home');
    const seen = new Set([await focused()]);
    for (let i = 1; i < front.length; i++) {
      await page.keyboard.press('ArrowRight');
      seen.add(await focused());
    }
    expect(seen).toEqual(new Set(front.map(({ design }) => `#design-${design}`)));
    expect(await hover().isVisible()).toBe(true);
    await page.keyboard.press('Enter');
    expect(await card().isVisible()).toBe(true);
    // the heaviest coil is the first design of front.csv: there is none before it
    const buttons: (string | undefined)[] = [];
    const button = () =>
      page.evaluate(() => document.activeElement?.closest('dialog button')?.textContent ?? undefined);
    for (let i = 0; i < 6 && buttons.at(-1) !== 'Close'; i++) {
      if (i > 0) await page.keyboard.press('Tab');
      buttons.push(await button());
    }
    expect(buttons).toEqual(['Next', 'Close']);
    await page.keyboard.press('Enter');
    expect(await card().isVisible()).toBe(false);
    expect(seen.has(await focused())).toBe(true);
  });

  it('sorts the front by a column, up and down, and each row keeps its own numbers', async () => {
    const { page } = watched;
    const head = page.locator('#front thead th', { hasText: 'coil mass' });
    const column = async (index: number) =>
      page
        .locator(`#front tbody tr > :nth-child(${index})`)
        .evaluateAll((cells) => cells.map((cell) => Number((cell as HTMLElement).dataset.value)));
    const index = (await head.evaluate((th) => (th as HTMLTableCellElement).cellIndex)) + 1;
    await head.getByRole('button').click();
    expect(await head.getAttribute('aria-sort')).toBe('ascending');
    const masses = await column(index);
    expect(masses).toEqual([...masses].sort((a, b) => a - b));
    const designs = await column(1);
    const byDesign = new Map(front.map((row) => [Number(row.design), Number(row.coil_mass_kg)]));
    // the page holds seven digits
    for (const [i, design] of designs.entries()) {
      expect(masses[i]! / byDesign.get(design)!).toBeCloseTo(1, 6);
    }
    await head.getByRole('button').press('Enter');
    expect(await head.getAttribute('aria-sort')).toBe('descending');
    expect(await column(index)).toEqual([...masses].reverse());
  });

  it('finds the same page readable without script: each dot leads to its row in the table', async () => {
    const { page } = await open(browser, reportOf(name), { javaScriptEnabled: false });
    const { design } = front[20]!;
    await page.locator(`#front figure svg a[href="#design-${design}"]`).click();
    expect(new URL(page.url()).hash).toBe(`#design-${design}`);
    expect(await page.locator(`tr#design-${design}`).isVisible()).toBe(true);
    await page.close();
  });
});

describe('sections that not every study has', () => {
  it('tell spread and fit of a calibrated study, with a way to both, and fit a phone', async () => {
    const { page } = await open(browser, reportOf('bench/next-design'), {
      viewport: { width: 390, height: 800 },
    });
    for (const [link, id] of [
      ['Tolerances', 'tolerances'],
      ['Calibration', 'calibration'],
    ] as const) {
      await page.getByRole('link', { name: link, exact: true }).click();
      expect(new URL(page.url()).hash).toBe(`#${id}`);
      expect(await page.locator(`#${id} h2`).isVisible()).toBe(true);
    }
    expect(await page.locator('#tolerances figure svg[role=img]').count()).toBe(2);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    await page.close();
  });
});

describe('a comparison with measured points', () => {
  const file = join(folder, 'comparison.html');
  beforeAll(async () => {
    const bench = join(PROJECT, 'studies/bench');
    const free = 'plate.metal.resistivity,standoff,coil.extra_mass';
    const { code, out } = await cli(
      ['compare', 'prediction.yaml', 'measured.csv', '--free', free, '--html'],
      bench,
    );
    expect(code).toBe(0);
    writeFileSync(file, out);
  });

  it.each(SCREENS)(
    'is accessible on a %s screen %d px wide and complains of nothing',
    async (colorScheme, width) => {
      const { page, complaints, requests } = await open(browser, file, {
        colorScheme,
        bypassCSP: true,
        viewport: { width, height: 800 },
      });
      await fits(page, width);
      await page.evaluate(() => {
        for (const details of document.querySelectorAll('details')) details.open = true;
      });
      expect(await violations(page)).toEqual([]);
      expect([complaints, requests]).toEqual([[], []]);
      await page.close();
    },
  );

  it('fits a phone, and a printed page keeps its charts whole', async () => {
    const { page } = await open(browser, file, { viewport: { width: 390, height: 800 } });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
    const pages = printedPages(await page.pdf({ preferCSSPageSize: true }));
    expect(pages.length).toBeLessThanOrEqual(2);
    for (const { width, words } of pages) {
      for (const word of words) expect(word.right, word.text).toBeLessThanOrEqual(width);
    }
    await page.close();
  });
});

describe('a picture that moves', () => {
  beforeAll(() => run(join(PROJECT, 'studies', 'steady-float.yaml'), 'moving'), 120_000);

  it.each([
    ['no-preference', true],
    ['reduce', false],
  ] as const)('with %s: a click starts it: %s', async (reducedMotion, starts) => {
    const { page } = await open(browser, reportOf('moving'), { reducedMotion });
    const picture = page.locator('svg.moving').first();
    await picture.scrollIntoViewIfNeeded();
    const drawn = () => picture.screenshot();
    // its clock is held, since a busy machine may take the picture when the jump is over
    await picture.evaluate((svg: SVGSVGElement) => svg.pauseAnimations());
    const still = await drawn();
    // where it is at rest, whatever lies above it
    const { x, y, width, height } = (await picture.boundingBox())!;
    await page.mouse.click(x + width / 2, y + height / 2);
    // the jump takes a tenth of a second
    await picture.evaluate((svg: SVGSVGElement) => svg.setCurrentTime(svg.getCurrentTime() + 0.1));
    await nextFrame(page);
    expect((await drawn()).equals(still)).toBe(!starts);
    await page.close();
  });
});

/** Px of the smallest text that is no part of a picture. */
function smallestLetters(page: Page): Promise<number> {
  return page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    let smallest = Number.POSITIVE_INFINITY;
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const parent = node.parentElement!;
      if (node.textContent!.trim() === '' || parent.closest('svg') !== null) continue;
      smallest = Math.min(smallest, Number.parseFloat(getComputedStyle(parent).fontSize));
    }
    return smallest;
  });
}

/** A sixth wider than Arial, and on many machines the only one without serifs. */
const WIDE_FONT = 'DejaVu Sans';

describe('a bench card', () => {
  it.each([
    ['bench/next-design', '17'],
    ['metal-and-turns', '496'],
    ['two-coil-benchmark', '6'],
    ['pan-heater', '1008'],
    ['highest-float', '304'],
  ])(
    'of %s, design %s, prints on both sides of a sheet, the cautions begin one, is accessible and complains of nothing',
    async (name, design) => {
      const { code, out } = await cli(
        ['card', join(PROJECT, `studies/${name}.yaml`), '--design', design, '--html'],
        folder,
      );
      expect(code).toBe(0);
      const file = join(folder, `card-${name.replace('/', '-')}.html`);
      writeFileSync(file, out);
      const { page, complaints, requests } = await open(browser, file);
      const printed = printedPages(await page.pdf({ preferCSSPageSize: true }));
      expect(printed).toHaveLength(2);
      expect(printed.slice(1).map(({ words }) => words[0]!.text)).toContain('Cautions');
      // 9 pt are 12 px; pictures have letters of their own
      await page.emulateMedia({ media: 'print' });
      expect(await smallestLetters(page)).toBeGreaterThanOrEqual(12 - 0.01);
      expect([complaints, requests]).toEqual([[], []]);
      await page.close();
      // with tolerances its letters of a wide font take a second sheet
      const wide = await open(browser, file, { bypassCSP: true });
      await wide.page.addStyleTag({ content: `*{font-family:'${WIDE_FONT}'!important}` });
      const pages = printedPages(await wide.page.pdf({ preferCSSPageSize: true }));
      expect(pages).toHaveLength(name === 'bench/next-design' ? 3 : 2);
      await wide.page.close();
      for (const width of [1000, 360]) {
        const checked = await open(browser, file, { bypassCSP: true, viewport: { width, height: 800 } });
        await fits(checked.page, width);
        expect(await violations(checked.page)).toEqual([]);
        await checked.page.close();
      }
    },
  );
});

describe('a study full of markup and script', () => {
  it('stays text, in the page and in its pictures', async () => {
    const bait =
      '</title></script></svg><script>document.title="run"</script><img src=x onerror="alert(1)"><a href="javascript:alert(2)">';
    mkdirSync(join(folder, 'hostile'));
    writeFileSync(join(folder, 'hostile/study.yaml'), hostileStudy(`Bait ${bait}`));
    await run('hostile/study.yaml', 'bait');
    const { page, complaints, requests } = await open(browser, reportOf('bait'));
    await page.locator('#front figure svg a').first().hover();
    await page.locator('#front figure svg a').first().click();
    expect(await page.locator('dialog#card').isVisible()).toBe(true);
    expect(await page.title()).toMatch(/^Bait <\/title>/);
    expect(await page.locator('h1').textContent()).toContain('<script>document.title="run"</script>');
    expect(await page.locator('img, [onerror], a[href^="javascript"]').count()).toBe(0);
    expect(complaints).toEqual([]);
    expect(requests).toEqual([]);
    await page.close();

    for (const name of readdirSync(join(folder, 'bait/figures'))) {
      const picture = await open(browser, join(folder, 'bait/figures', name));
      // a file that is no well-formed XML shows an error page
      expect(await picture.page.locator('parsererror').count(), name).toBe(0);
      expect(await picture.page.locator('svg').count(), name).toBeGreaterThan(0);
      expect(picture.complaints, name).toEqual([]);
      await picture.page.close();
    }
  });

  it('could run nothing even if it got in: the policy refuses', async () => {
    const { page, complaints } = await open(browser, reportOf('bait'));
    const ran = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.textContent = 'globalThis.gotIn = true';
      document.body.append(script);
      const image = document.createElement('img');
      image.setAttribute('onerror', 'globalThis.gotIn = true');
      image.src = 'x';
      document.body.append(image);
      await new Promise((resolve) => setTimeout(resolve, 100));
      return 'gotIn' in globalThis;
    });
    expect(ran).toBe(false);
    // the browser tells it when it comes to it
    await expect.poll(() => complaints.join(), { timeout: 60_000 }).toContain('Content Security Policy');
    await page.close();
  });
});
