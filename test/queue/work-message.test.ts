import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Varied } from '../../src/model/study.ts';
import { createGrid, gridDesigns } from '../../src/plan/grid.ts';
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

/** Of three inputs and two objectives, whose plan does not know its designs beforehand. */
const study = { width: 3, objectives: 2, designs: () => null };
/** 200 designs. */
const vary = [
  { kind: 'choice', levels: ['aluminium', 'copper'] },
  { kind: 'number', levels: Array.from({ length: 100 }, (_, i) => 300 + i) },
] as unknown as Varied[];
const grid = {
  width: 2,
  objectives: 2,
  designs: (first: number, count: number) => gridDesigns(vary, first, count),
};

describe('work on its way to a worker', () => {
  it('arrives to the last bit, as JSON', () => {
    fc.assert(
      fc.property(fc.nat(1e9), numbers(6), (first, values) => {
        const sent = JSON.stringify(toMessage({ first, count: 2, values }, false));
        expect(fromMessage(JSON.parse(sent), study)).toEqual({ first, count: 2, values });
      }),
    );
    expect(fromMessage(JSON.parse(JSON.stringify(toMessage(descent, true))), study)).toEqual(descent);
  });

  it('is the numbers of designs alone where the plan has them in a known order', () => {
    const plan = createGrid(vary, 4);
    const works = [plan.next()!, plan.next()!];
    expect(works.map((work) => JSON.stringify(toMessage(work, true)))).toEqual([
      '{"first":0,"count":4}',
      '{"first":4,"count":4}',
    ]);
    expect(works.map((work) => fromMessage(toMessage(work, true), grid))).toEqual(works);
    expect(fromMessage({ first: 197, count: 4 }, grid), 'beyond its end').toBeNull();
    expect(fromMessage({ first: 2 ** 53 - 1, count: 1 }, grid)).toBeNull();
    expect(fromMessage({ first: 0, count: 1, values: 'AAAA' }, grid), 'no numbers').toBeNull();
    expect(fromMessage({ first: 0, count: 1 }, study), 'of another plan').toBeNull();
  });

  const batch = toMessage({ first: 0, count: 2, values: new Float64Array(6) }, false);
  const start = toMessage(descent, false);
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
    expect(fromMessage(message, study)).toBeNull();
  });
});
