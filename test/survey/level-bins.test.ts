import { describe, expect, it } from 'vitest';
import type { Varied, VariedNumber } from '../../src/model/study.ts';
import { UNITS } from '../../src/model/units.ts';
import { binsOf } from '../../src/survey/level-bins.ts';

const thickness = (levels: readonly number[], more: Partial<VariedNumber> = {}): Varied => ({
  kind: 'number',
  path: 'plate.layers.0.thickness',
  name: 'plate_thickness',
  column: 'plate_thickness_mm',
  unit: UNITS.mm,
  slot: 0,
  meaning: 'thickness of the plate',
  integer: false,
  levels: Float64Array.from(levels),
  ...more,
});

describe('binsOf', () => {
  it('gives each level of a list a bin, in ascending order and in its unit', () => {
    const bins = binsOf(thickness([0.003, 0.001, 0.008]));
    expect(bins).toMatchObject({
      kind: 'levels',
      scale: 'linear',
      labels: ['1', '3', '8'],
      positions: [1, 3, 8],
    });
    expect([0.003, 0.001, 0.008].map(bins.of)).toEqual([1, 0, 2]);
  });

  it('places levels that grow by ratios on a logarithmic scale', () => {
    expect(binsOf(thickness([1e-5, 1e-4, 1e-3, 1e-2])).scale).toBe('log');
  });

  it('names levels when one of them is a half-space, which has no place on a scale', () => {
    const bins = binsOf(thickness([0.001, Number.POSITIVE_INFINITY]));
    expect(bins).toMatchObject({ scale: 'named', labels: ['1', 'thick'], positions: [] });
    expect(bins.of(Number.POSITIVE_INFINITY)).toBe(1);
  });

  it('tells choices by their level and keeps two equally long names apart', () => {
    const label = 'an alloy with a very long name, number';
    const bins = binsOf({
      kind: 'choice',
      path: 'coil.metal',
      name: 'coil_metal',
      column: 'coil_metal',
      meaning: '',
      levels: [
        { label: `${label} 1`, settings: [] },
        { label: `${label} 2`, settings: [] },
      ],
    });
    expect(new Set(bins.labels).size).toBe(2);
    expect(bins.of(1)).toBe(1);
  });

  it('sorts many levels, or any value between two ends, into ranges that cover them all', () => {
    const many = Array.from({ length: 100 }, (_, i) => 0.001 * (i + 1));
    for (const bins of [binsOf(thickness(many)), binsOf(thickness([0.001, 0.1], { between: 'log' }))]) {
      expect(bins.kind).toBe('ranges');
      expect([bins.of(0.001), bins.of(0.1)]).toEqual([0, bins.labels.length - 1]);
      expect(bins.positions.map((mm) => bins.of(mm / 1000))).toEqual([...bins.labels.keys()]);
    }
  });

  it('gives each whole number between two near ends a bin', () => {
    const bins = binsOf(thickness([3, 6], { between: 'linear', integer: true, unit: UNITS.one }));
    expect(bins).toMatchObject({ kind: 'levels', labels: ['3', '4', '5', '6'] });
    expect(bins.of(5)).toBe(2);
  });
});
