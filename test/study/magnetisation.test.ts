import { describe, expect, it } from 'vitest';
import { METAL_SLOTS, SLOT } from '../../src/model/inputs.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { readStudy } from '../../src/study/read-study.ts';

function study(steel: string): string {
  return `study: steel
rig:
  floats: nothing
  coil: {metal: copper, wire: 1 mm, insulation: grade 2, turns: 100, layers: 5, inner_radius: 20 mm}
  plate:
    metal: ${steel}
    thickness: 2 mm
  standoff: 3 mm
  supply: {frequency: 50 Hz}
drive: {current: 5 A}
`;
}

const NUMBERS = 'resistivity: 143 nohm m, temperature_coefficient: 0.0045, density: 7850, specific_heat: 486';

function metalOf(text: string): { permeability: number; saturation: number } {
  const result = readStudy(text);
  if ('problems' in result) throw new Error(drawProblems('study.yaml', text, result.problems));
  const { slots } = result.study.rig;
  return {
    permeability: slots[SLOT.plateLayers + METAL_SLOTS.relativePermeability]!,
    saturation: slots[SLOT.plateLayers + METAL_SLOTS.saturation]!,
  };
}

describe('steel of a study', () => {
  it('saturates by the catalogue, by its family, by its own number, or not at all', () => {
    expect(metalOf(study('mild-steel'))).toEqual({ permeability: 1500, saturation: 2 });
    expect(metalOf(study('stainless-430'))).toEqual({ permeability: 800, saturation: 1.5 });
    expect(metalOf(study('{family: steel, resistivity: 150 nohm m}')).saturation).toBe(2);
    expect(metalOf(study(`{${NUMBERS}, relative_permeability: 900, saturation: 1.7 T}`))).toEqual({
      permeability: 900,
      saturation: 1.7,
    });
    expect(metalOf(study(`{${NUMBERS}, relative_permeability: 900}`)).saturation).toBeNaN();
    expect(metalOf(study('aluminium')).saturation).toBeNaN();
  });

  it('may be given by points of its curve', () => {
    const points =
      '[[500 A/m, 0.8 T], [1000 A/m, 1.24 T], [2000 A/m, 1.58 T], [4 kA/m, 1.79 T], [10000, 1.93]]';
    const { permeability, saturation } = metalOf(study(`{${NUMBERS}, magnetisation: ${points}}`));
    // these points are of the catalogue's mild steel, rounded
    expect(Math.abs(permeability / 1500 - 1)).toBeLessThan(0.03);
    expect(Math.abs(saturation / 2 - 1)).toBeLessThan(0.01);
  });

  it.each([
    'magnetisation: [[500 A/m, 0.8 T], [400 A/m, 1.2 T]]',
    'magnetisation: [[500 A/m, 0.8 T], [1000 A/m, 0.7 T]]',
    'magnetisation: [[100 A/m, 0.1 T], [200 A/m, 0.6 T]]',
    'magnetisation: [[500 A/m, 0.8 T]]',
    'magnetisation: [[500 A/m, 0.8 kg], [600 A/m, 0.9 T]]',
    'magnetisation: [[500 A/m], [600 A/m, 0.9 T]]',
    'magnetisation: [[1 A/m, 0.8 T], [2 A/m, 0.9 T]]',
    'relative_permeability: 100, saturation: -1 T',
  ])('is refused with %s', (curve) => {
    const text = study(`{${NUMBERS}, ${curve}}`);
    const result = readStudy(text);
    if (!('problems' in result)) throw new Error('accepted');
    expect(drawProblems('study.yaml', text, result.problems)).toMatchSnapshot();
  });
});
