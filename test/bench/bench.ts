import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';
import { compareWithLast, type Line, withPart, type Yardstick } from './compare.ts';
import { benchDisc } from './disc.ts';
import { benchKernel } from './kernel.ts';
import type { DragTimes } from './live.ts';
import { benchMessaging } from './messaging.ts';
import { benchMotion } from './motion.ts';
import { benchSearches } from './searches.ts';
import { benchSideways } from './sideways.ts';
import { benchStartUp, NODE_ALONE, START_UP } from './start-up.ts';
import { type Spread, spreadOf } from './statistics.ts';
import { benchTolerances } from './tolerances.ts';
import { canPin, createWholeStudies, type Ended, type Size, type WholeStudies } from './whole-study.ts';

/**
 * `npm run bench`: what was measured beside what is aimed at, on the terminal and in test/bench/latest.json. With
 * EDDYLIFT_BENCH=all it goes on to ten million designs and to a queue of machines.
 */

const LATEST = fileURLToPath(new URL('../../../test/bench/latest.json', import.meta.url));
const ROUNDS = 3;
const MILLION_ROUNDS = 3;
const QUEUE_ROUNDS = 3;
const START_ROUNDS = 5;
const EVALUATION_ROUNDS = 2;

/** The rows that tell how fast the machine is in this minute: what they measure never changes. */
const YARDSTICKS: readonly Yardstick[] = [
  { what: NODE_ALONE, measures: (what) => what.startsWith(START_UP) },
  { what: 'the same fresh by adaptive Simpson, 1e-6', measures: (what) => !what.startsWith(START_UP) },
];

const lines: Line[] = [];

function note(what: string, unit: string, measured: Spread, target = ''): void {
  lines.push({ what, unit, measured, target });
  const { median, least, most } = measured;
  const value = `${digits(median)} ${unit}`.padStart(10);
  process.stdout.write(
    `${what.padEnd(64)}${value}  (${digits(least)} to ${digits(most)})${target === '' ? '' : `  target ${target}`}\n`,
  );
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}

const processors = cpus();
const machine = {
  processor: processors[0]?.model ?? 'unknown',
  cores: processors.length,
  memoryGB: Math.round(totalmem() / 2 ** 30),
  node: process.version,
  date: new Date().toISOString().slice(0, 10),
};
process.stdout.write(
  `${machine.processor}, ${machine.cores} cores, ${machine.memoryGB} GB, Node ${machine.node}\nmedian (least to most)\n\n`,
);

/**
 * `kernel`, `queue`, `live`, `searches` or `start`: that part alone, kept only with EDDYLIFT_BENCH_KEEP=1 and beside rows of
 * the same machine and day; `all`: ten million designs, too.
 */
const asked = process.env.EDDYLIFT_BENCH ?? '';
const isPart = ['kernel', 'queue', 'live', 'searches', 'start'].includes(asked);
if ((asked === 'all' || asked === 'queue') && spawnSync('redis-server', ['--version']).status !== 0)
  throw new Error('a queue needs redis-server, which is not here');

if (!isPart || asked === 'start') benchCommands();
if (!isPart || asked === 'kernel') benchLaws();
if (!isPart || asked === 'searches')
  for (const { what, unit, measured, target } of benchSearches()) note(what, unit, measured, target);
if (asked === 'live' || !isPart) await benchLivePages();
if (!isPart) await benchMessages();
if (!isPart || asked === 'queue') await benchWholeStudies();

function benchCommands(): void {
  for (const { what, measured, target } of benchStartUp(START_ROUNDS)) note(what, 's', measured, target);
}

function benchLaws(): void {
  for (const timing of benchKernel()) note(timing.name, 'us', timing, timing.target);
  const disc = benchDisc();
  for (const timing of disc.fresh)
    note(`finite disc, fresh, with equilibrium: ${timing.name}`, 'ms', timing, timing.target);
  for (const timing of disc.shared)
    note(`finite disc, plate shared: ${timing.name}`, 'ms', timing, '< 0.5 ms');
  for (const { name, taken, gain, target } of benchTolerances()) {
    note(`a design and its 256 rigs within tolerances: ${name}`, 'ms', taken, target);
    note('  every law of every rig over that', 'x', gain);
  }
  for (const { name, unit, measured, target } of benchMotion()) note(name, unit, measured, target);
  for (const { name, fresh, shared, force } of benchSideways()) {
    note(`sideways and tilt stiffness, fresh: ${name}`, 'ms', fresh, '< 10 ms');
    note(`sideways and tilt stiffness, plate shared: ${name}`, 'ms', shared, '< 1 ms');
    note(`the same fresh, and the force at a tenth of the radius: ${name}`, 'ms', force);
  }
}

