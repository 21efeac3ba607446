import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { StartRecord } from '../../src/plan/plan.ts';
import { descentsCsv } from '../../src/store/descents-csv.ts';
import { workshopStudy } from '../support/batches.ts';

// height is maximised, mass minimised
const candidate = (id: number, height: number, mass: number) => ({
  id,
  design: Float64Array.of(0),
  costs: Float64Array.of(-height, mass),
  violation: 0,
});

const free = Number.POSITIVE_INFINITY;
const starts: StartRecord[] = [
  {
    start: 0,
    objective: 0,
    caps: [free, free],
    from: candidate(32, 0, 2.5),
    to: candidate(95, 0.0123, 2.9),
    feasible: true,
    rests: false,
    evaluations: 70,
    end: 'settled',
  },
  {
    start: 1,
    objective: 0,
    caps: [free, 2],
    from: candidate(102, 0.002, 2.5),
    to: candidate(110, Number.NaN, 2.1),
    feasible: false,
    rests: false,
    evaluations: 9,
    end: 'spent',
  },
];

describe('descents.csv', () => {
  it('has a row a start, objectives in their units and the sense of the study', () => {
    expect(parse(descentsCsv(workshopStudy(), starts), { columns: true })).toEqual([
      {
        start: '0',
        improves: 'objective 1',
        objective_1_bound_mm: '',
        objective_2_bound_kg: '',
        from_design: '32',
        objective_1_from_mm: '0',
        objective_2_from_kg: '2.5',
        to_design: '95',
        objective_1_to_mm: '12.3',
        objective_2_to_kg: '2.9',
        feasible: 'true',
        evaluations: '70',
        end: 'settled',
      },
      {
        start: '1',
        improves: 'objective 1',
        objective_1_bound_mm: '',
        objective_2_bound_kg: '2',
        from_design: '102',
        objective_1_from_mm: '2',
        objective_2_from_kg: '2.5',
        to_design: '110',
        objective_1_to_mm: '',
        objective_2_to_kg: '2.1',
        feasible: 'false',
        evaluations: '9',
        end: 'spent',
      },
    ]);
  });
});
