import { writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { fileURLToPath } from 'node:url';
import { benchKernel } from './kernel.ts';
import { benchMessaging } from './messaging.ts';
import type { Spread } from './statistics.ts';
import { benchWholeStudy, WHOLE_STUDY_DESIGNS } from './whole-study.ts';

/** `npm run bench`: what was measured beside what is aimed at, on the terminal and in test/bench/latest.json. */

const LATEST = fileURLToPath(new URL('../../../test/bench/latest.json', import.meta.url));
const ROUNDS = 5;

interface Line {
  readonly what: string;
  readonly unit: string;
  readonly measured: Spread;
  readonly target: string;
}

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

// the first is a fresh design
for (const [i, timing] of benchKernel().entries()) note(timing.name, 'us', timing, i === 0 ? '< 40 us' : '');

const messaging = await benchMessaging(ROUNDS);
note('a design and its row, all quantities, on one worker thread', 'us', messaging.evaluated);
note(
  `sent there and back, ${messaging.designsPerBatch} designs a batch, not evaluated`,
  'us',
  messaging.sent,
);
note('overhead of messages', '%', messaging.overhead, '< 5 %');

const designs = WHOLE_STUDY_DESIGNS.toLocaleString('en');
const medians: number[] = [];
for (const threads of [1, 2]) {
  const { seconds, peakMemoryMB } = await benchWholeStudy(threads, ROUNDS);
  const on = `${designs} designs, tables written, ${threads} thread${threads === 1 ? '' : 's'}`;
  note(on, 's', seconds, threads === 2 ? '< 10 s' : '');
  note(`${on}: peak memory`, 'MB', peakMemoryMB, threads === 2 ? '< 500 MB' : '');
  medians.push(seconds.median);
}
const gain = medians[0]! / medians[1]!;
note('two threads over one, whole study', 'x', { median: gain, least: gain, most: gain });

writeFileSync(LATEST, `${JSON.stringify({ machine, lines }, null, 2)}\n`);
