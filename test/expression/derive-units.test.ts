import { describe, expect, it } from 'vitest';
import { compileDerived } from '../../src/expression/compile.ts';
import { unitSymbol } from '../../src/expression/units.ts';
import { UNITS } from '../../src/model/units.ts';

/** Every prefix that people write before every SI unit that rigs are measured in, and what is not SI. */
const PREFIXES = { n: 1e-9, u: 1e-6, m: 1e-3, '': 1, k: 1e3, M: 1e6 };
const SI = ['m', 's', 'A', 'K', 'V', 'W', 'Hz', 'ohm', 'H', 'F', 'N', 'T', 'J', 'Pa', 'C', 'Wb', 'S'];
const OTHERS: readonly (readonly [unit: string, factor: number, coherent: string])[] = [
  ['g', 1e-3, 'kg'],
  ['kg', 1, 'kg'],
  ['mg', 1e-6, 'kg'],
  ['cm', 1e-2, 'm'],
  ['in', 0.0254, 'm'],
  ['ft', 0.3048, 'm'],
  ['mil', 2.54e-5, 'm'],
  ['min', 60, 's'],
  ['hour', 3600, 's'],
  ['lb', 0.45359237, 'kg'],
  ['bar', 1e5, 'Pa'],
];
const CASES = [
  ...SI.flatMap((unit) =>
    Object.entries(PREFIXES).map(([prefix, factor]) => [prefix + unit, factor, unit] as const),
  ),
  ...OTHERS,
  // km and MK, say, but no `min` for a milli-inch: that is a minute
].filter(([unit, factor]) => Math.abs((unitSymbol(unit)?.factor ?? 0) / factor - 1) < 1e-12);

function columnOf(expression: string, unit: string | null = null): [string, number] {
  const outcome = compileDerived('x', expression, [], unit);
  if (!outcome.ok) throw new Error(`${expression}: ${outcome.flaw.found}`);
  return [outcome.value.column, outcome.value.unit.scale];
}

describe('a derived quantity', () => {
  it('has every unit of the list', () => {
    expect(CASES.length).toBeGreaterThanOrEqual(SI.length * 5 + OTHERS.length);
  });

  it.each(CASES)('of %s is in the coherent SI unit unless it names its own', (unit, factor, coherent) => {
    // a length times a power of it keeps what has a name of its own (V, W, ...) from taking its place
    const [column, scale] = columnOf(`wire_length ^ 5 * 2 ${unit}`);
    expect([column, scale]).toEqual([`x_${coherent === 'm' ? 'm6' : `m5_${coherent}`}`, 1]);
    const [alone] = columnOf(`power_factor * 2 ${unit}`);
    expect(alone).toMatch(/^x_[A-Za-z]+$/);
    const [own, units] = columnOf(`power_factor * 2 ${unit}`, unit);
    expect(own).toBe(`x_${unit}`);
    expect(units * factor).toBeCloseTo(1, 12);
  });

  it('of a unit of the registry is read back in it', () => {
    for (const { suffix, symbol } of Object.values(UNITS)) {
      if (suffix === '' || unitSymbol(suffix) === null || symbol === '°C') continue;
      expect(columnOf(`power_factor * 2 ${suffix}`, suffix)[0], suffix).toBe(`x_${suffix}`);
    }
  });

  it('of a pressure in kPa is in Pa, not in base units', () => {
    expect(columnOf('power_factor * 3 kPa')).toEqual(['x_Pa', 1]);
  });
});
