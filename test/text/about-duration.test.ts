import { describe, expect, it } from 'vitest';
import { aboutDuration, roundTemperature } from '../../src/text/about-duration.ts';

describe('a time of heat', () => {
  it.each([
    [0.3, 'under a second'],
    [7.4, 'about 7 s'],
    [42, 'about 40 s'],
    [146, 'about 2 min 30 s'],
    [291.3, 'about 5 min'],
    [607, 'about 10 min'],
    [1674, 'about 30 min'],
    [4205, 'about 1 h 10 min'],
    [30000, 'about 8 h'],
  ])('%d s is told as %s', (seconds, words) => {
    expect(aboutDuration(seconds)).toBe(words);
  });

  it('goes with temperatures to 5 and to 10 degC', () => {
    expect([71.3, 123.4, 346, 603].map(roundTemperature)).toEqual([70, 125, 350, 600]);
  });
});
