import { describe, expect, it } from 'vitest';
import { domainOf, labelled, plainLabel, scaleFor } from '../../../src/report/charts/axis-title.ts';

describe('axes', () => {
  it('hold their values with a little air', () => {
    expect(domainOf([0, 10], 0.1)).toEqual([-1, 11]);
    expect(domainOf([1, 100], 1, 'log')).toEqual([0.1, 1000]);
  });

  it('have a width even where all values are the same', () => {
    expect(domainOf([5, 5], 1)).toEqual([4.5, 5.5]);
    expect(domainOf([0], 1)).toEqual([-1, 1]);
  });

  it('are logarithmic where values span two decades and crowd at the low end, and nowhere else', () => {
    expect(scaleFor([0.01, 0.1, 1, 10])).toBe('log');
    expect(scaleFor([1, 2, 3])).toBe('linear');
    expect(scaleFor([0, 0.1, 1, 100])).toBe('linear');
    expect(scaleFor([0.1, 60, 70, 80])).toBe('linear');
    expect(scaleFor([])).toBe('linear');
  });

  it('write as many labels as have room, the last one always', () => {
    const labels = ['1', '2', '3', '4', '5'];
    expect(labelled(labels, 30, false)).toEqual(labels);
    expect(labelled(labels, 8, true)).toEqual(['1', '3', '5']);
  });

  it('take the underscores out of a name, but not out of an expression', () => {
    expect(plainLabel('plate_thickness')).toBe('plate thickness');
    expect(plainLabel('coil_mass / height')).toBe('coil_mass / height');
  });
});
