import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { QUANTITIES } from '../src/model/quantities.ts';

const README = new URL('../README.md', import.meta.url);
const BEGIN = '<!-- quantities: begin -->\n';
const END = '<!-- quantities: end -->';

function table(): string {
  const rows = QUANTITIES.map(({ column, meaning }) => `| \`${column}\` | ${meaning} |`);
  return ['| column | meaning |', '|---|---|', ...rows, ''].join('\n');
}

it("README's table of quantities is the registry (UPDATE=1 npx vitest run test/readme.test.ts rewrites it)", () => {
  const text = readFileSync(README, 'utf8');
  const [before, rest] = text.split(BEGIN);
  const after = rest!.split(END)[1]!;
  const wanted = `${before}${BEGIN}${table()}${END}${after}`;
  if (process.env.UPDATE) writeFileSync(README, wanted);
  else expect(text).toBe(wanted);
});