async function benchLivePages(): Promise<void> {
  // needs Chromium, which nothing else here does
  const { benchLive } = await import('./live.ts');
  const drags = 500;
  const title = `live page, ${drags} random drags, 95th percentile (median to most)`;
  const spread = ({ p95, median, most }: DragTimes) => ({ median: p95, least: median, most });
  for (const [study, design, model, target] of [
    ['studies/metal-and-turns.yaml', 496, 'wide', '< 16 ms'],
    ['studies/plate-radius.yaml', 3, 'disc', '< 100 ms'],
  ] as const) {
    const { clock, processor } = await benchLive(study, design, drags, model);
    note(`${title}: ${model}`, 'ms', spread(clock), target);
    note("  processor time of the page's thread", 'ms', spread(processor));
  }
}

async function benchMessages(): Promise<void> {
  const messaging = await benchMessaging(ROUNDS);
  note('a design and its row, all quantities, on one worker thread', 'us', messaging.evaluated);
  note(
    `sent there and back, ${messaging.designsPerBatch} designs a batch, not evaluated`,
    'us',
    messaging.sent,
  );
  note('overhead of messages', '%', messaging.overhead, '< 5 %');
}

async function benchWholeStudies(): Promise<void> {
  const studies = createWholeStudies();
  try {
    if (asked === 'queue') await benchQueue(studies);
    else await benchStudies(studies);
  } finally {
    studies.end();
  }
}

/** Whole studies: from the start of the process to the end, tables, front and report written. */
async function benchStudies(studies: WholeStudies): Promise<void> {
  const runs = async (designs: Size, threads: number, rounds: number): Promise<Ended[]> => {
    const ended: Ended[] = [];
    for (let round = 0; round < rounds; round++) ended.push(await studies.run(designs, threads));
    return ended;
  };
  const seconds = (ended: readonly Ended[]) => ended.map((one) => one.seconds);

  const few = await runs(10_000, 2, ROUNDS);
  const some = await runs(100_000, 2, ROUNDS);
  note('100,000 designs, all quantities, tables written, 2 threads', 's', spreadOf(seconds(some)), '< 10 s');
  // in turns, so that whatever else the machine does strikes both
  const alone: Ended[] = [];
  const confined: Ended[] = [];
  const many: Ended[] = [];
  for (let round = 0; round < MILLION_ROUNDS; round++) {
    alone.push(await studies.run(1_000_000, 1));
    if (canPin) confined.push(await studies.runOnOneCore(1_000_000));
    many.push(await studies.run(1_000_000, 2));
  }
  note('1,000,000 designs, all quantities, tables written, 1 thread', 's', spreadOf(seconds(alone)));
  note(
    '1,000,000 designs, all quantities, tables written, 2 threads',
    's',
    spreadOf(seconds(many)),
    '< 20 s',
  );
  const gain = (over: readonly Ended[], two: readonly Ended[]) =>
    spreadOf(over.map((run, i) => run.seconds / two[i]!.seconds));
  // speed-up as it is usually meant: time on one processor over time on two; why, says DEVELOPERS.md
  if (canPin) {
    note('1,000,000 designs, 1 thread, confined to one core', 's', spreadOf(seconds(confined)));
    note(
      'two threads on two cores over one on one core, all of a run',
      'x',
      gain(confined, many),
      '>= 1.8 x',
    );
  }
  note('two threads over one with a core for its helpers, all of a run', 'x', gain(alone, many));

  const byOne: Ended[] = [];
  const byTwo: Ended[] = [];
  for (let round = 0; round < EVALUATION_ROUNDS; round++) {
    byOne.push(await studies.evaluate(3_000_000, 1));
    byTwo.push(await studies.evaluate(3_000_000, 2));
  }
  note('3,000,000 designs evaluated, 1 thread', 's', spreadOf(seconds(byOne)));
  note('3,000,000 designs evaluated, 2 threads', 's', spreadOf(seconds(byTwo)));
  note('two threads over one with a core for its helpers, evaluation', 'x', gain(byOne, byTwo));
  studies.remove(3_000_000);

  const memory = (ended: readonly Ended[]) => spreadOf(ended.map((run) => run.peakMemoryMB));
  note('10,000 designs, 2 threads: peak memory', 'MB', memory(few));
  note('100,000 designs, 2 threads: peak memory', 'MB', memory(some));
  note('1,000,000 designs, 2 threads: peak memory', 'MB', memory(many), '< 1000 MB');

  const spent = (ended: readonly Ended[]) => spreadOf(seconds(ended)).median;
  const each = (from: readonly Ended[], to: readonly Ended[], designs: number) =>
    exactly((1e6 * (spent(to) - spent(from))) / designs);
  note('each further design, from 10,000 to 100,000', 'us', each(few, some, 90_000), 'flat');
  note('each further design, from 100,000 to 1,000,000', 'us', each(some, many, 900_000), 'flat');
  const fronts: Ended[] = [];
  for (let round = 0; round < ROUNDS; round++) fronts.push(await studies.front(1_000_000, 2));
  note('another front of 1,000,000 designs, 2 threads', 's', spreadOf(seconds(fronts)), '< 2 s and start');
  studies.remove(1_000_000);

  // half an hour and 20 GB of disk
  if (asked !== 'all') return;
  const most = await runs(10_000_000, 2, 1);
  note('10,000,000 designs, 2 threads', 's', spreadOf(seconds(most)), '< 180 s');
  note('10,000,000 designs, 2 threads: peak memory', 'MB', memory(most), '< 1000 MB');
  note('each further design, from 1,000,000 to 10,000,000', 'us', each(many, most, 9_000_000), 'flat');
  const front = await studies.front(10_000_000, 2);
  note('another front of 10,000,000 designs, 2 threads', 's', exactly(front.seconds), '< 20 s');
  studies.remove(10_000_000);
  await benchQueue(studies);
}

