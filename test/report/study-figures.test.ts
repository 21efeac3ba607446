import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { buildReport } from '../../src/report/build-report.ts';
import { reportOn, studyFrom } from '../support/finished-study.ts';
import { PROJECT } from '../support/source-files.ts';
import { farthest, svgShape } from '../support/svg-shape.ts';

const FOLDER = join(PROJECT, 'studies/figures');
/** README and the pages that it leads to. */
const PAGES = [
  'README.md',
  ...readdirSync(join(PROJECT, 'docs'))
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
];
const shown = PAGES.flatMap((page) =>
  Array.from(
    readFileSync(join(PROJECT, page), 'utf8').matchAll(
      /!\[[^\]]+\]\((?:\.\.\/)?studies\/figures\/([^)]+\.svg)\)/g,
    ),
    ([, file]) => file!,
  ),
);

describe('the figures of README and docs', () => {
  it('are the ones that are kept, two at least, each with words for those who do not see it', () => {
    expect([...new Set(shown)].sort()).toEqual(
      readdirSync(FOLDER)
        .filter((name) => name.endsWith('.svg'))
        .sort(),
    );
    expect(shown.length).toBeGreaterThanOrEqual(2);
  });

  it.each(shown)('%s is what a run of its study draws', async (file) => {
    const [study, ...figure] = file.split('.');
    const input = reportOn(studyFrom(readFileSync(join(PROJECT, `studies/${study}.yaml`), 'utf8')));
    const { figures } = await buildReport(input);
    const now = svgShape(figures.find(({ name }) => name === figure.join('.'))!.svg);
    const kept = svgShape(readFileSync(join(FOLDER, file), 'utf8'));
    // to bring it up to date: run the study and copy the figure from its result folder
    expect(kept.drawn).toBe(now.drawn);
    // px: less than a line is thick, more than the physics' own accuracy moves a point
    expect(farthest(kept, now)).toBeLessThan(0.5);
  });
});
