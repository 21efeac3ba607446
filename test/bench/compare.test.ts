import { describe, expect, it } from 'vitest';
import { compareWithLast, type Line, withPart, type Yardstick } from './compare.ts';

const line = (what: string, median: number, unit = 'us'): Line => ({
  what,
  unit,
  measured: { median, least: 0.98 * median, most: 1.03 * median },
  target: '',
});

const YARDSTICKS: Yardstick[] = [
  { what: 'node', measures: (what) => what.startsWith('start of ') },
  { what: 'yardstick', measures: () => true },
];

describe('the bench compared with the one before', () => {
  it('names what became slower or faster by a tenth and more', () => {
    const last = [line('laws', 50), line('disc', 2000), line('table', 10)];
    const now = [line('laws', 56), line('disc', 1000), line('table', 10.5), line('new', 1)];
    expect(compareWithLast(now, last, YARDSTICKS)).toEqual([
      'laws: slower than last time by 12 %',
      'disc: faster than last time by 50 %',
    ]);
  });

  it('does not blame the work for a slower machine', () => {
    const last = [line('yardstick', 400), line('laws', 50), line('memory', 500, 'MB')];
    const now = [line('yardstick', 800), line('laws', 100), line('memory', 600, 'MB')];
    expect(compareWithLast(now, last, YARDSTICKS)).toEqual(['memory: more than last time by 20 %']);
  });

  it('scales each row by the first yardstick that measures it', () => {
    const last = [line('node', 0.1), line('yardstick', 400), line('start of card', 1), line('laws', 50)];
    const now = [line('node', 0.15), line('yardstick', 400), line('start of card', 1.5), line('laws', 75)];
    expect(compareWithLast(now, last, YARDSTICKS)).toEqual(['laws: slower than last time by 50 %']);
  });

  it('is silent where ranges overlap, however far medians lie apart', () => {
    const wide = { ...line('laws', 60), measured: { median: 60, least: 45, most: 100 } };
    expect(compareWithLast([wide], [line('laws', 50)], YARDSTICKS)).toEqual([]);
  });

  it('compares rows that are called alike each with its own', () => {
    const last = [line('wide', 1), line('gain', 2, 'x'), line('disc', 3), line('gain', 14, 'x')];
    const now = [line('wide', 1), line('gain', 2, 'x'), line('disc', 3), line('gain', 7, 'x')];
    expect(compareWithLast(now, last, YARDSTICKS)).toEqual(['gain: less than last time by 50 %']);
  });
});

describe('a part of the bench measured again', () => {
  it('takes the places of its rows', () => {
    const all = [
      line('wide', 1),
      line('gain', 2, 'x'),
      line('disc', 3),
      line('gain', 14, 'x'),
      line('run', 5),
    ];
    const part = [line('wide', 0.9), line('gain', 2.1, 'x'), line('disc', 3.2), line('gain', 13, 'x')];
    expect(withPart(all, part)).toEqual([...part, line('run', 5)]);
  });
});
