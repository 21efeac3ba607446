import { describe, expect, it } from 'vitest';
import { familyNumbers } from '../../src/model/metal-families.ts';
import { aliasesOf, KNOWN_METAL_NAMES, metalCalled } from '../../src/model/metal-names.ts';
import { METALS, metalByName } from '../../src/model/metals.ts';

describe('names of metals', () => {
  it.each([
    ['AlMgSi', 'aluminium-6060'],
    ['EN AW-6060', 'aluminium-6060'],
    ['en aw 6061', 'aluminium-6061'],
    ['EN AW-6082-T6', 'aluminium-6082'],
    ['6082', 'aluminium-6082'],
    ['Cu-ETP', 'copper'],
    ['cw004a', 'copper'],
    ['C26000', 'brass'],
    ['1.4301', 'stainless-304'],
    ['aluminum-1050', 'aluminium-1050'],
  ])('%s is %s', (written, name) => {
    expect(metalCalled(written)?.name).toBe(name);
  });

  it('are no other metals, and nobody else has them', () => {
    expect(metalCalled('6061-T4')).toBeUndefined();
    expect(metalCalled('7075')).toBeUndefined();
    for (const { name } of METALS) {
      expect(metalCalled(name)?.name).toBe(name);
      for (const alias of aliasesOf(name)) expect(metalCalled(alias)?.name, alias).toBe(name);
    }
    expect(new Set(KNOWN_METAL_NAMES).size).toBe(KNOWN_METAL_NAMES.length);
  });

  it('6060 conducts between 28 and 34 MS/m (a maker of rods and tubes)', () => {
    const conductivity = 1e-6 / metalByName('aluminium-6060')!.resistivity.value;
    expect(conductivity).toBeGreaterThan(28);
    expect(conductivity).toBeLessThan(34);
  });
});

describe('a family of metals', () => {
  it('gives a metal of the catalogue its own temperature coefficient', () => {
    const { resistivity, temperatureCoefficient } = metalByName('aluminium-6061')!;
    // Matthiessen's rule, to the three digits that both are rounded to
    expect(familyNumbers('aluminium', resistivity.value).temperatureCoefficient).toBeCloseTo(
      temperatureCoefficient.value,
      5,
    );
  });
});
