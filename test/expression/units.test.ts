import { describe, expect, it } from 'vitest';
import { parseUnit, scaleBy, unitSymbol } from '../../src/expression/units.ts';
import * as D from '../../src/model/dimension.ts';
import { INPUTS } from '../../src/model/inputs.ts';
import { QUANTITIES } from '../../src/model/quantities.ts';
import { fromUnit, UNITS } from '../../src/model/units.ts';

describe('unitSymbol', () => {
  it('knows the units that rigs are measured in', () => {
    expect(unitSymbol('mm')).toEqual({
      dimension: D.LENGTH,
      factor: 0.001,
      offset: 0,
      coherent: 'm',
    });
    expect(unitSymbol('in')?.factor).toBe(0.0254);
    expect(unitSymbol('ohm')?.dimension).toEqual(D.RESISTANCE);
    expect(unitSymbol('degC')).toEqual({
      dimension: D.TEMPERATURE,
      factor: 1,
      offset: 273.15,
      coherent: 'K',
    });
  });

  it('has no unit for names of the language, nor for what no rig has', () => {
    for (const name of ['constructor', '__proto__', 'toString', 'hasOwnProperty', 'grad', 'bit', 'cd', ''])
      expect(unitSymbol(name), name).toBeNull();
  });

  it('mistakes no quantity and no input for a unit', () => {
    for (const { name } of [...QUANTITIES, ...INPUTS]) expect(unitSymbol(name), name).toBeNull();
  });
});

describe('parseUnit', () => {
  it('reads products, quotients, powers and parentheses as mathjs does', () => {
    const rows: [string, D.Dimension, number][] = [
      ['kV/mm', D.FIELD_STRENGTH, 1e6],
      ['ohm m', D.RESISTIVITY, 1],
      ['ohm mm^2/m', D.RESISTIVITY, 1e-6],
      ['J/(kg K)', D.SPECIFIC_HEAT, 1],
      ['J/kg K', D.SPECIFIC_HEAT, 1],
      ['J/kg/K', D.SPECIFIC_HEAT, 1],
      ['g/cm^3', D.DENSITY, 1000],
      ['1/K', D.PER_TEMPERATURE, 1],
      ['1/degC', D.PER_TEMPERATURE, 1],
      ['N m/deg', D.ENERGY, 180 / Math.PI],
      ['A/mm^2', D.CURRENT_DENSITY, 1e6],
      ['m s^-1 s', D.LENGTH, 1],
    ];
    for (const [text, dimension, factor] of rows) {
      const unit = parseUnit(text);
      expect(unit?.dimension, text).toEqual(dimension);
      expect(unit?.factor, text).toBe(factor);
    }
  });

  it('gives a zero of its own to a temperature scale only where it stands alone', () => {
    expect(parseUnit('degC')?.offset).toBe(273.15);
    expect(parseUnit('W/degC')?.offset).toBe(0);
  });

  it('refuses everything else', () => {
    for (const text of [
      '',
      'x',
      'mm mm)',
      '(mm',
      'mm^',
      'mm^1.5',
      'mm^99',
      '2 mm',
      'mm/',
      'mm+mm',
      '('.repeat(50),
      '1',
    ])
      expect(parseUnit(text), text).toBeNull();
  });
});

describe('scaleBy', () => {
  it('divides by whole numbers, as tables do when they convert back', () => {
    for (const value of [12.3, 0.1, 1.3, 2.7, 19.9])
      expect(scaleBy(value, 0.001)).toBe(fromUnit(value, UNITS.mm));
    expect(scaleBy(3, 0.0254)).toBe(3 * 0.0254);
  });
});
