import { describe, expect, it } from 'vitest';
import {
  conventionalTime,
  FUSE_KIND,
  fuseTimes,
  fusingRatio,
  nonFusingRatio,
} from '../../src/kernel/fuse.ts';

function at(kind: keyof typeof FUSE_KIND, rating: number, current: number): [holds: number, blows: number] {
  const out = { holds: 0, blows: 0 };
  fuseTimes(FUSE_KIND[kind], rating, current, out);
  return [out.holds, out.blows];
}

const { POSITIVE_INFINITY: EVER, NaN: UNSAID } = Number;

describe('fuseTimes of a gG fuse', () => {
  it('has the conventional currents of IEC 60269-1 Table 2 (below 16 A and times above 1 h: from memory)', () => {
    expect([2, 4, 6, 10, 16, 63].map((rating) => nonFusingRatio(FUSE_KIND.gG, rating))).toEqual([
      1.5, 1.5, 1.5, 1.5, 1.25, 1.25,
    ]);
    expect([2, 4, 6, 10, 16, 63].map((rating) => fusingRatio(FUSE_KIND.gG, rating))).toEqual([
      2.1, 2.1, 1.9, 1.9, 1.6, 1.6,
    ]);
    expect([16, 63, 100, 200, 500].map(conventionalTime)).toEqual([3600, 3600, 7200, 10800, 14400]);
  });

  it('has the gates of IEC 60269-1 Table 3 at 16 A (quoted at second hand): 33, 65, 85, 150 A', () => {
    expect(at('gG', 16, 16)).toEqual([EVER, EVER]);
    expect(at('gG', 16, 20)).toEqual([3600, EVER]);
    // between the conventional currents the standard promises neither, but 33 A hold 10 s, and so does less
    expect(at('gG', 16, 22)).toEqual([10, UNSAID]);
    expect(at('gG', 16, 25.6)).toEqual([10, 3600]);
    expect(at('gG', 16, 33)).toEqual([10, 3600]);
    expect(at('gG', 16, 34)).toEqual([0.1, 3600]);
    expect(at('gG', 16, 65)).toEqual([0.1, 5]);
    expect(at('gG', 16, 85)).toEqual([0.1, 5]);
    expect(at('gG', 16, 86)).toEqual([0, 5]);
    expect(at('gG', 16, 150)).toEqual([0, 0.1]);
  });

  it('has the conventional currents alone for a rating without tabulated gates', () => {
    expect(at('gG', 18, 22)).toEqual([3600, EVER]);
    expect(at('gG', 18, 25)).toEqual([0, UNSAID]);
    expect(at('gG', 18, 1000)).toEqual([0, 3600]);
    expect(at('gG', 8, 19)).toEqual([0, 3600]);
  });

  it('has gates below 16 A, too (IEC 60269-2, from memory): 22, 46.5, 58, 111 A at 10 A', () => {
    expect(at('gG', 10, 22)).toEqual([10, 3600]);
    expect(at('gG', 10, 46.5)).toEqual([0.1, 5]);
    expect(at('gG', 10, 58)).toEqual([0.1, 5]);
    expect(at('gG', 10, 111)).toEqual([0, 0.1]);
    expect(at('gG', 2, 3.7)).toEqual([10, UNSAID]);
  });
});

describe('fuseTimes of a time-lag miniature fuse', () => {
  it('is quicker below 125 mA (IEC 60127-2 sheet 3, 32 to 100 mA, from memory)', () => {
    expect(at('T sheet 3', 0.1, 0.4)).toEqual([0.04, 3]);
    expect(at('T sheet 3', 0.125, 0.5)).toEqual([0.15, 3]);
    expect(at('T sheet 3', 0.032, 0.32)).toEqual([0.01, 0.3]);
  });

  it("has the gates of IEC 60127-2 sheet 3 (a maker's sheet)", () => {
    expect(at('T sheet 3', 2, 2)).toEqual([EVER, EVER]);
    expect(at('T sheet 3', 2, 3)).toEqual([3600, EVER]);
    expect(at('T sheet 3', 2, 3.5)).toEqual([0.6, UNSAID]);
    expect(at('T sheet 3', 2, 4.2)).toEqual([0.6, 120]);
    expect(at('T sheet 3', 2, 5.5)).toEqual([0.6, 10]);
    expect(at('T sheet 3', 2, 8)).toEqual([0.15, 3]);
    expect(at('T sheet 3', 2, 20)).toEqual([0.02, 0.3]);
    expect(at('T sheet 3', 2, 21)).toEqual([0, 0.3]);
  });

  it('has the gates of sheet 5, which differ from 4 A on', () => {
    expect(at('T sheet 5', 3.15, 12.6)).toEqual([0.095, 5]);
    expect(at('T sheet 5', 5, 20)).toEqual([0.15, 5]);
    expect(at('T sheet 5', 3.15, 31.5)).toEqual([0.01, 0.15]);
    expect(at('T sheet 5', 6.3, 63)).toEqual([0.02, 0.15]);
  });

  it('says nothing of ratings that the sheet does not have', () => {
    expect(at('T sheet 3', 16, 20)).toEqual([UNSAID, UNSAID]);
    expect(at('T sheet 5', 0.5, 0.4)).toEqual([UNSAID, UNSAID]);
  });
});
