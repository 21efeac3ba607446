import { describe, expect, it } from 'vitest';
import { limitMargin } from '../../src/expression/limit-margin.ts';
import type { Derived, Limit } from '../../src/model/program.ts';
import { UNITS } from '../../src/model/units.ts';
import { limit } from '../support/batches.ts';

describe('limitMargin', () => {
  it('is what is left of the larger side; all of it to a time without end, nothing at the bound', () => {
    const current = limit('current <= 16 A', 'current', '<=', 16);
    expect(limitMargin(current, [], 12, 16)).toBeCloseTo(0.25, 12);
    expect(limitMargin(current, [], 16, 16)).toBe(0);
    expect(limitMargin(current, [], Number.POSITIVE_INFINITY, 600)).toBe(1);
    expect(limitMargin(current, [], Number.NaN, 16)).toBeNaN();
    // nothing has no shares; a rig without height has none of a height that is sought
    expect(limitMargin(limit('height >= 0 mm', 'height', '>=', 0), [], 0.01, 0)).toBeNaN();
    expect(limitMargin(limit('height >= 10 mm', 'height', '>=', 0.01), [], 0, 0.01)).toBe(1);
  });

  it('takes shares of temperatures in degrees Celsius, of statistics and derived ones, too', () => {
    const hot = limit('coil_temperature <= 155 degC', 'coil_temperature', '<=', 428.15);
    expect(limitMargin(hot, [], 273.15 + 97.65, 428.15)).toBeCloseTo(0.37, 12);
    const p95: Derived = {
      name: 'coil_temperature_p95',
      column: 'coil_temperature_p95_degC',
      text: '',
      program: [],
      unit: UNITS.degC,
    };
    const likely: Limit = { ...hot, left: [{ op: 'derived', index: 0 }] };
    expect(limitMargin(likely, [p95], 273.15 + 97.65, 428.15)).toBeCloseTo(0.37, 12);
  });
});
