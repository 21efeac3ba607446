import { describe, expect, it } from 'vitest';
import { createPlan } from '../../src/plan/create-plan.ts';
import { readStudy } from '../../src/study/read-study.ts';

const RIG = `study: One coil
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
`;

function problemsOf(text: string): string[] {
  const read = readStudy(text);
  return 'problems' in read ? read.problems.map(({ code, found }) => `${code}: ${found}`) : [];
}

describe('a study without vary', () => {
  it('is one design', () => {
    const read = readStudy(RIG);
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    expect(read.study.vary).toEqual([]);
    expect(read.study.objectives).toEqual([]);
    expect(createPlan(read.study).total).toBe(1);
  });

  it('is not searched', () => {
    expect(problemsOf(`${RIG}plan: {genetic: {}}\n`)).toEqual([
      'search-of-few: a population of 50, of 1 designs in all',
      'nothing-to-seek: a search without an objective',
    ]);
  });

  it('has an objective although its name is wrong', () => {
    const text = `${RIG}vary: {coil.turns: {from: 100, to: 900, step: 1}}\nobjectives: [maximise: hight]\nplan: {genetic: {}}\n`;
    expect(problemsOf(text)).toEqual([
      'unknown-name: `hight` is no quantity, input, derived quantity or unit',
    ]);
  });
});

describe('the first look at a study', () => {
  it('finds what is missing beside what is wrong', () => {
    const text = RIG.replace('wire: 2 mm', 'wire: 2 kg')
      .replace('turns: 440, ', '')
      .replace('  standoff: 2 mm\n', '')
      .replace('thickness: 12 mm', 'thicknes: 12 mm');
    expect(problemsOf(text)).toEqual([
      'missing: no `standoff`',
      'missing: no `coil.turns`',
      'wrong-dimension: `2 kg` is in kg',
      // once: that no thickness is given need not be told, too
      'unknown-key: the unknown key `thicknes`',
    ]);
  });

  it('does not call missing what `vary` gives wrongly', () => {
    const text = `${RIG.replace('turns: 440, ', '')}vary: {coil.turns: [300, 1 kg]}\n`;
    expect(problemsOf(text)).toEqual(['wrong-dimension: `1 kg` is in kg']);
  });

  it.each([
    ['a rig that is no mapping', 'study: x\nrig: 3\ndrive: {current: 1 A}\n', ['wrong-shape: `3`']],
    ['a drive of the wrong shape', RIG.replace('{current: 12 A}', '12 A'), ['wrong-shape: `12 A`']],
  ])('tells %s once', (_, text, problems) => {
    expect(problemsOf(text)).toEqual(problems);
  });
});
