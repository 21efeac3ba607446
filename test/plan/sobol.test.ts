import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createSobolPlan } from '../../src/plan/sobol.ts';
import { createSpace } from '../../src/plan/space.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

function designsOf(plan: ReturnType<typeof createSobolPlan>, width: number): number[][] {
  const all: number[][] = [];
  for (let batch = plan.next(); batch; batch = plan.next()) {
    expect(batch.first).toBe(all.length);
    for (let i = 0; i < batch.count; i++) all.push([...batch.values.slice(i * width, (i + 1) * width)]);
  }
  return all;
}

const mixed = [
  variedChoice('metal', 2),
  variedNumber('wire', [1, 1.5, 2, 3]),
  variedRange('turns', 300, 427, { integer: true }),
  variedRange('thickness', 0.001, 0.016, { spacing: 'log' }),
];

describe('sobol', () => {
  it('hands out as many designs as asked for, numbered without gaps, and is done', () => {
    const plan = createSobolPlan(createSpace(mixed), { points: 777, seed: 1 });
    expect(plan.total).toBe(777);
    expect(designsOf(plan, 4)).toHaveLength(777);
    expect(plan.done).toBe(true);
  });

  it('treats every level alike and fills every scale evenly', () => {
    const all = designsOf(createSobolPlan(createSpace(mixed), { points: 512, seed: 3 }), 4);
    const counts = (of: (design: number[]) => number) => {
      const count = new Map<number, number>();
      for (const design of all) count.set(of(design), (count.get(of(design)) ?? 0) + 1);
      return [...count.values()];
    };
    // 512 points are an aligned block: each of 2^k equal cells holds exactly its share
    expect(counts(([metal]) => metal!)).toEqual([256, 256]);
    expect(counts(([, wire]) => wire!)).toEqual([128, 128, 128, 128]);
    expect(counts(([, , turns]) => turns!)).toEqual(new Array(128).fill(4));
    expect(counts(([, , , t]) => Math.floor(Math.log2(t! * 1000) * 2))).toEqual(new Array(8).fill(64));
  });

  it('never hands out a design twice, and in the end every one', () => {
    const lists = fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(lists, fc.integer({ min: 0, max: 1000 }), (lengths, seed) => {
        const vary = lengths.map((n, i) =>
          i % 2 === 0 ? variedChoice('c', n) : variedNumber('n', levels(n)),
        );
        const space = createSpace(vary);
        const all = designsOf(createSobolPlan(space, { points: 10_000, seed }), vary.length);
        expect(all).toHaveLength(space.size);
        expect(new Set(all.map((design) => design.join())).size).toBe(space.size);
      }),
    );
  });

  it('is the same for the same seed and another for another', () => {
    const of = (seed: number) => designsOf(createSobolPlan(createSpace(mixed), { points: 20, seed }), 4);
    expect(of(1)).toEqual(of(1));
    expect(of(1)).not.toEqual(of(2));
  });

  it('samples its own first designs', () => {
    const plan = createSobolPlan(createSpace(mixed), { points: 20, seed: 8 });
    const sample = plan.sample(5);
    expect(sample.count).toBe(5);
    expect([...sample.values]).toEqual([...plan.next()!.values.slice(0, 20)]);
  });
});

function levels(n: number): number[] {
  return Array.from({ length: n }, (_, i) => i * i);
}
