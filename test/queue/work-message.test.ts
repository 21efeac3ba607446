import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Descent } from '../../src/plan/plan.ts';
import { fromMessage, toMessage } from '../../src/queue/work-message.ts';

const numbers = (length: number) => fc.float64Array({ minLength: length, maxLength: length });

const descent: Descent = {
  start: 3,
  seed: 7,
  objective: 1,
  caps: [Number.POSITIVE_INFINITY, 0.25],
  extents: [1, 2],
  from: {
    id: 12,
    design: Float64Array.of(1, 2, 3),
    costs: Float64Array.of(-1, Number.NaN),
    violation: Number.POSITIVE_INFINITY,
  },
  settings: { evaluations: 400, tolerance: 1e-4, resolution: 1e-3 },
};

describe('work on its way to a worker', () => {
  it('arrives to the last bit, as JSON', () => {
    fc.assert(
      fc.property(fc.nat(1e9), numbers(6), (first, values) => {
        const sent = JSON.stringify(toMessage({ first, count: 2, values }));
        expect(fromMessage(JSON.parse(sent), 3, 2)).toEqual({ first, count: 2, values });
      }),
    );
    expect(fromMessage(JSON.parse(JSON.stringify(toMessage(descent))), 3, 2)).toEqual(descent);
  });

  const batch = toMessage({ first: 0, count: 2, values: new Float64Array(6) });
  const start = toMessage(descent);
  it.each([
    ['nothing', null],
    ['text', 'batch'],
    ['a batch of a study with other inputs', { ...batch, count: 3 }],
    ['a batch of less than nothing', { ...batch, count: -2 }],
    ['an endless batch', { ...batch, count: 1e9 }],
    ['a batch of no numbers', { ...batch, values: [1, 2] }],
    ['a start with too few caps', { ...start, caps: '' }],
    ['a start for an objective that is not there', { ...start, objective: 2 }],
    ['a start without settings', { ...start, settings: undefined }],
    ['an endless start', { ...start, settings: { evaluations: 1e12, tolerance: 0, resolution: 0 } }],
  ])('is not taken when it is %s', (_, message) => {
    expect(fromMessage(message, 3, 2)).toBeNull();
  });
});
