import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Varied } from '../../src/model/study.ts';
import { createSpace, designKey, toDesign, toPoint } from '../../src/plan/space.ts';
import { variedChoice, variedNumber, variedRange } from '../support/varied.ts';

function axisOf(varied: Varied) {
  return createSpace([varied]).axes[0]!;
}

const ends = fc
  .tuple(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 500 }))
  .map(([low, extent]) => [low, low + extent] as const);
const spacing = fc.constantFrom('linear' as const, 'log' as const);

const axes: fc.Arbitrary<Varied> = fc.oneof(
  fc.integer({ min: 1, max: 6 }).map((levels) => variedChoice('choice', levels)),
  fc
    .uniqueArray(fc.integer({ min: -99, max: 99 }), { minLength: 1, maxLength: 9 })
    .map((levels) => variedNumber('list', levels)),
  fc.tuple(ends, spacing).map(([[a, b], s]) => variedRange('whole', a, b, { integer: true, spacing: s })),
  fc.tuple(ends, spacing).map(([[a, b], s]) => variedRange('any', b, a, { spacing: s })),
);
const units = fc.double({ min: -0.5, max: 1.5, noNaN: true });

describe('space', () => {
  it('gives each level of a list an equal cell, in ascending order', () => {
    const axis = axisOf(variedNumber('wire', [2, 1, 4]));
    expect([0, 0.33, 0.34, 0.66, 0.67, 1].map((u) => axis.value(u))).toEqual([1, 1, 2, 2, 4, 4]);
  });

  it('gives each whole number of a linear range an equal cell', () => {
    const axis = axisOf(variedRange('layers', 4, 7, { integer: true }));
    expect([0, 0.24, 0.26, 0.49, 0.51, 0.74, 0.76, 1].map((u) => axis.value(u))).toEqual([
      4, 4, 5, 5, 6, 6, 7, 7,
    ]);
  });

  it('spaces a continuous range evenly or in equal ratios, its ends exact', () => {
    const linear = axisOf(variedRange('thickness', 0.1, 0.3));
    const log = axisOf(variedRange('thickness', 0.001, 0.1, { spacing: 'log' }));
    expect([linear.value(0), linear.value(1)]).toEqual([0.1, 0.3]);
    expect([log.value(0), log.value(1)]).toEqual([0.001, 0.1]);
    // the middle of two ends a hundred apart is ten from each; within rounding of exp and log
    expect(log.value(0.5)).toBeCloseTo(0.01, 15);
    expect(linear.value(0.5)).toBeCloseTo(0.2, 15);
  });

  it('rounds to as many digits as the resolution asks for, six at least', () => {
    const third = (resolution?: number) =>
      createSpace([variedRange('x', 0, 1)], resolution).axes[0]!.value(1 / 3);
    expect([third(), third(1e-2), third(1e-6), third(1e-8)]).toEqual([
      0.333333, 0.333333, 0.33333333, 0.3333333333,
    ]);
  });

  it('knows how far apart the values about a place are', () => {
    for (const spacing of ['linear', 'log'] as const) {
      const axis = axisOf(variedRange('x', 2, 50, { spacing }));
      for (const u of [0.1, 0.4, 0.9]) {
        const value = axis.value(u);
        const apart = axis.unit(axis.value(axis.unit(value) + axis.cell(u))) - axis.unit(value);
        expect(apart / axis.cell(u)).toBeCloseTo(1, 3);
      }
    }
    expect(axisOf(variedNumber('x', [1, 2, 4, 8])).cell(0.3)).toBe(0.25);
    expect(axisOf(variedRange('x', 1, 50, { integer: true })).cell(0.3)).toBe(0.02);
  });

  it('never leaves the bounds, whatever the point', () => {
    fc.assert(
      fc.property(axes, units, (varied, u) => {
        const axis = axisOf(varied);
        const value = axis.value(u);
        if (varied.kind === 'choice') expect(varied.levels[value]).toBeDefined();
        else if (varied.between === undefined) expect(varied.levels).toContain(value);
        else {
          expect(value).toBeGreaterThanOrEqual(Math.min(...varied.levels));
          expect(value).toBeLessThanOrEqual(Math.max(...varied.levels));
          if (varied.integer) expect(Number.isInteger(value)).toBe(true);
        }
      }),
    );
  });

  it('leads from a value to a point and back to the same value', () => {
    fc.assert(
      fc.property(axes, units, (varied, u) => {
        const space = createSpace([varied]);
        const design = new Float64Array(1);
        toDesign(space, [u], design);
        const again = new Float64Array(1);
        toDesign(space, toPoint(space, design), again);
        // a continuous value passes through a logarithm and back, and is rounded to six digits
        if (space.size === Number.POSITIVE_INFINITY) expect(again[0]! / design[0]!).toBeCloseTo(1, 5);
        else expect(again).toEqual(design);
      }),
    );
  });

  it('knows neighbours up to the ends of every axis that has cells', () => {
    fc.assert(
      fc.property(axes, (varied) => {
        const axis = axisOf(varied);
        if (axis.kind === 'continuous') {
          expect(axis.neighbour(axis.value(0.5), 1)).toBeNull();
          return;
        }
        const values = [axis.value(0)];
        for (let next = axis.neighbour(values[0]!, 1); next !== null; next = axis.neighbour(next, 1)) {
          expect(axis.neighbour(next, -1)).toBe(values.at(-1));
          values.push(next);
        }
        expect(values).toHaveLength(axis.count);
        expect(values.at(-1)).toBe(axis.value(1));
      }),
    );
  });

  it('counts its designs', () => {
    const list = [variedChoice('metal', 2), variedNumber('wire', [1, 2, 3])];
    expect(createSpace(list).size).toBe(6);
    expect(createSpace([...list, variedRange('turns', 300, 500, { integer: true })]).size).toBe(1206);
    expect(createSpace([...list, variedRange('thickness', 1, 2)]).size).toBe(Number.POSITIVE_INFINITY);
  });

  it('tells designs apart by every digit', () => {
    expect(designKey(Float64Array.of(0.1, 2))).not.toBe(designKey(Float64Array.of(0.1 + 2 ** -56, 2)));
    expect(designKey(Float64Array.of(1, 23))).not.toBe(designKey(Float64Array.of(12, 3)));
  });
});
