import { describe, expect, it } from 'vitest';
import { METAL_SLOTS } from '../../src/model/inputs.ts';
import { METALS, meltsFromOf, metalByName } from '../../src/model/metals.ts';

describe('the catalogue of metals', () => {
  it('names the metals of coils and plates', () => {
    for (const name of [
      'copper',
      'aluminium',
      'aluminium-1050',
      'aluminium-6061',
      'aluminium-6082',
      'brass',
      'stainless-304',
      'mild-steel',
    ]) {
      expect(metalByName(name)?.name).toBe(name);
    }
    expect(metalByName('unobtainium')).toBeUndefined();
    expect(new Set(METALS.map((metal) => metal.name)).size).toBe(METALS.length);
  });

  it('gives every value of every metal a source', () => {
    for (const metal of METALS) {
      for (const key of Object.keys(METAL_SLOTS) as (keyof typeof METAL_SLOTS)[]) {
        if (key === 'saturation' && metal.relativePermeability.value < 2) continue;
        expect(metal[key]!.value, `${metal.name} ${key}`).toBeGreaterThan(0);
        expect(metal[key]!.source.length, `${metal.name} ${key}`).toBeGreaterThan(4);
      }
    }
  });

  it('knows where each metal begins to melt, also where its resistivity was fitted, and of no own metal', () => {
    for (const { name, density, specificHeat, relativePermeability, meltsFrom } of METALS) {
      const melts = meltsFromOf(density.value, specificHeat.value, relativePermeability.value);
      expect(melts, name).toBeLessThanOrEqual(meltsFrom.value);
      expect(meltsFrom.value - melts, name).toBeLessThan(10);
    }
    expect(meltsFromOf(8890, 385, 1) - 273.15).toBeCloseTo(1083, 9);
    expect(meltsFromOf(8891, 385, 1)).toBeNaN();
  });

  it('has annealed copper of IEC 60028 and hard-drawn aluminium of IEC 60889', () => {
    const copper = metalByName('copper')!;
    // IEC 60028:1925 by a secondary quotation: 1/58 ohm mm2/m, 0.00393 /K, 8.89 g/cm3.
    expect(copper.resistivity.value * 1e6).toBeCloseTo(0.0172414, 7);
    expect(copper.temperatureCoefficient.value).toBe(0.00393);
    expect(copper.density.value).toBe(8890);
    const aluminium = metalByName('aluminium')!;
    // IEC 60889:1987 by a secondary quotation: 0.028264 ohm mm2/m = 61.0 %IACS, 0.00403 /K, 2.703 g/cm3.
    expect(copper.resistivity.value / aluminium.resistivity.value).toBeCloseTo(0.61, 4);
    expect(aluminium.temperatureCoefficient.value).toBe(0.00403);
    expect(aluminium.density.value).toBe(2703);
  });

  it('keeps to what builders know: copper conducts 1.6 times as well and weighs 3.3 times as much', () => {
    // Common practice, to two digits.
    const [copper, aluminium] = [metalByName('copper')!, metalByName('aluminium')!];
    expect(aluminium.resistivity.value / copper.resistivity.value).toBeCloseTo(1.64, 2);
    expect(copper.density.value / aluminium.density.value).toBeCloseTo(3.29, 2);
  });

  it('gives the aluminium plate alloys the conductivity that makers state', () => {
    // Aluminum Association and makers' data: 29 (5083-O), 43 (6061-T6), 41 to 55 (6082) %IACS.
    const percent = (name: string) => 100 / (metalByName(name)!.resistivity.value * 58e6);
    expect(percent('aluminium-5083')).toBeCloseTo(29, 6);
    expect(percent('aluminium-6061')).toBeCloseTo(43, 6);
    expect(percent('aluminium-6082')).toBeGreaterThan(41);
    expect(percent('aluminium-6082')).toBeLessThan(55);
  });
});
