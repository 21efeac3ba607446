import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createFrontArchive } from '../../src/front/front-archive.ts';
import { column } from '../../src/model/rows.ts';
import { createSurvey } from '../../src/survey/survey.ts';
import { bruteForceFront } from '../front/brute-force.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';

/** Height (most) against coil mass (least); limits: current, coil mass. Metal, turns and thickness vary. */
const study = workshopStudy();
const senses = study.objectives.map(({ sense }) => sense);
const thicknesses = [0.0011, 0.000123];

const row = fc.record({
  values: fc.tuple(
    fc.constantFrom(0, 1),
    fc.constantFrom(320, 440),
    fc.constantFrom(...thicknesses),
  ) as fc.Arbitrary<number[]>,
  objectives: fc.array(fc.oneof(fc.integer({ min: -4, max: 4 }), fc.constant(Number.NaN)), {
    minLength: 2,
    maxLength: 2,
  }),
  unmet: fc.integer({ min: 0, max: 3 }),
});
const rowLists = fc
  .array(row, { maxLength: 40 })
  .map((rows): Row[] => rows.map((each) => ({ ...each, feasible: each.unmet === 0 })));

function surveyed(rows: readonly Row[], sizes: readonly number[] = [7]) {
  const tally = createSurvey(study, () => createFrontArchive(senses));
  const archive = createFrontArchive(senses);
  for (const batch of batchesOf(study, rows, sizes)) {
    tally.add(batch);
    archive.add(
      batch.first,
      senses.map((_, o) => column(batch, batch.objectives, o)),
      batch.feasible,
    );
  }
  return tally.survey(archive.front().columns);
}

describe('createSurvey', () => {
  it('finds the mean and the best feasible value of each objective at each level of each input', () => {
    fc.assert(
      fc.property(rowLists, (rows) => {
        const levels = [[0, 1], [320, 440], [...thicknesses].sort((a, b) => a - b)];
        for (const { input, objective, means, best, counts } of surveyed(rows).effects) {
          levels[input]!.forEach((level, bin) => {
            const at = rows.filter(
              (each) => each.values![input] === level && !Number.isNaN(each.objectives![objective]!),
            );
            const values = at.map((each) => each.objectives![objective]!);
            const feasible = at.filter((each) => each.feasible).map((each) => each.objectives![objective]!);
            expect(counts[bin]).toBe(values.length);
            // sums of small integers are exact
            expect(means[bin]).toBe(
              values.length === 0 ? Number.NaN : values.reduce((a, b) => a + b, 0) / values.length,
            );
            const extreme = objective === 0 ? Math.max(...feasible) : Math.min(...feasible);
            expect(best[bin]).toBe(feasible.length === 0 ? Number.NaN : extreme);
          });
        }
      }),
    );
  });

  it('maps two inputs when every combination of their levels has a design, and only then', () => {
    const full = [0, 1].flatMap((metal) =>
      [320, 440].flatMap((turns) =>
        thicknesses.map(
          (thickness, t): Row => ({ values: [metal, turns, thickness], objectives: [metal + turns + t, 1] }),
        ),
      ),
    );
    const { grids } = surveyed(full);
    expect(grids.map(({ inputs }) => inputs)).toEqual([
      [0, 1],
      [0, 2],
      [1, 2],
    ]);
    // best height at (metal, turns), over both thicknesses
    expect([...grids[0]!.best[0]!]).toEqual([321, 441, 322, 442]);
    expect(
      surveyed(full.filter(({ values }) => values![0] === 0 || values![1] === 320)).grids.map(
        ({ inputs }) => inputs,
      ),
    ).toEqual([
      [0, 2],
      [1, 2],
    ]);
  });

  it('finds the limits that every design of a cell misses', () => {
    const rows = [0, 1].flatMap((metal) =>
      [320, 440].flatMap((turns) =>
        thicknesses.map((thickness): Row => {
          // heavy copper misses the second limit, many turns of it the first too, but not over the first plate
          const unmet = metal === 0 ? 0 : turns === 440 && thickness !== thicknesses[0] ? 3 : 2;
          return { values: [metal, turns, thickness], objectives: [1, 1], unmet, feasible: unmet === 0 };
        }),
      ),
    );
    const { grids } = surveyed(rows);
    expect([...grids[0]!.missed]).toEqual([0, 0, 2, 2]);
    const refused = rows.map((row): Row => (row.values![0] === 0 ? { ...row, status: 'impossible' } : row));
    expect([...surveyed(refused).grids[0]!.missed]).toEqual([0, 0, 2, 2]);
  });

  it('counts what each limit shuts out, alone and at all, and which of it would join the front', () => {
    fc.assert(
      fc.property(
        rowLists,
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 3 }),
        (rows, sizes) => {
          const { limits } = surveyed(rows, sizes);
          limits.forEach((limit, bit) => {
            const isMissed = ({ unmet }: Row) => ((unmet! >> bit) & 1) === 1;
            const isAlone = ({ unmet }: Row) => unmet === 1 << bit;
            expect([limit.missed, limit.alone]).toEqual([
              rows.filter(isMissed).length,
              rows.filter(isAlone).length,
            ]);
            // the front of what would be feasible without this limit, straight from the definition
            const without = rows.filter((each) => each.feasible || isAlone(each));
            const columns = senses.map((_, o) =>
              Float64Array.from(without, ({ objectives }) => objectives![o]!),
            );
            const joining =
              without.length === 0
                ? []
                : bruteForceFront(columns, senses)
                    .map((i) => without[i]!)
                    .filter(isAlone);
            expect(limit.kept).toBe(joining.length);
            const heights = joining.map(({ objectives }) => objectives![0]!);
            expect(limit.best[0]).toBe(joining.length === 0 ? Number.NaN : Math.max(...heights));
          });
        },
      ),
    );
  });

  it('tells what becomes of the designs, the commonest fate first', () => {
    const rows: Row[] = [
      {},
      { status: 'rests', reason: 1, feasible: false },
      {},
      { status: 'impossible', reason: 3, feasible: false },
      {},
    ];
    expect(surveyed(rows).fates.map(({ status, count }) => [status, count])).toEqual([
      ['lifts', 3],
      ['rests', 1],
      ['impossible', 1],
    ]);
  });

  it('is the same however rows come in batches', () => {
    fc.assert(
      fc.property(
        rowLists,
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 3 }),
        (rows, sizes) => {
          const plain = (sizesOf: readonly number[]) =>
            JSON.stringify(surveyed(rows, sizesOf), (_, value) =>
              Number.isNaN(value) ? 'NaN' : ArrayBuffer.isView(value) ? [...(value as Float64Array)] : value,
            );
          expect(plain(sizes)).toBe(plain([100]));
        },
      ),
      { numRuns: 40 },
    );
  });
});
