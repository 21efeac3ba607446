import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

/**
 * How soon a live page shows what a moved slider makes of the rig, in Chromium: from the slider's event until the page is
 * laid out anew, as a clock has it; and the processor time that the page's own thread takes for the whole of it: laws,
 * layout, drawing and handing over to the screen. Only the latter is of use on a machine that others share.
 */

const PROJECT = fileURLToPath(new URL('../../../', import.meta.url));
const EXECUTABLE = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** ms */
export interface DragTimes {
  readonly median: number;
  /** 95 of 100 drags stay below it. */
  readonly p95: number;
  readonly most: number;
}

export interface LiveBench {
  readonly clock: DragTimes;
  readonly processor: DragTimes;
}

/** Plates of which only one kind is counted: a slider may make the other of it. */
export type PlateModel = 'wide' | 'disc';

interface Drag {
  readonly model: string;
  readonly clock: number;
}

/** Runs in the page, given as text: sliders moved one after the other, each from the design itself. */
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
  // a screen shows one picture a frame
  const frame = () => new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
  const move = async (slider, position) => {
    await frame();
    slider.value = position;
    const before = views();
    performance.mark('drag');
    const began = performance.now();
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    await shown(before);
    document.body.getBoundingClientRect();
    const clock = performance.now() - began;
    await frame();
    performance.mark('dragged');
    // what follows is another task
    await new Promise((resolve) => setTimeout(resolve));
    return { clock, model: document.querySelector('[data-figure="now plate_model"]').textContent };
  };
  const found = [];
  for (let i = 0; i < drags; i++) {
    const all = sliders();
    const slider = all[Math.floor(random() * all.length)];
    found.push(await move(slider, String(Math.floor(random() * 1001))));
    // an input that was not given has no place of its slider to go back to
    const before = views();
    document.querySelector('#reset').click();
    await shown(before);
  }
  return found;
}`;

/** @param study below the project */
export async function benchLive(
  study: string,
  design: number,
  drags: number,
  model: PlateModel,
): Promise<LiveBench> {
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-live-'));
  const browser = await chromium.launch({
    executablePath: EXECUTABLE,
    args: ['--no-sandbox', '--disable-gpu'],
  });
  try {
    const args = ['live', join(PROJECT, study), '--design', String(design), '--out', 'live.html'];
    execFileSync(process.execPath, [join(PROJECT, 'dist/program/cli.js'), ...args], { cwd: folder });
    const page = await browser.newPage({ viewport: { width: 1400, height: 950 } });
    await page.goto(`file://${join(folder, 'live.html')}`);
    await page.waitForSelector('body[data-settled=true]');
    const run = (count: number, seed: number) =>
      page.evaluate(`(${DRAGS})(${JSON.stringify({ drags: count, seed })})`) as Promise<Drag[]>;
    // until the laws run in optimised code
    await run(Math.ceil(drags / 10), 1);
    await browser.startTracing(page, { categories: ['blink.user_timing', 'toplevel'] });
    const found = await run(drags, 22);
    const processor = processorTimes((await browser.stopTracing()).toString());
    const isCounted = (_: unknown, i: number) => found[i]!.model === model;
    return {
      clock: timesOf(found.filter(isCounted).map(({ clock }) => clock)),
      processor: timesOf(processor.filter(isCounted)),
    };
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** us */
  readonly ts: number;
  readonly dur?: number;
  /** Of the processor, us. */
  readonly tdur?: number;
}

/** ms of the page's own thread for each drag: every task that ends after the drag began and begins before it is drawn. */
function processorTimes(trace: string): number[] {
  const { traceEvents } = JSON.parse(trace) as { traceEvents: TraceEvent[] };
  const marks = (name: string) =>
    traceEvents.filter((event) => event.name === name).sort((a, b) => a.ts - b.ts);
  const began = marks('drag');
  const ended = marks('dragged');
  const { pid, tid } = began[0]!;
  const tasks = traceEvents
    .filter((event) => event.pid === pid && event.tid === tid && event.name === TASK && event.ph === 'X')
    .sort((a, b) => a.ts - b.ts);
  let next = 0;
  return began.map(({ ts }, i) => {
    while (next < tasks.length && tasks[next]!.ts + tasks[next]!.dur! < ts) next++;
    let sum = 0;
    for (; next < tasks.length && tasks[next]!.ts < ended[i]!.ts; next++) sum += tasks[next]!.tdur ?? 0;
    return sum / 1000;
  });
}

const TASK = 'ThreadControllerImpl::RunTask';

function timesOf(all: readonly number[]): DragTimes {
  const times = all.toSorted((a, b) => a - b);
  return {
    p95: times[Math.floor(0.95 * times.length)]!,
    median: times[times.length >> 1]!,
    most: times.at(-1)!,
  };
}
