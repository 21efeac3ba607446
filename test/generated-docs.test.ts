import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { QUANTITIES } from '../src/model/quantities.ts';

/** What `npm run bench` measured last. */
const LATEST = new URL('bench/latest.json', import.meta.url);

interface Latest {
  readonly machine: { processor: string; cores: number; memoryGB: number; node: string; date: string };
  readonly lines: readonly {
    what: string;
    unit: string;
    measured: { median: number; least: number; most: number };
    target: string;
  }[];
}

function quantities(): string {
  const rows = QUANTITIES.map(({ column, meaning }) => `| \`${column}\` | ${meaning} |`);
  return ['| column | meaning |', '|---|---|', ...rows, ''].join('\n');
}

function speed(): string {
  const { machine, lines } = JSON.parse(readFileSync(LATEST, 'utf8')) as Latest;
  const { processor, cores, memoryGB, node, date } = machine;
  const digits = (value: number) => String(Number(value.toPrecision(3)));
  const rows = lines.map(({ what, unit, measured: { median, least, most }, target }) => {
    const spread = least === most ? '' : ` (${digits(least)} to ${digits(most)})`;
    return `| ${what} | ${digits(median)} ${unit}${spread} | ${target} |`;
  });
  return [
    `Measured on ${date}: ${processor}, ${cores} cores, ${memoryGB} GB, Node ${node.slice(1)}; median (least to most).`,
    '',
    '| what | measured | aim |',
    '|---|---|---|',
    ...rows,
    '',
  ].join('\n');
}

it.each([
  ['quantities.md holds the registry', 'quantities', quantities],
  ['speed.md holds what the bench measured last', 'speed', speed],
])('docs/%s (UPDATE=1 npx vitest run test/generated-docs.test.ts rewrites it)', (_, name, make) => {
  const page = new URL(`../docs/${name}.md`, import.meta.url);
  const begin = `<!-- ${name}: begin -->\n`;
  const end = `<!-- ${name}: end -->`;
  const text = readFileSync(page, 'utf8');
  const [before, rest] = text.split(begin);
  const after = rest!.split(end)[1]!;
  const wanted = `${before}${begin}${make()}${end}${after}`;
  if (process.env.UPDATE) writeFileSync(page, wanted);
  else expect(text).toBe(wanted);
});
