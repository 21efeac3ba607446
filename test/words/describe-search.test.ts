import { describe, expect, it } from 'vitest';
import type { Study } from '../../src/model/study.ts';
import type { StartRecord } from '../../src/plan/plan.ts';
import { atBounds, describeSearch } from '../../src/words/describe-search.ts';
import { workshopStudy } from '../support/batches.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

const evolve = {
  kind: 'genetic',
  population: 10,
  generations: 50,
  seed: 1,
  patience: 20,
  tolerance: 1e-3,
} as const;

function start(objective: number, height: number, changes: Partial<StartRecord> = {}): StartRecord {
  const at = { id: 1, design: Float64Array.of(0), costs: Float64Array.of(-height, 2), violation: 0 };
  const free = Number.POSITIVE_INFINITY;
  const rest = {
    start: 0,
    caps: [free, free],
    feasible: true,
    rests: false,
    evaluations: 9,
    end: 'settled' as const,
  };
  return { ...rest, objective, from: at, to: at, ...changes };
}

describe('a search in words', () => {
  it('says how many starts found the best, ended early or found nothing', () => {
    const starts = [
      start(0, 0.0123),
      start(0, 0.012299),
      start(0, 0.01, { end: 'spent' }),
      start(1, 0.01, { feasible: false }),
      // held to a level: no word on the best
      start(0, 0.02, { caps: [Number.POSITIVE_INFINITY, 3] }),
    ];
    expect(describeSearch(workshopStudy(), { kind: 'nelder_mead', starts })).toEqual([
      'Nelder-Mead: of 5 starts 4 went on until nothing improved, 1 used up their evaluations; 1 found no feasible design.',
      'floats highest: 12.3 mm, found by 2 of 3 starts.',
      'lightest: none of 1 starts found a feasible design.',
    ]);
  });

  it('tells feasible designs that rest from those that float', () => {
    const starts = [
      start(0, 0, { rests: true }),
      start(0, 0, { rests: true }),
      start(1, 0, { feasible: false }),
    ];
    expect(describeSearch(workshopStudy(), { kind: 'nelder_mead', starts })).toEqual([
      'Nelder-Mead: of 3 starts 3 went on until nothing improved; 1 found no feasible design; 2 found none that floats.',
      'floats highest: none of 2 starts found a feasible design that floats; of those that rest the best has 0 mm.',
      'lightest: none of 1 starts found a feasible design.',
    ]);
    // one that floats is worth more than any that rests
    const one = [start(0, 0.01), start(0, 0.02, { rests: true })];
    expect(describeSearch(workshopStudy(), { kind: 'nelder_mead', starts: one })[1]).toBe(
      'floats highest: 10 mm, found by 1 of 2 starts.',
    );
  });

  it('says why an evolution ended, and when it might have gone on', () => {
    const study = workshopStudy({ plan: evolve });
    const words = (end: 'generations' | 'settled' | 'exhausted', growth: number) =>
      describeSearch(study, { kind: 'genetic', end, generations: 50, growth })[0];
    expect(words('settled', 1e-4)).toBe(
      'Genetic search: settled after 50 generations; the hypervolume of the front grew by less than 0.1 % over the last 20 generations.',
    );
    expect(words('generations', 0.0123)).toBe(
      'Genetic search: all 50 generations done; the hypervolume of the front still grew by 1.23 % over the last 20 generations: more may find better.',
    );
    expect(words('generations', 1)).toBe('Genetic search: all 50 generations done.');
    expect(words('exhausted', 0.2)).toBe('Genetic search: no new design to be found after 50 generations.');
  });
});

describe('ends of ranges', () => {
  const vary: Study['vary'] = [
    variedChoice('metal', 3),
    variedNumber('wire', [2, 1, 4]),
    variedRange('turns', 100, 300),
    variedRange('thickness', 1, 100, { spacing: 'log' }),
    variedNumber('sheet', [1, 2, Number.POSITIVE_INFINITY]),
    variedNumber('fixed', [5]),
  ];

  it('are named where a design stands within a hundredth of them, on the scale of the range', () => {
    expect(atBounds(vary, [0, 2, 200, 10, 2, 5])).toEqual([]);
    expect(atBounds(vary, [0, 1, 299, 1.04, Number.POSITIVE_INFINITY, 5])).toEqual([
      'wire (smallest)',
      'turns (largest)',
      'thickness (smallest)',
      'sheet (largest)',
    ]);
    // 1.05 is a hundredth of the way from 1 to 100 in equal ratios: 100^0.01 = 1.047
    expect(atBounds(vary, [0, 2, 103, 1.05, 2, 5])).toEqual([]);
  });
});
