import { expect, it } from 'vitest';
import { formatDuration } from '../../src/text/duration.ts';

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
