import { describe, expect, it } from 'vitest';
import { SERIES, seriesByName } from '../../src/model/series/series.ts';
import { awgDiameter } from '../../src/model/wires.ts';

const values = (name: string) => seriesByName(name)!.values;

/** How far the values are, in ratio, from equal ratios of `perDecade` values a decade. */
function farthest(name: string, perDecade: number, unit = 1): number {
  return Math.max(
    ...values(name).map((si) => {
      const steps = Math.log10(si / unit) * perDecade;
      return Math.abs(10 ** ((steps - Math.round(steps)) / perDecade) - 1);
    }),
  );
}

describe('series of sizes', () => {
  it('of wire are preferred numbers: at most 1.3 % from equal ratios (ISO 3)', () => {
    expect(farthest('R 20', 20, 1e-3)).toBeLessThan(0.0132);
    expect(farthest('R 40', 40, 1e-3)).toBeLessThan(0.0132);
    expect(values('R 20')).toHaveLength(38);
    expect(values('R 40')).toHaveLength(75);
  });

  it('of miniature fuses follow R 10, of capacitors E 6 (IEC 60063: within 5 %)', () => {
    expect(farthest('T', 10)).toBeLessThan(0.0132);
    expect(farthest('E6', 6, 1e-6)).toBeLessThan(0.05);
  });

  it('of gauges are those of ASTM B258, the thinnest first', () => {
    expect(values('AWG')[0]).toBe(awgDiameter(50));
    expect(values('AWG').at(-1)).toBe(awgDiameter(-3));
  });

  it('all ascend and hold no size twice', () => {
    for (const { name, values: sizes } of SERIES) {
      const sorted = [...new Set(sizes)].sort((a, b) => a - b);
      expect(sizes, name).toEqual(sorted);
    }
  });

  it('go by their names in any case and with or without blanks', () => {
    expect(seriesByName('r20')).toBe(seriesByName('R 20'));
    expect(seriesByName('R 21')).toBeUndefined();
  });
});
