import { readFileSync, writeFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { DOCS_FIGURES } from './support/docs-figures.ts';
import { farthest, svgShape } from './support/svg-shape.ts';

it.each(Object.entries(DOCS_FIGURES))(
  'docs/%s is what is computed now (UPDATE=1 npx vitest run test/docs-figures.test.ts rewrites it)',
  async (name, draw) => {
    const file = new URL(`../docs/${name}`, import.meta.url);
    const svg = await draw();
    if (process.env.UPDATE) writeFileSync(file, `${svg}\n`);
    const [kept, now] = [svgShape(readFileSync(file, 'utf8')), svgShape(svg)];
    expect(kept.drawn).toBe(now.drawn);
    // px: less than a line is thick, more than the physics' own accuracy moves a point
    expect(farthest(kept, now)).toBeLessThan(0.5);
  },
);
