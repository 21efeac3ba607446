import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { live } from '../../src/commands/live.ts';
import { idsOf, type LiveData, unpack } from '../../src/live/live-data.ts';
import { scratchFolder } from '../support/cli.ts';
import { hostileStudy } from '../support/hostile-study.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const FOYER = join(PROJECT, 'studies/metal-and-turns.yaml');
const MOST_BYTES = 400_000;
/** Limits and objectives of the study alone. */
const OWN = { limits: [], ownLimits: true, objectives: [] };

async function written(place: string, out: string, design = 0): Promise<string> {
  const io = testIo({ cwd: scratch });
  expect(await live(place, { design, out, ...OWN }, io)).toBe(0);
  expect(io.err()).toBe('');
  return readFileSync(join(scratch, out), 'utf8');
}

function dataOf(page: string): LiveData {
  const json = /<script type="application\/json" id="live-data">(.*)<\/script>/.exec(page)![1]!;
  return unpack(JSON.parse(json)) as LiveData;
}

describe('live', () => {
  it('writes one page of at most 400 kB that names its script and loads nothing', async () => {
    const page = await written(FOYER, 'foyer.html', 496);
    expect(Buffer.byteLength(page)).toBeLessThanOrEqual(MOST_BYTES);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)![1]!;
    expect(policy).toContain('default-src &#39;none&#39;');
    expect(policy).toMatch(/script-src &#39;sha256-[^&]+&#39;; worker-src blob:;/);
    expect(policy).not.toContain('unsafe');
    expect(page).not.toContain('sourceMappingURL');
    expect(page.match(/<script>/g)).toHaveLength(1);
    // the one address is the name of SVG
    expect(new Set(page.match(/https?:\/\/[\w./]+/g))).toEqual(new Set(['http://www.w3.org/2000/svg']));
  });

  it('holds the design as the study says it', async () => {
    const { design, study } = dataOf(await written(FOYER, 'design.html', 22));
    expect({ design, title: study.title }).toEqual({
      design: 22,
      title: 'Which metal and how many turns for the foyer table?',
    });
  });

  it('has room for every design of a demo grid, whatever the program takes', async () => {
    const { designs } = dataOf(await written(FOYER, 'grid.html'));
    expect(idsOf(designs!.steps)).toEqual(Array.from({ length: 1488 }, (_, id) => id));
  });

  it('has room for a study of very many levels, and the ends of its slider', async () => {
    const levels = 'coil.turns: {from: 300, to: 600, step: 10}';
    const study = readFileSync(FOYER, 'utf8');
    expect(study).toContain(levels);
    writeFileSync(
      join(scratch, 'many.yaml'),
      study.replace(levels, 'standoff: {from: 1 mm, to: 9 mm, count: 100000}'),
    );
    const page = await written('many.yaml', 'many.html', 4_799_999);
    expect(Buffer.byteLength(page)).toBeLessThanOrEqual(MOST_BYTES);
    const { study: inPage, values } = dataOf(page);
    const standoff = inPage.vary.findIndex(({ path }) => path === 'standoff');
    expect([...inPage.vary[standoff]!.levels]).toEqual([0.001, 0.009]);
    expect(values[standoff]).toBe(0.009);
  });

  it('lets no text of a study end a tag or a script', async () => {
    const bait = '</script><script>alert(1)</script><img src=x onerror=alert(2)>"\'';
    writeFileSync(join(scratch, 'hostile.yaml'), hostileStudy(bait));
    const page = await written('hostile.yaml', 'hostile.html');
    expect(page).not.toContain('<img');
    expect(page.match(/<script/g)).toHaveLength(2);
  });

  it('writes over an earlier page, never over another file', async () => {
    await written(FOYER, 'again.html');
    await written(FOYER, 'again.html');
    writeFileSync(join(scratch, 'notes.html'), '<p>mine</p>');
    const out = (name: string) => live(FOYER, { design: 0, out: name, ...OWN }, testIo({ cwd: scratch }));
    await expect(out('notes.html')).rejects.toThrow(
      'notes.html is there and is no live page: choose another name',
    );
    expect(readFileSync(join(scratch, 'notes.html'), 'utf8')).toBe('<p>mine</p>');
    await expect(out('page.txt')).rejects.toThrow('page.txt: a live page is kept in a file named *.html');
  });
});
