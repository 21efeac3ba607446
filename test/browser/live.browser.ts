import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeCard } from '../../src/card/bench-card.ts';
import { cardJson } from '../../src/card/card-json.ts';
import { pack } from '../../src/live/live-data.ts';
import { QUANTITIES } from '../../src/model/quantities.ts';
import type { Study } from '../../src/model/study.ts';
import { livePage } from '../../src/report/page/live-page.ts';
import { liveProgram } from '../../src/session/live-program.ts';
import { NOTHING, numberText, withUnit } from '../../src/text/number-text.ts';
import { liveData, studyOfRig } from '../live/rigs.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { hostileStudy } from '../support/hostile-study.ts';
import { nightly } from '../support/nightly.ts';
import { usualRig } from '../support/random-rig.ts';
import { PROJECT } from '../support/source-files.ts';
import { launch, nextFrame, open, type Watched } from './chromium.ts';
import { printedPages } from './pdf-pages.ts';

/** Past 300 lines: every look at the live page shares one browser. */

const AXE = createRequire(import.meta.url).resolve('axe-core');
const FOYER = join(PROJECT, 'studies/metal-and-turns.yaml');
const folder = scratchFolder();
let browser: Browser;

beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

async function written(study: string, design: number, name: string): Promise<string> {
  const { code, err } = await cli(['live', study, '--design', String(design), '--out', name], folder);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return join(folder, name);
}

/** Until everything of the present state is computed: of some rigs a minute of motion, on a machine that others share. */
async function settle(page: Page): Promise<void> {
  await nextFrame(page);
  await page.waitForSelector('body[data-settled=true]', { timeout: 600_000 });
}

async function figure(page: Page, column: string, which = 'now'): Promise<string | null> {
  await nextFrame(page);
  return page.locator(`[data-figure="${which} ${column}"]`).textContent();
}

async function allFigures(page: Page): Promise<Record<string, string>> {
  await settle(page);
  return page
    .locator('[data-figure^="now "]')
    .evaluateAll((cells) =>
      Object.fromEntries(
        cells.map((cell) => [(cell as HTMLElement).dataset.figure!.slice(4), cell.textContent!]),
      ),
    );
}

/** As the page is to show a quantity of `card --json`. */
function shownOf(value: number | string | null, index: number): string {
  const { unit, words } = QUANTITIES[index]!;
  if (value === null) return NOTHING;
  if (value === 'INF') return numberText(Number.POSITIVE_INFINITY);
  if (value === '-INF') return numberText(Number.NEGATIVE_INFINITY);
  return words.length > 0 ? String(value) : withUnit(Number(value), unit);
}

function figuresOfCard(study: Study): Record<string, string> {
  const { quantities } = cardJson(makeCard(study, 0, new Float64Array(0))) as {
    quantities: Record<string, number | string | null>;
  };
  return Object.fromEntries(
    QUANTITIES.map(({ column, index }) => [column, shownOf(quantities[column]!, index)]),
  );
}

const RIGS = nightly ? 200 : 20;

