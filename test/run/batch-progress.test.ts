import { describe, expect, it } from 'vitest';
import { createBatchProgress } from '../../src/run/batch-progress.ts';

describe('createBatchProgress', () => {
  it('weighs studies by the time they are expected to take, not by their number', () => {
    const progress = createBatchProgress([90, 10], () => 0);
    progress.reach(0, 45, false);
    expect(progress.words(null)).toMatch(/^all 2: 45 %, /);
  });

  it('expects what was forecast while nothing is known, and trusts the clock more and more', () => {
    let now = 0;
    const progress = createBatchProgress([3600, 3600], () => now);
    expect(progress.words(null)).toBe('all 2: 0 %, 2 h left');
    // twice as slow as was forecast: half an hour of 2 h takes an hour
    now = 3_600_000;
    progress.reach(0, 1800, false);
    // 5400 s are to come; pace (30 + 1800) / (30 + 3600)
    expect(progress.words(null)).toBe('all 2: 25 %, 2 h 58 min left');
  });

  it('takes the time left for what is under way from its own speed', () => {
    const progress = createBatchProgress([100, 60], () => 0);
    progress.reach(0, 30, true);
    expect(progress.words({ expected: 70, left: 600 })).toBe('all 2: 18 %, 11 min left');
  });

  it('does not take what was there already for speed', () => {
    const progress = createBatchProgress([100, 1000], () => 0);
    progress.reach(0, 100, true);
    expect(progress.words(null)).toBe('all 2: 9 %, 16 min 40 s left');
  });

  it('leaves out what an ended study has not done, and a study that never ran', () => {
    const progress = createBatchProgress([50, 100, 100], () => 0);
    progress.end(0);
    progress.reach(1, 25, false);
    progress.end(1);
    expect(progress.words(null)).toMatch(/^all 3: 20 %, /);
  });

  it('learns what a study takes when its turn comes', () => {
    const progress = createBatchProgress([0, 100], () => 0);
    progress.expect(0, 300);
    progress.reach(0, 100, true);
    expect(progress.words(null)).toBe('all 2: 25 %, 5 min left');
  });

  it('is at 0 % while nothing is expected of any study', () => {
    expect(createBatchProgress([0, 0], () => 0).words(null)).toBe('all 2: 0 %, under a second left');
  });
});
