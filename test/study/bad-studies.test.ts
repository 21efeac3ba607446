import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { readStudy } from '../../src/study/read-study.ts';

const FOLDER = new URL('../fixtures/bad-studies/', import.meta.url);
const files = readdirSync(FOLDER).sort();

/** Valid as far as a reader can tell; that its wires fit in no design is found by the rig. */
const FOR_THE_RIG = 'wires-fit-nowhere.yaml';

describe('a bad study', () => {
  it('is one of at least forty', () => {
    expect(files.length).toBeGreaterThanOrEqual(40);
  });

  it.each(files.filter((file) => file !== FOR_THE_RIG))(
    '%s is refused with its line and a caret',
    async (file) => {
      const source = readFileSync(new URL(file, FOLDER));
      const result = readStudy(source);
      if (!('problems' in result)) throw new Error(`${file} was accepted`);
      expect(result.problems.length).toBeGreaterThan(0);
      const drawn = drawProblems(file, source, result.problems);
      for (const one of drawn.split('\n\n')) {
        expect(one).toMatch(
          /^(?:[\w-]+\.yaml:\d+:\d+: found .+; wanted .+\n)+ {2}\d+ \| ?.*\n {2} +\| *\^+$/,
        );
      }
      expect(drawn).not.toMatch(/^\s+at |node_modules|undefined|NaN`|\[object/m);
      const golden = new URL(`../golden/bad-studies/${file.replace('.yaml', '.txt')}`, import.meta.url);
      await expect(`${drawn}\n`).toMatchFileSnapshot(golden.pathname);
    },
  );

  it('whose wires fit in no design is read, and the place of its turns is known', () => {
    const result = readStudy(readFileSync(new URL(FOR_THE_RIG, FOLDER)));
    if ('problems' in result) throw new Error(result.problems[0]!.found);
    const { offset, length } = result.locate('coil.turns');
    expect(result.study.text.slice(offset, offset + length)).toBe('coil.turns');
  });
});
