import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { thinned } from '../../src/session/thinned.ts';

describe('designs that a page holds', () => {
  it('are all of them where there is room', () => {
    expect(thinned(4, [2], 4)).toEqual({ ids: [0, 1, 2, 3], ofFront: 1 });
  });

  it('are the front and others evenly through the plan where there is not', () => {
    expect(thinned(100, [77, 3], 12)).toEqual({
      ids: [0, 3, 10, 20, 30, 40, 50, 60, 70, 77, 80, 90],
      ofFront: 2,
    });
  });

  it('of a front that takes more than four fifths of the room are evenly along it', () => {
    const front = Array.from({ length: 40 }, (_, i) => 99 - i);
    const { ids, ofFront } = thinned(100, front, 10);
    expect(ofFront).toBe(8);
    for (const at of [0, 5, 10, 15, 20, 25, 30, 35]) expect(ids).toContain(front[at]);
  });

  it('are ascending, each once, no more than there is room for, and with a front that fits', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 2, max: 300 }),
        fc.uniqueArray(fc.nat(4999), { maxLength: 60 }),
        (total, most, some) => {
          const front = some.filter((id) => id < total);
          const { ids, ofFront } = thinned(total, front, most);
          expect(ids.length).toBeLessThanOrEqual(Math.max(most, 1));
          expect(ids).toEqual([...new Set(ids)].sort((a, b) => a - b));
          for (const id of ids) expect(id >= 0 && id < total).toBe(true);
          if (front.length <= 0.8 * most - 1) for (const id of front) expect(ids).toContain(id);
          if (total > most) expect(ofFront).toBe(Math.min(front.length, Math.floor(0.8 * most)));
        },
      ),
    );
  });
});
