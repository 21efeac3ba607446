import { expect, it } from 'vitest';
import { metals } from '../../src/commands/metals.ts';
import { METALS } from '../../src/model/metals.ts';
import { testIo } from '../support/test-io.ts';

it('shows every metal with the source of each of its values', () => {
  const io = testIo();
  expect(metals(io)).toBe(0);
  const text = io.out().replace(/\s+/g, ' ');
  expect(text).toContain('also called EN AW-6060, 6060, 6060-T6, AlMgSi');
  for (const metal of METALS) {
    expect(text).toContain(`${metal.name}: ${metal.description}`);
    for (const property of [
      metal.resistivity,
      metal.density,
      metal.specificHeat,
      metal.relativePermeability,
    ]) {
      expect(text).toContain(property.source);
    }
  }
});

it('gives resistivity in the units that data sheets use', () => {
  const io = testIo();
  metals(io);
  // IEC 60028: annealed copper is 1/58 ohm mm2/m, 58 MS/m
  expect(io.out()).toContain('17.24 nΩ·m (58 MS/m)');
});
