import { describe, expect, it } from 'vitest';
import type { ReportInput } from '../../src/report/report-input.ts';
import { evenlyChosen, shownFront } from '../../src/report/shown-front.ts';
import { type Row, workshopStudy } from '../support/batches.ts';
import { frontOf } from '../support/front.ts';

const study = workshopStudy();
const rows = Array.from(
  { length: 100 },
  (_, i): Row => ({
    values: [0, i, 0],
    quantities: { height: 100 - i },
    objectives: [100 - i, i],
  }),
);
const input = {
  study,
  front: frontOf(study, rows),
  chosen: [{ row: 40, why: 'best compromise', lift: [], cautions: [], heat: null }],
  slotsOf: (row: number) => Float64Array.of(row),
} as unknown as ReportInput;

describe('shownFront', () => {
  it('shows a short front as it is', () => {
    expect(shownFront(input, 100)).toEqual({ input, of: 100 });
  });

  it('thins a long front evenly, with both ends and the chosen designs, each row with its own numbers', () => {
    const { input: shown, of } = shownFront(input, 10);
    expect([of, shown.front.count]).toEqual([100, 10]);
    expect([shown.front.designs[0], shown.front.designs.at(-1)]).toEqual([0, 99]);
    const knee = shown.chosen[0]!.row;
    expect(shown.front.designs[knee]).toBe(40);
    expect(shown.front.values[knee * 3 + 1]).toBe(40);
    expect(shown.front.objectives[shown.front.count + knee]).toBe(40);
    expect(shown.slotsOf(knee)[0]).toBe(40);
  });
});

describe('spread', () => {
  it('picks what must be picked and evenly besides', () => {
    expect(evenlyChosen(3, 10, [])).toEqual([0, 1, 2]);
    expect(evenlyChosen(101, 5, [50])).toEqual([0, 33, 50, 67, 100]);
  });
});
