import { describe, expect, it } from 'vitest';
import { idsOf, pack, stepsOf, unpack } from '../../src/live/live-data.ts';

describe('the data of a live page', () => {
  it.each([
    ['of no design', []],
    ['of the first', [0]],
    ['of all', Array.from({ length: 1500 }, (_, id) => id)],
    ['of some', [3, 4, 90, 1_000_000_000_000]],
  ])('have the ids %s back', (_, ids) => {
    const packed = JSON.stringify(pack(stepsOf(ids)));
    expect(idsOf(unpack(JSON.parse(packed)) as Float64Array)).toEqual(ids);
  });

  it('take little more than a byte for each id of a whole plan', () => {
    const ids = Array.from({ length: 1500 }, (_, id) => id);
    expect(JSON.stringify(pack(stepsOf(ids))).length).toBeLessThan(1.5 * ids.length);
  });
});
