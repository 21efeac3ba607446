import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createLevelPlaces } from '../../src/model/level-places.ts';

const levels = fc.uniqueArray(fc.double({ noNaN: true }), {
  minLength: 1,
  maxLength: 40,
  comparator: (a, b) => a === b,
});

describe('createLevelPlaces', () => {
  it('finds every level where it stands, whatever their order and that of the questions', () => {
    const asked = fc.array(fc.nat(), { maxLength: 60 });
    fc.assert(
      fc.property(levels, asked, fc.boolean(), (some, questions, sorted) => {
        const all = Float64Array.from(some);
        if (sorted) all.sort();
        const placeOf = createLevelPlaces(all);
        for (const question of questions) {
          expect(placeOf(all[question % all.length]!)).toBe(question % all.length);
        }
      }),
    );
  });

  it('has no place for a value that is no level, and finds the next level all the same', () => {
    fc.assert(
      fc.property(levels, fc.double(), fc.nat(), (some, value, question) => {
        const placeOf = createLevelPlaces(Float64Array.from(some));
        const place = question % some.length;
        expect(placeOf(some[place]!)).toBe(place);
        expect(placeOf(value)).toBe(some.indexOf(value));
        expect(placeOf(some[place]!)).toBe(place);
      }),
    );
  });
});