/** Two workers of one thread and the coordinator on this machine, beside two threads of one process, in turns. */
async function benchQueue(studies: WholeStudies): Promise<void> {
  // needs redis-server, which nothing else here does
  const { startQueue } = await import('./queue.ts');
  const queue = await startQueue(2);
  const there: Ended[] = [];
  const here: Ended[] = [];
  try {
    for (let round = 0; round < QUEUE_ROUNDS; round++) {
      there.push(await studies.run(1_000_000, 2, queue.address));
      here.push(await studies.run(1_000_000, 2));
    }
  } finally {
    await queue.stop();
  }
  note('1,000,000 designs, 2 workers of 1 thread at a queue', 's', spreadOf(there.map((run) => run.seconds)));
  note('1,000,000 designs, 2 threads', 's', spreadOf(here.map((run) => run.seconds)));
  const share = here.map((run, i) => run.seconds / there[i]!.seconds);
  note('throughput at the queue over that of 2 threads', 'x', spreadOf(share), '>= 0.8 x');
}

function exactly(value: number): Spread {
  return { median: value, least: value, most: value };
}

const last: { readonly machine: typeof machine; readonly lines: readonly Line[] } = JSON.parse(
  readFileSync(LATEST, 'utf8'),
);
const changes = compareWithLast(lines, last.lines, YARDSTICKS);
const scaled = YARDSTICKS.map(({ what }) => what).filter((each) => lines.some(({ what }) => what === each));
process.stdout.write(
  `\nagainst test/bench/latest.json, times ${scaled.length > 0 ? `scaled by the yardstick (${scaled.join('; ')})` : 'as they are'}:\n${
    changes.length === 0 ? 'no row changed by a tenth and beyond its range' : changes.join('\n')
  }\n`,
);

const keep = (all: readonly Line[]) =>
  writeFileSync(LATEST, `${JSON.stringify({ machine, lines: all }, null, 2)}\n`);
if (!isPart) keep(lines);
// a part says nothing of the whole
else if (process.env.EDDYLIFT_BENCH_KEEP === '1') {
  if (JSON.stringify(machine) !== JSON.stringify(last.machine))
    throw new Error('the rows that were kept are of another machine or day: measure all of them');
  keep(withPart(last.lines, lines));
}