describe('the figures of a live page', () => {
  it(`are those of card --json, to the digits shown, for ${RIGS} random rigs`, {
    timeout: 7_200_000,
  }, async () => {
    const program = liveProgram();
    const file = join(folder, 'random.html');
    const page = await browser.newPage();
    let answered = 0;
    for (let number = 0; number < RIGS; number++) {
      const study = studyOfRig(usualRig(22, number));
      const { title, hash } = study;
      const data = pack(liveData(study, null));
      writeFileSync(file, livePage({ title, design: 0, hash, version: '0', program, data }));
      await page.goto(`file://${file}`);
      const wanted = figuresOfCard(study);
      expect(await allFigures(page), `rig ${number}`).toEqual(wanted);
      if (wanted.current_A !== NOTHING) answered++;
    }
    await page.close();
    expect(answered).toBeGreaterThan(RIGS / 3);
  });

  it('are those of the command for a design of a study, limits and cautions too', async () => {
    const file = await written(FOYER, 496, 'foyer.html');
    const { page, complaints, requests } = await open(browser, file);
    const { out } = await cli(['card', FOYER, '--design', '496', '--json'], folder);
    const card = JSON.parse(out) as {
      quantities: Record<string, number | string | null>;
      limits: { text: string; met: boolean; value: string }[];
      cautions: { rule: string }[];
    };
    const figures = await allFigures(page);
    for (const { column, index } of QUANTITIES) {
      expect(figures[column], column).toBe(shownOf(card.quantities[column]!, index));
    }
    const rows = await page
      .locator('#limit-rows tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].slice(0, 3).map((cell) => cell.textContent)));
    expect(rows).toEqual(card.limits.map(({ text, met, value }) => [text, met ? 'yes' : 'no', value]));
    const cautions = await page.locator('#caution-list li b').allTextContents();
    expect(cautions.map((text) => text.replace(/( \(.*)?\.$/, ''))).toEqual(
      card.cautions.map(({ rule }) => rule),
    );
    expect({ complaints, requests }).toEqual({ complaints: [], requests: [] });
    await page.close();
  });
});

describe('the controls of a live page', () => {
  let watched: Watched;
  beforeAll(async () => {
    watched = await open(browser, await written(FOYER, 496, 'controls.html'));
    await settle(watched.page);
    await openDetails(watched.page);
  });
  afterAll(async () => {
    expect(watched.complaints).toEqual([]);
    expect(watched.requests).toEqual([]);
    await watched.page.close();
  });

  /** What a control shows is other than before; one step back it is as before. */
  async function changes(control: Locator, act: () => Promise<void>, name: string): Promise<void> {
    const { page } = watched;
    const before = await control.inputValue();
    await act();
    expect(await control.inputValue(), name).not.toBe(before);
    const undo = page.locator('#undo');
    for (
      let steps = 0;
      steps < 5 && (await control.inputValue()) !== before && (await undo.isEnabled());
      steps++
    )
      await undo.click();
    expect(await control.inputValue(), `${name}, undone`).toBe(before);
    await openDetails(page);
  }

  it('can each be moved by mouse and by keyboard, and undone', async () => {
    const { page } = watched;
    const ids = await page
      .locator('#knob input[type=range], #controls input[type=range]')
      .evaluateAll((all) => all.map(({ id }) => id));
    expect(ids.length).toBeGreaterThan(30);
    for (const id of ids) {
      const slider = page.locator(`#${id}`);
      await changes(
        slider,
        async () => {
          const { width, height } = (await slider.boundingBox())!;
          const share = Number(await slider.inputValue()) > 500 ? 0.25 : 0.75;
          await slider.click({ position: { x: width * share, y: height / 2 } });
        },
        `${id} by mouse`,
      );
      await changes(
        slider,
        async () => {
          await slider.focus();
          await page.keyboard.press(Number(await slider.inputValue()) > 500 ? 'PageDown' : 'PageUp');
        },
        `${id} by keyboard`,
      );
    }
  });

  it('take numbers by keyboard and by mouse, and say what is wrong with others', async () => {
    const { page } = watched;
    const fields = await page.locator('input[type=number]').evaluateAll((all) => all.map(({ id }) => id));
    for (const id of fields) {
      const field = page.locator(`#${id}`);
      const present = Number(await field.inputValue());
      const other = present >= 1 ? present + 1 : present > 0 ? present / 2 : 1;
      await changes(
        field,
        async () => {
          await field.focus();
          await page.keyboard.press('ControlOrMeta+a');
          await page.keyboard.type(String(other));
          await page.keyboard.press('Enter');
        },
        `${id} by keyboard`,
      );
      await changes(
        field,
        async () => {
          await field.click({ clickCount: 3 });
          await page.keyboard.type(String(other));
          // the click elsewhere ends it
          await page.locator('h1').click();
        },
        `${id} by mouse`,
      );
    }
    const turns = page.locator('#set-coil-turns-number');
    const height = await figure(page, 'height_mm');
    for (const [typed, said] of [
      ['-3', 'at least 1'],
      ['2.5', 'a whole number is needed here'],
      ['', 'a number is needed here'],
    ] as const) {
      await turns.fill(typed);
      expect(await page.locator('#set-coil-turns-problem').textContent()).toBe(said);
      expect(await turns.getAttribute('aria-invalid')).toBe('true');
      expect(await figure(page, 'height_mm')).toBe(height);
    }
    await turns.fill('500');
    expect(await turns.getAttribute('aria-invalid')).toBe('false');
  });

  it('offer lists that the keyboard and the mouse reach', async () => {
    const { page } = watched;
    const ids = await page
      .locator('#controls select, #knob select')
      .evaluateAll((all) => all.map(({ id }) => id));
    expect(ids).toContain('set-coil-metal');
    for (const id of ids) {
      const list = page.locator(`#${id}`);
      const last = (await list.locator('option').count()) - 2;
      const other = (await list.inputValue()) === String(last) ? 0 : last;
      await changes(
        list,
        async () => {
          // the list itself is the browser's own
          await list.click();
          await page.keyboard.press('Escape');
          await list.selectOption(String(other));
        },
        `${id} by mouse`,
      );
      await changes(
        list,
        async () => {
          await list.focus();
          await page.keyboard.press((await list.inputValue()) === String(last) ? 'ArrowUp' : 'ArrowDown');
        },
        `${id} by keyboard`,
      );
    }
  });

  it('works its buttons by mouse and by keyboard', async () => {
    const { page } = watched;
    await settle(page);
    for (const id of ['room', 'teach', 'arrows']) {
      const button = page.locator(`#${id}`);
      await button.click();
      expect(await button.getAttribute('aria-pressed')).toBe('true');
      await button.focus();
      await page.keyboard.press('Enter');
      expect(await button.getAttribute('aria-pressed')).toBe('false');
    }
    const turns = page.locator('#set-coil-turns-number');
    await turns.fill('400');
    await turns.press('Enter');
    await page.locator('#undo').focus();
    await page.keyboard.press('Enter');
    expect(await turns.inputValue()).toBe('500');
    await page.locator('#redo').click();
    expect(await turns.inputValue()).toBe('400');
    await page.locator('#room').focus();
    await page.keyboard.press('ControlOrMeta+z');
    expect(await turns.inputValue()).toBe('500');
    await page.keyboard.press('ControlOrMeta+y');
    expect(await turns.inputValue()).toBe('400');
    await page.locator('#reset').focus();
    await page.keyboard.press('Space');
    expect(await turns.inputValue()).toBe('500');
  });
});

async function openDetails(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
}

describe('a drag', () => {
  it('raises the drawn coil while the plate keeps its place', async () => {
    const { page } = await open(browser, await written(FOYER, 496, 'drag.html'));
    const winding = async () => {
      await nextFrame(page);
      const boxes = await page
        .locator('#picture rect[stroke-width="0.8"], #picture rect:not([stroke])')
        .evaluateAll((all) => all.slice(1).map((each) => each.getBoundingClientRect().y));
      return { plate: Math.max(...boxes), coil: Math.min(...boxes) };
    };
    await settle(page);
    const knob = page.locator('#set-drive-current');
    const { x, y, width, height } = (await knob.boundingBox())!;
    const before = await winding();
    await page.mouse.move(x + width * 0.8, y + height / 2);
    await page.mouse.down();
    const seen: number[] = [];
    for (const share of [0.78, 0.74, 0.7, 0.66]) {
      await page.mouse.move(x + width * share, y + height / 2);
      const now = await winding();
      expect(now.plate).toBeCloseTo(before.plate, 0);
      seen.push(now.coil);
    }
    await page.mouse.up();
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)!).toBeGreaterThan(before.coil + 2);
    await page.close();
  });

  it('over a plate with an edge shows the last picture until the next is there', async () => {
    const { page, complaints } = await open(
      browser,
      await written(join(PROJECT, 'studies/plate-radius.yaml'), 3, 'disc.html'),
    );
    await settle(page);
    expect(await figure(page, 'plate_model')).toBe('disc');
    const before = await figure(page, 'height_mm');
    await page.locator('#set-drive-current').press('PageUp');
    expect(await page.locator('#picture svg').count()).toBe(1);
    await settle(page);
    expect(await figure(page, 'height_mm')).not.toBe(before);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('the designs of the study', () => {
  const said = async (page: Page) => {
    await nextFrame(page);
    return page.locator('#front-summary').textContent();
  };
  const numberIn = (text: string | null, pattern: RegExp) => Number(pattern.exec(text!)![1]);

  async function openDesigns(study: string, design: number, name: string, more: string[] = []) {
    const args = ['live', study, '--design', String(design), '--out', name, ...more];
    const { code, err } = await cli(args, folder);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const watched = await open(browser, join(folder, name));
    await watched.page.waitForSelector('#front-summary');
    return watched;
  }

  /** Where the page has a dot of the front. */
  async function dotOf(page: Page, chart: number): Promise<{ x: number; y: number }> {
    await nextFrame(page);
    return page
      .locator('#front-body figure svg')
      .nth(chart)
      .evaluate((svg) => {
        const path = svg.querySelectorAll('path[stroke-linecap=round]')[1]!;
        const [, x, y] = /^M([\d.]+) ([\d.]+)/.exec(path.getAttribute('d')!)!;
        svg.scrollIntoView({ block: 'center' });
        const { left, top, width } = svg.getBoundingClientRect();
        const scale = width / (svg as SVGSVGElement).viewBox.baseVal.width;
        return { x: left + scale * Number(x), y: top + scale * Number(y) };
      });
  }

  it('have the front of a run, and that of other limits as a bound is moved', async () => {
    const { page, complaints, requests } = await openDesigns(FOYER, 496, 'designs.html');
    // what the README shows of the run
    expect(await said(page)).toContain('374 meet the limits, 55 on the Pareto front');
    await page.locator('#bound-0').focus();
    await page.keyboard.press('PageUp');
    await nextFrame(page);
    const height = Number.parseFloat((await page.locator('#front-body output').first().textContent())!);
    expect(height).toBeGreaterThan(8);
    const ran = await cli(['run', FOYER, '--out', 'designs', '--quiet'], folder);
    expect(ran.code).toBe(0);
    const front = async (...limits: string[]) => {
      const asked = limits.flatMap((limit) => ['--limit', limit]);
      const { out } = await cli(['front', 'designs', ...asked, '--json'], folder);
      const other = JSON.parse(out.trimEnd().split('\n').at(-1)!) as { feasible: number; front: number };
      return `${other.feasible} meet the limits, ${other.front} on the Pareto front`;
    };
    expect(await said(page)).toContain(await front(`height >= ${height} mm`));
    // a limit on a column that had none, dragged by mouse
    await page.locator('#limit-column').selectOption({ label: 'power (W)' });
    await page.locator('#add-limit').click();
    const added = page.locator('#front-body .handles input[type=range]').last();
    expect(await added.evaluate((slider) => slider === document.activeElement)).toBe(true);
    const { width } = (await added.boundingBox())!;
    await added.click({ position: { x: width * 0.2, y: 5 } });
    await nextFrame(page);
    const power = Number.parseFloat((await page.locator('#front-body output').last().textContent())!);
    const both = await front(`height >= ${height} mm`, `power <= ${power} W`);
    expect(await said(page)).toContain(both);
    // another by keyboard
    await page.locator('#limit-sense').focus();
    await page.keyboard.press('ArrowDown');
    await page.locator('#add-limit').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('End');
    expect(await said(page)).not.toContain(both);
    await page.locator('#front-body .handles button[aria-label^=Remove]').last().press('Enter');
    expect(await said(page)).toContain(both);
    await page.locator('#front-body .handles button[aria-label^=Remove]').last().click();
    expect(await said(page)).toContain(await front(`height >= ${height} mm`));
    expect({ complaints, requests }).toEqual({ complaints: [], requests: [] });
    await page.close();
  });

  it('are loaded by a click on a dot, by a button of the table and by the keyboard', async () => {
    const { page } = await openDesigns(FOYER, 496, 'load.html');
    const turns = page.locator('#set-coil-turns-number');
    const inputsOf = async (design: number) => {
      const { out } = await cli(['card', FOYER, '--design', String(design), '--json'], folder);
      return (JSON.parse(out) as { inputs: Record<string, number> }).inputs;
    };
    const button = page.locator('#front-body td button, #front-body th button').first();
    const design = Number(/\d+/.exec((await button.textContent())!)![0]);
    await button.focus();
    await page.keyboard.press('Enter');
    expect(await turns.inputValue()).toBe(String((await inputsOf(design)).coil_turns));
    await nextFrame(page);
    const before = await page.locator('#state').textContent();
    const dot = await dotOf(page, 0);
    await page.mouse.click(dot.x, dot.y);
    await nextFrame(page);
    expect(await page.locator('#state').textContent()).not.toBe(before);
    await page.locator('#undo').click();
    await nextFrame(page);
    expect(await page.locator('#state').textContent()).toBe(before);
    await page.locator('#front-body figure').first().focus();
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowLeft');
    const looked = numberIn(await said(page), /Design (\d+):/);
    await page.keyboard.press('Enter');
    expect(await turns.inputValue()).toBe(String((await inputsOf(looked)).coil_turns));
    await page.close();
  });

  it('are linked by what is selected, by mouse and by keyboard, in charts of any columns', async () => {
    const { page, complaints } = await openDesigns(FOYER, 496, 'linked.html');
    // derived quantities, inputs and quantities
    for (const label of ['height_per_ampere (mm/A)', 'turns', 'current (A)', 'coil mass (kg)'])
      await page.locator('#axis-1-x').selectOption({ label });
    await page.locator('#axis-1-x').focus();
    await page.keyboard.press('ArrowUp');
    const selectedIn = (chart: number) =>
      page
        .locator('#front-body figure svg')
        .nth(chart)
        .evaluate((svg) => {
          const third = [...svg.querySelectorAll('path[stroke="#2b6631"]')];
          return third
            .map((path) => path.getAttribute('d')!.split('M').length - 1)
            .reduce((a, b) => a + b, 0);
        });
    // metal, turns, layers and current stand side by side, too
    expect(await page.locator('#front-body figure').count()).toBe(3);
    const dot = await dotOf(page, 0);
    await page.mouse.move(dot.x - 30, dot.y - 30);
    await page.mouse.down();
    await page.mouse.move(dot.x, dot.y);
    await page.mouse.move(dot.x + 30, dot.y + 30);
    await page.mouse.up();
    const many = numberIn(await said(page), /(\d+) selected/);
    expect(many).toBeGreaterThan(0);
    expect([await selectedIn(0), await selectedIn(1), await selectedIn(2)]).toEqual([many, many, many]);
    expect(await page.locator('#front-body tbody tr').count()).toBe(many);
    await page.locator('#clear-selection').press('Enter');
    expect(await said(page)).not.toContain('selected');
    await page.locator('#front-body figure').nth(2).focus();
    for (const key of ['Home', 'Shift+ArrowRight', 'Shift+ArrowRight']) await page.keyboard.press(key);
    expect(await said(page)).toContain('3 selected');
    expect([await selectedIn(0), await selectedIn(1), await selectedIn(2)]).toEqual([3, 3, 3]);
    await page.keyboard.press('Escape');
    expect(await said(page)).not.toContain('selected');
    // a box around the upper end of the axis of turns, at 330 of 940 px
    const box = (await page.locator('#front-body figure svg').nth(2).boundingBox())!;
    const at = (left: number, top: number) =>
      [box.x + (box.width * left) / 940, box.y + (box.height * top) / 300] as const;
    await page.mouse.move(...at(325, 30));
    await page.mouse.down();
    await page.mouse.move(...at(330, 60));
    await page.mouse.move(...at(335, 110));
    await page.mouse.up();
    const upper = numberIn(await said(page), /(\d+) selected/);
    expect(upper).toBeGreaterThan(0);
    expect(upper).toBeLessThan(374);
    const turns = await page
      .locator('#front-body tbody tr td:nth-child(5)')
      .evaluateAll((cells) => cells.map((cell) => Number(cell.textContent)));
    expect(turns.length).toBe(Math.min(200, upper));
    expect(Math.min(...turns)).toBeGreaterThan(500);
    await page.locator('#clear-selection').click();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it.each([
    ['genetic', 'genetic: {population: 20, generations: 10, seed: 3}'],
    ['nelder_mead', 'nelder_mead: {starts: 3, seed: 3, levels: 3}'],
    ['sobol', 'sobol: {points: 300, seed: 3}'],
  ])('that a search found are there: %s', async (name, plan) => {
    const seven = readFileSync(join(PROJECT, 'studies/seven-choices.yaml'), 'utf8');
    const searched = seven
      .replace(/^plan: .*$/m, `plan: {${plan}}`)
      // few designs meet the study's own
      .replace(/^limits:\n( {2}- .*\n)+/m, 'limits:\n  - coil_mass <= 30 kg\n');
    writeFileSync(join(folder, `${name}.yaml`), searched);
    const ran = await cli(['run', `${name}.yaml`, '--out', name, '--quiet'], folder);
    expect(ran.code).toBe(0);
    const { out } = await cli(['front', name, '--json'], folder);
    const whole = JSON.parse(out.trimEnd().split('\n').at(-1)!) as Record<string, number>;
    expect(whole.front).toBeGreaterThan(0);
    const { page, complaints } = await openDesigns(name, 0, `${name}.html`);
    const text = await said(page);
    // more than a page holds: of its front as many as there is room for
    const found = numberIn(text, /(\d+) on the Pareto front/);
    if (name === 'nelder_mead') {
      expect(text).toContain(`${whole.front} on its front, others evenly through the plan`);
      expect(found).toBeGreaterThanOrEqual(numberIn(text, /\((?:all )?(\d+)/));
    } else expect(text).toContain(`${whole.feasible} meet the limits, ${whole.front} on the Pareto front`);
    expect(await page.locator('#front-body figure').count()).toBe(3);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('are those of a front under other limits and objectives, where these are given', async () => {
    const asked = [
      '--no-limits',
      '--limit',
      'current <= 12 A',
      '--maximise',
      'height',
      '--minimise',
      'power',
    ];
    await cli(['run', FOYER, '--out', 'other', '--quiet'], folder);
    const { out } = await cli(['front', 'other', ...asked, '--json'], folder);
    const { feasible, front } = JSON.parse(out.trimEnd().split('\n').at(-1)!) as Record<string, number>;
    const { page } = await openDesigns('other', 3, 'other.html', asked);
    expect(await said(page)).toContain(`${feasible} meet the limits, ${front} on the Pareto front`);
    expect(await page.locator('#limit-rows tbody th').allTextContents()).toEqual(['current <= 12 A']);
    await page.close();
  });
});

describe('field and currents', () => {
  it('are drawn at a moment of the cycle, moved by keyboard and by mouse, and let run', async () => {
    for (const [study, design] of [
      [FOYER, 496],
      [join(PROJECT, 'studies/plate-radius.yaml'), 3],
    ] as const) {
      const { page, complaints, requests } = await open(browser, await written(study, design, 'field.html'));
      await settle(page);
      expect(await page.locator('#moment').isVisible()).toBe(false);
      await page.locator('#arrows').press('Enter');
      await page.waitForSelector('#moment[data-fields]');
      const picture = () => page.locator('#picture').innerHTML();
      const peak = await picture();
      expect(await page.locator('#moment-most').textContent()).toMatch(
        /at most [\d.]+ mT .*at most [\d.]+ A\/mm²/,
      );
      const slider = page.locator('#moment-slider');
      await slider.press('PageUp');
      const later = await picture();
      expect(later).not.toBe(peak);
      // half a cycle later every arrow has turned
      await slider.fill('180');
      const half = await picture();
      const { width, height } = (await slider.boundingBox())!;
      await slider.click({ position: { x: width * 0.75, y: height / 2 } });
      expect(await picture()).not.toBe(half);
      await page.locator('#play').click();
      const first = await picture();
      await page.waitForFunction((known) => document.getElementById('picture')!.innerHTML !== known, first);
      await page.locator('#play').press('Enter');
      expect(await page.locator('#play').getAttribute('aria-pressed')).toBe('false');
      const still = await picture();
      await page.waitForTimeout(200);
      expect(await picture()).toBe(still);
      // another state has another field
      const fields = () => page.locator('#moment').getAttribute('data-fields');
      const before = await fields();
      await page.locator('#set-drive-current').press('PageUp');
      await page.waitForFunction(
        (known) => document.getElementById('moment')!.dataset.fields !== known,
        before,
      );
      await page.locator('#arrows').click();
      expect(await page.locator('#moment').isVisible()).toBe(false);
      expect({ complaints, requests }).toEqual({ complaints: [], requests: [] });
      await page.close();
    }
  });

  it('do not run where motion is not wanted', async () => {
    const { page } = await open(browser, await written(FOYER, 496, 'still.html'), {
      reducedMotion: 'reduce',
    });
    await settle(page);
    await page.locator('#arrows').click();
    await page.waitForSelector('#moment[data-fields]');
    expect(await page.locator('#play').isVisible()).toBe(false);
    await page.locator('#moment-slider').press('PageUp');
    await page.close();
  });
});

describe('what is given back', () => {
  it('a study file that runs to the same figures', async () => {
    const { page } = await open(browser, await written(FOYER, 496, 'back.html'));
    await page.locator('#set-coil-turns-number').fill('470');
    await page.locator('#set-coil-metal').selectOption({ label: 'copper' });
    await page.locator('#set-plate-layers-0-thickness-number').fill('9.5');
    const figures = await allFigures(page);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page
        .locator('#write-study')
        .click()
        .then(() => page.locator('#save-study').click()),
    ]);
    const file = join(folder, 'given-back.yaml');
    await download.saveAs(file);
    expect(await page.locator('#study-text').inputValue()).toBe(readFileSync(file, 'utf8'));
    const ran = await cli(['run', file, '--out', 'given-back', '--quiet'], folder);
    expect({ code: ran.code, err: ran.err }).toEqual({ code: 0, err: '' });
    const { out } = await cli(['card', 'given-back', '--design', '0', '--json'], folder);
    const { quantities } = JSON.parse(out) as { quantities: Record<string, number | string | null> };
    for (const { column, index } of QUANTITIES)
      expect(figures[column], column).toBe(shownOf(quantities[column]!, index));
    await page.close();
  });

  it('the difference of every figure to a pinned state', async () => {
    const { page } = await open(browser, await written(FOYER, 496, 'pin.html'));
    await settle(page);
    const height = await figure(page, 'height_mm');
    await page.locator('#pin').click();
    expect(await figure(page, 'height_mm', 'difference')).toBe('0');
    await page.locator('#set-plate-layers-0-thickness-number').fill('6');
    await settle(page);
    expect(await figure(page, 'height_mm', 'pinned')).toBe(height);
    const number = (text: string | null) => Number(/-?[\d.]+/.exec(text!.replace('−', '-'))![0]);
    const now = await figure(page, 'height_mm');
    // four digits of each
    expect(number(await figure(page, 'height_mm', 'difference'))).toBeCloseTo(
      number(now) - number(height),
      1,
    );
    await page.locator('#unpin').focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('[data-figure="pinned height_mm"]').isVisible()).toBe(false);
    await page.close();
  });
});

describe('a live page', () => {
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

  it.each([
    ['light', []],
    ['dark', []],
    ['light', ['#room']],
    ['dark', ['#teach', '#pin', '#arrows', '#add-limit']],
  ] as const)('has no accessibility violation on a %s screen with %s', async (colorScheme, pressed) => {
    const file = await written(FOYER, 496, 'axe.html');
    // a checker is a script, which the page's own policy would not let in
    const { page } = await open(browser, file, { colorScheme, bypassCSP: true });
    await settle(page);
    await page.waitForSelector('#front-summary');
    for (const id of pressed) await page.locator(id).click();
    await page.locator('#write-study').click();
    await openDetails(page);
    expect(await violations(page)).toEqual([]);
    if (pressed.length > 0) return page.close();
    await page.setViewportSize({ width: 360, height: 800 });
    expect(await violations(page)).toEqual([]);
    await page.close();
  });

  it.each(['light', 'dark'])('can be made %s whatever the screen is', async (theme) => {
    const file = await written(FOYER, 496, 'theme.html');
    const { page } = await open(browser, file, { colorScheme: theme === 'dark' ? 'light' : 'dark' });
    await settle(page);
    await page.locator('#theme').selectOption(theme);
    const fill = await page
      .locator('#picture svg > rect')
      .first()
      .evaluate((rect) => getComputedStyle(rect).fill);
    const paper = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    expect(fill).toBe(paper);
    expect(paper).toBe(theme === 'dark' ? 'rgb(21, 24, 27)' : 'rgb(255, 255, 255)');
    await page.close();
  });

  it.each([
    [360, []],
    [360, ['#room', '#teach', '#pin', '#arrows']],
    [1000, ['#room']],
  ] as const)('is no wider than a screen of %i px with %s', async (width, pressed) => {
    const { page } = await open(browser, await written(FOYER, 496, 'phone.html'), {
      viewport: { width, height: 800 },
    });
    await settle(page);
    await page.waitForSelector('#front-summary');
    for (const id of pressed) await page.locator(id).click();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    await page.close();
  });

  it('of a study of one design has nothing to compare, and complains of nothing', async () => {
    expect((await cli(['new', 'coil.yaml', '--yes'], folder)).code).toBe(0);
    const { page, complaints } = await open(browser, await written('coil.yaml', 0, 'coil.html'));
    await settle(page);
    expect(await page.locator('#front').isVisible()).toBe(false);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('prints a still: picture, figures, limits and cautions within the margins', async () => {
    const { page } = await open(browser, await written(FOYER, 496, 'print.html'), { colorScheme: 'dark' });
    await settle(page);
    const height = await figure(page, 'height_mm');
    const pages = printedPages(await page.pdf({ preferCSSPageSize: true }));
    await page.close();
    const words = pages.flatMap((each) => each.words);
    const text = words.map((word) => word.text).join(' ');
    expect(text).toContain(`Floats ${height} high`);
    for (const part of ['Limits of the study', 'Cautions', 'All figures']) expect(text).toContain(part);
    expect(text).not.toContain('What if');
    for (const { width, words: own } of pages) {
      for (const word of own) expect([word.left >= 0, word.right <= width], word.text).toEqual([true, true]);
    }
  });

  it('leaves hostile texts of a study inert', async () => {
    const bait = `</script><script>document.title='owned'</script><img src=x onerror="alert(1)"><b>'"&amp;`;
    writeFileSync(join(folder, 'hostile.yaml'), hostileStudy(bait));
    const { page, complaints, requests } = await open(
      browser,
      await written('hostile.yaml', 15, 'hostile.html'),
    );
    await settle(page);
    await page.waitForSelector('#front-summary');
    await page.locator('#teach').click();
    await page.locator('#arrows').click();
    await page.locator('#pin').click();
    await page.locator('#set-coil-metal').selectOption({ index: 1 });
    await page
      .locator('#set-coil-metal')
      .selectOption({ index: (await page.locator('#set-coil-metal option').count()) - 1 });
    await openDetails(page);
    await page.locator('#set-coil-metal-density-number').fill('2600');
    await page.locator('#write-study').click();
    await settle(page);
    expect(await page.locator('main img, main b > b, main script:not([type])').count()).toBe(0);
    expect(await page.title()).toContain('Live rig: ');
    expect(await page.locator('#picture svg').first().getAttribute('aria-label')).not.toBeNull();
    // it comes back as the same text
    expect(await page.locator('#study-text').inputValue()).toContain(JSON.stringify(bait));
    expect({ complaints, requests }).toEqual({ complaints: [], requests: [] });
    await page.close();
  });
});
