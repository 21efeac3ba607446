import { describe, expect, it } from 'vitest';
import { sliderRange } from '../../src/live/sensible-range.ts';
import { inputByPath } from '../../src/model/inputs.ts';

const current = inputByPath('drive.current')!;

describe('sliderRange', () => {
  it('covers what a study varies, however many levels that are, and the present value', () => {
    const levels = Float64Array.from({ length: 1_000_000 }, (_, i) => 2 + i / 1e6);
    expect(sliderRange(current, 2.5, levels)).toEqual({ low: 2, high: levels.at(-1), spacing: 'linear' });
    expect(sliderRange(current, 9, levels)).toEqual({ low: 2, high: 9, spacing: 'linear' });
  });

  it('covers what is usual where nothing varies, and more where the rig has more', () => {
    const usual = sliderRange(current, Number.NaN, new Float64Array(0));
    expect(usual).toEqual({ low: 0.5, high: 40, spacing: 'log' });
    expect(sliderRange(current, 63, Float64Array.of(63)).high).toBe(63);
  });
});
