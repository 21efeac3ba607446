import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

/**
 * How soon a live page shows what a moved slider makes of the rig: from the slider's event until the page is laid out anew,
 * in Chromium. What the browser then takes to paint is not in it.
 */

const PROJECT = fileURLToPath(new URL('../../../', import.meta.url));
const EXECUTABLE = process.env.CHROMIUM ?? '/usr/bin/chromium';

export interface DragTimes {
  /** ms that 95 of 100 drags stay below. */
  readonly p95: number;
  readonly median: number;
  readonly most: number;
}

/** Runs in the page, given as text: sliders moved one after the other, each back to where it was. */
const DRAGS = `async ({ drags, seed }) => {
  let state = seed;
  const random = () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
  const sliders = () => [...document.querySelectorAll('#knob input[type=range], #controls input[type=range]')].filter((each) => each.offsetParent !== null);
  const views = () => document.body.dataset.views;
  const shown = (before) => new Promise((resolve) => {
    if (views() !== before) return resolve();
    const watch = new MutationObserver(() => {
      if (views() === before) return;
      watch.disconnect();
      resolve();
    });
    watch.observe(document.body, { attributes: true });
  });
  const move = async (slider, position) => {
    slider.value = position;
    const before = views();
    const began = performance.now();
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    await shown(before);
    document.body.getBoundingClientRect();
    return performance.now() - began;
  };
  const times = [];
  for (let i = 0; i < drags; i++) {
    const all = sliders();
    const slider = all[Math.floor(random() * all.length)];
    const from = slider.value;
    times.push(await move(slider, String(Math.floor(random() * 1001))));
    await move(slider, from);
  }
  return times;
}`;

/** @param study below the project */
export async function benchLive(study: string, design: number, drags: number): Promise<DragTimes> {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-live-'));
  const browser = await chromium.launch({
    executablePath: EXECUTABLE,
    args: ['--no-sandbox', '--disable-gpu'],
  });
  try {
    const args = ['live', join(PROJECT, study), '--design', String(design), '--out', 'live.html'];
    execFileSync(process.execPath, [join(PROJECT, 'dist/src/cli.js'), ...args], { cwd: folder });
    const page = await browser.newPage({ viewport: { width: 1400, height: 950 } });
    await page.goto(`file://${join(folder, 'live.html')}`);
    await page.waitForSelector('body[data-settled=true]');
    const run = (count: number, seed: number) =>
      page.evaluate(`(${DRAGS})(${JSON.stringify({ drags: count, seed })})`) as Promise<number[]>;
    // until the laws run in optimised code
    await run(Math.ceil(drags / 10), 1);
    const times = (await run(drags, 22)).sort((a, b) => a - b);
    return {
      p95: times[Math.floor(0.95 * times.length)]!,
      median: times[times.length >> 1]!,
      most: times.at(-1)!,
    };
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
