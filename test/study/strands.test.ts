import { describe, expect, it } from 'vitest';
import { SLOT, TRANSPOSED, WINDING } from '../../src/model/inputs.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { windingSlot } from '../../src/study/rig.ts';

/** One rig; what stands for wire and strands is given. */
function study(wires: string): string {
  return `study: strands
rig:
  floats: coil
  coil:
    metal: copper
    ${wires}
    insulation: grade 2
    turns: 40
    layers: 8
    inner_radius: 40 mm
  plate: {metal: aluminium-1050, thickness: 8 mm}
  standoff: 2 mm
  supply: {frequency: 20 kHz}
drive: {current: 5 A}
`;
}

function slotsOf(text: string): Float64Array {
  const result = readStudy(text);
  if ('problems' in result) throw new Error(drawProblems('study.yaml', text, result.problems));
  return result.study.rig.slots;
}

describe('strands of a study', () => {
  it('are a count, or a count with diameter and whether they change places', () => {
    const slots = slotsOf(study('strands: {count: 20, diameter: 0.3 mm, transposed: yes}'));
    expect(slots[SLOT.strands]).toBe(20);
    expect(slots[SLOT.wire]).toBeCloseTo(0.3e-3, 12);
    expect(slots[SLOT.transposed]).toBe(TRANSPOSED.yes);
    const plain = slotsOf(study('strands: 2\n    wire: 1.4 mm'));
    expect(plain[SLOT.strands]).toBe(2);
    expect(plain[SLOT.transposed]).toBeNaN();
  });

  it('may be those of one winding', () => {
    const text = study('wire: 1 mm').replace(
      'turns: 40\n    layers: 8\n    inner_radius: 40 mm',
      'layers: 4\n    windings: [{turns: 10, inner_radius: 40 mm, strands: {count: 3, diameter: 0.5 mm, transposed: no}}]',
    );
    const slots = slotsOf(text);
    expect(slots[windingSlot(0) + WINDING.strands]).toBe(3);
    expect(slots[windingSlot(0) + WINDING.wire]).toBeCloseTo(0.5e-3, 12);
    expect(slots[windingSlot(0) + WINDING.transposed]).toBe(TRANSPOSED.no);
  });

  it('may vary by either name', () => {
    for (const path of ['coil.strands', 'coil.strands.count']) {
      const text = `${study('strands: {count: 2, diameter: 0.5 mm, transposed: no}')}vary: {${path}: [1, 2, 4]}\n`;
      const result = readStudy(text);
      expect('problems' in result ? result.problems : []).toEqual([]);
    }
  });

  it.each([
    ['strands: {count: 2, diameter: 1 mm}\n    wire: 1 mm'],
    ['strands: {count: 2.5, diameter: 1 mm}'],
    ['strands: {count: 2, diameter: 1 mm, transposed: perhaps}'],
    ['strands: {count: 2, thick: 1 mm}'],
  ])('refuse %s', (wires) => {
    const text = study(wires);
    const result = readStudy(text);
    if (!('problems' in result)) throw new Error('accepted');
    expect(drawProblems('study.yaml', text, result.problems)).toMatchSnapshot();
  });
});
