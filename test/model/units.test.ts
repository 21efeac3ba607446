import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { fromUnit, toUnit, UNITS } from '../../src/model/units.ts';

const math = create(all!);

/** What mathjs does not know: a pure number, a currency, a level. */
const OTHERS: readonly string[] = ['', '¤', 'dB(A)'];

/** A symbol as mathjs writes it. */
function inMathjs(symbol: string): string {
  return symbol
    .replace('µ', 'u')
    .replace('Ω', 'ohm')
    .replace('°C', 'degC')
    .replace('°', 'deg')
    .replaceAll('·', ' ')
    .replace('²', '^2')
    .replace('³', '^3');
}

describe('UNITS', () => {
  it.each(Object.values(UNITS).filter(({ symbol }) => !OTHERS.includes(symbol)))(
    '$symbol is as large as mathjs has it',
    (unit) => {
      const si = (value: number) => math.unit(value, inMathjs(unit.symbol)).toSI().toNumeric() as number;
      const [at0, at1, at7] = [si(0), si(1), si(7)];
      // SI of it at two values: the scale is exact but for the rounding of a division, the zero that of the unit
      expect((at7 - at0) / 7).toBeCloseTo(1 / unit.scale, 12 - Math.ceil(Math.log10(1 / unit.scale)));
      expect(fromUnit(1, unit) / at1).toBeCloseTo(1, 12);
      expect(toUnit(at7, unit)).toBeCloseTo(7, 9);
    },
  );

  it('leaves pure numbers, money and levels as they are', () => {
    for (const unit of Object.values(UNITS).filter(({ symbol }) => OTHERS.includes(symbol))) {
      expect(toUnit(3, unit)).toBe(3);
    }
  });
});
