import { describe, expect, it } from 'vitest';
import { durationRange, formatDuration } from '../../src/text/duration.ts';

it('says lengths of time in at most two units', () => {
  expect([0, 0.4, 1, 59.4, 59.6, 130, 3600, 11_520, 172_800, 187_200].map(formatDuration)).toEqual([
    'under a second',
    'under a second',
    '1 s',
    '59 s',
    '1 min',
    '2 min 10 s',
    '1 h',
    '3 h 12 min',
    '2 days',
    '2 days 4 h',
  ]);
});

it('does not put NaN on the screen', () => {
  expect(formatDuration(Number.NaN)).toBe('under a second');
});

describe('durationRange', () => {
  it.each([
    [0.1, 0.9, 'under a second'],
    [0.4, 3, 'up to 3 s'],
    [4.2, 8.4, '4 to 8 s'],
    [4.1, 4.4, 'about 4 s'],
    [50, 100, '50 s to 1 min 40 s'],
    [120, 240, '2 to 4 min'],
    [120, 130, '2 min to 2 min 10 s'],
  ])('%d to %d s reads %s', (least, most, words) => {
    expect(durationRange(least, most)).toBe(words);
  });
});
