import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DesignBatch } from '../../src/model/rows.ts';
import type { Varied } from '../../src/model/study.ts';
import { createGrid, gridSize } from '../../src/plan/grid.ts';
import type { BatchPlan } from '../../src/plan/plan.ts';
import { variedChoice, variedNumber } from '../support/varied.ts';

function drain(plan: BatchPlan): DesignBatch[] {
  const batches: DesignBatch[] = [];
  for (let batch = plan.next(); batch; batch = plan.next()) batches.push(batch);
  return batches;
}

function designs(batches: readonly DesignBatch[], width: number): number[][] {
  return batches.flatMap((batch) =>
    Array.from({ length: batch.count }, (_, i) => [...batch.values.slice(i * width, (i + 1) * width)]),
  );
}

/** Up to four axes of numbers and choices, at most a few thousand designs. */
const axes: fc.Arbitrary<Varied[]> = fc.array(
  fc.oneof(
    fc
      .uniqueArray(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 1, maxLength: 8 })
      .map((levels) => variedNumber('number', levels)),
    fc.integer({ min: 1, max: 5 }).map((levels) => variedChoice('choice', levels)),
  ),
  { minLength: 1, maxLength: 4 },
);

describe('grid', () => {
  it('gives any design by its number, as its batches have it, without those before it', () => {
    fc.assert(
      fc.property(axes, fc.nat(), (vary, number) => {
        const all = designs(drain(createGrid(vary)), vary.length);
        const at = number % all.length;
        expect([...createGrid(vary).design!(at)]).toEqual(all[at]);
      }),
    );
    const many = (name: string, count: number) =>
      variedNumber(
        name,
        Array.from({ length: count }, (_, i) => i),
      );
    const grid = createGrid([many('a', 100_000), many('b', 100_000), many('c', 100_000)]);
    expect([...grid.design!(123_456 * 1e5 + 7)]).toEqual([1, 23_456, 7]);
  });

  it('changes the first key slowest and carries numbers as values, choices as levels', () => {
    const vary = [
      variedNumber('turns', [320, 340]),
      variedChoice('metal', 2),
      variedNumber('gap', [0.1, 0.2]),
    ];
    expect(designs(drain(createGrid(vary)), 3)).toEqual([
      [320, 0, 0.1],
      [320, 0, 0.2],
      [320, 1, 0.1],
      [320, 1, 0.2],
      [340, 0, 0.1],
      [340, 0, 0.2],
      [340, 1, 0.1],
      [340, 1, 0.2],
    ]);
  });

  it('hands out every combination exactly once', () => {
    fc.assert(
      fc.property(axes, (vary) => {
        const all = designs(drain(createGrid(vary)), vary.length).map((design) => design.join());
        expect(all.length).toBe(gridSize(vary));
        expect(new Set(all).size).toBe(all.length);
      }),
    );
  });

  it('numbers its batches without gaps and is done after the last', () => {
    fc.assert(
      fc.property(axes, (vary) => {
        const plan = createGrid(vary);
        let next = 0;
        while (!plan.done) {
          const batch = plan.next();
          expect(batch?.first).toBe(next);
          expect(batch?.values.length).toBe(batch!.count * vary.length);
          next += batch!.count;
        }
        expect(next).toBe(plan.total);
        expect(plan.next()).toBeNull();
      }),
    );
  });

  it('cuts the same batches whether rows are told early, late or never', () => {
    const vary = [
      variedNumber('a', [1, 2, 3, 4, 5]),
      variedNumber(
        'b',
        Array.from({ length: 700 }, (_, i) => i),
      ),
    ];
    const untold = drain(createGrid(vary));
    const plan = createGrid(vary);
    const told: DesignBatch[] = [];
    for (let batch = plan.next(); batch; batch = plan.next()) {
      told.push(batch);
      plan.receive({ ...batch } as never);
    }
    expect(told).toEqual(untold);
  });

  it('starts a batch in the middle of a grid of 10^15 designs without counting up to it', () => {
    const thousand = Array.from({ length: 1000 }, (_, i) => i);
    const vary = ['a', 'b', 'c', 'd', 'e'].map((name) => variedNumber(name, thousand));
    const plan = createGrid(vary);
    expect(plan.total).toBe(1e15);
    expect(plan.next()).toMatchObject({ first: 0, count: 4000 });
    const second = plan.next()!;
    expect(second.first).toBe(4000);
    expect([...second.values.slice(0, 5)]).toEqual([0, 0, 0, 4, 0]);
  });

  it('gives each batch an array of its own', () => {
    const plan = createGrid([variedNumber('a', [1, 2]), variedChoice('b', 40)]);
    const [one, two] = [plan.next()!, plan.next()!];
    expect(one.values.buffer).not.toBe(two.values.buffer);
    one.values.fill(0);
    expect(createGrid([variedNumber('a', [1, 2]), variedChoice('b', 40)]).next()!.values[0]).toBe(1);
  });

  it('samples the whole of a small grid, and every level of the slowest axis of a large one', () => {
    const small = createGrid([variedNumber('a', [1, 2, 3])]);
    expect([...small.sample(64).values]).toEqual([1, 2, 3]);
    const large = createGrid([
      variedNumber('slow', [1, 2, 3, 4, 5, 6, 7, 8]),
      variedNumber(
        'fast',
        Array.from({ length: 1024 }, (_, i) => i),
      ),
    ]);
    const { count, values } = large.sample(64);
    expect(count).toBe(64);
    const slow = Array.from({ length: count }, (_, i) => values[2 * i]);
    const fast = Array.from({ length: count }, (_, i) => values[2 * i + 1]);
    expect(new Set(slow).size).toBe(8);
    expect(new Set(fast).size).toBeGreaterThan(50);
  });
});
