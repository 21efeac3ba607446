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

/** The rows that a reader of the README asks about. */
function readmeSpeed(): string {
  const { machine, lines } = JSON.parse(readFileSync(LATEST, 'utf8')) as Latest;
  const { processor, cores, node, date } = machine;
  const all = (part: string) => {
    const rows = lines.filter(({ what }) => what.includes(part));
    if (rows.length === 0) throw new Error(`the bench has no row about: ${part}`);
    return rows;
  };
  const digits = (value: number) => String(Number(value.toPrecision(3)));
  const median = (part: string) => `${digits(all(part)[0]!.measured.median)} ${all(part)[0]!.unit}`;
  const highest = (rows: Latest['lines']) => digits(Math.max(...rows.map(({ measured }) => measured.most)));
  const tolerances = 'a design and its 256 rigs within tolerances: ';
  const disc = 'finite disc, fresh, with equilibrium: ';
  const tables = 'designs, all quantities, tables written, 2 threads';
  const descents = all('nelder_mead, ten seeds');
  const evaluations = descents.map(({ measured }) => measured.median);
  return [
    `- One design, every law: ${median('every law, fresh design over a wide plate')}, ${median('every law, coil and plate repeat')} where coil and plate repeat; over a disc ${median(`${disc}foyer coil, 12 mm`)} at 50 Hz, ${median(`${disc}pan base`)} at 25 kHz.`,
    `- A design and 256 rigs within tolerances: ${median(`${tolerances}a wide plate`)}, over a shared disc ${median(`${tolerances}a shared disc`)}.`,
    `- A million designs, all tables, two threads: ${median(`1,000,000 ${tables}`)} and ${median('1,000,000 designs, 2 threads: peak memory')}; ten million: ${median('10,000,000 designs, 2 threads')}.`,
    `- Searches, the worst of ten seeds: \`genetic\` is ${highest(all('short of the true hypervolume'))} % short of six known fronts, ${highest(all('short of the best known hypervolume'))} % of the best`,
    `  known one of seven inputs; \`nelder_mead\` reaches ${descents.length} published optima to 1e-6, in ${digits(Math.min(...evaluations))} to ${digits(Math.max(...evaluations))} evaluations.`,
    `- ${processor}, ${cores} cores, Node ${node.slice(1)}, ${date}, in a minute in which lift and circuit took ${median('the same in C')} in C; [every row](docs/speed.md).`,
    '',
  ].join('\n');
}

it.each([
  ['docs/quantities.md holds the registry', 'quantities', quantities],
  ['docs/speed.md holds what the bench measured last', 'speed', speed],
  ['README.md quotes what the bench measured last', 'speed', readmeSpeed],
])('%s (UPDATE=1 npx vitest run test/generated-docs.test.ts rewrites it)', (title, name, make) => {
  const page = new URL(`../${title.split(' ')[0]}`, import.meta.url);
  const begin = `<!-- ${name}: begin -->\n`;
  const end = `<!-- ${name}: end -->`;
  const text = readFileSync(page, 'utf8');
  const [before, rest] = text.split(begin);
  const after = rest!.split(end)[1]!;
  const wanted = `${before}${begin}${make()}${end}${after}`;
  if (process.env.UPDATE) writeFileSync(page, wanted);
  else expect(text).toBe(wanted);
});
