import { describe, expect, it } from 'vitest';
import { createTimeLimit } from '../../src/run/time-limit.ts';

describe('createTimeLimit', () => {
  it('gives the first designs a minute and a quarter of a second each', () => {
    expect(createTimeLimit(() => 0).limit(1024)).toBe(60_000 + 250 * 1024);
  });

  it('then gives designs many times what the slowest took, and never less than 10 s', () => {
    let now = 0;
    const timeLimit = createTimeLimit(() => now);
    for (const [took, count] of [
      [500, 100],
      [100, 100],
    ] as const) {
      const done = timeLimit.start();
      now += took;
      done(count);
    }
    expect(timeLimit.limit(0)).toBe(10_000);
    // 5 ms a design, twenty times over
    expect(timeLimit.limit(1000)).toBe(10_000 + 20 * 5 * 1000);
  });

  it('learns nothing from a message without designs', () => {
    let now = 0;
    const timeLimit = createTimeLimit(() => now);
    const done = timeLimit.start();
    now += 50;
    done(0);
    expect(timeLimit.limit(1)).toBe(60_250);
  });

  it('waits longer where designs are expected to be slow, whatever fast ones came before', () => {
    let now = 0;
    const timeLimit = createTimeLimit(() => now, 17_000);
    expect(timeLimit.limit(2)).toBe(60_000 + 20 * 17_000 * 2);
    const note = timeLimit.start();
    now = 10;
    note(10);
    expect(timeLimit.limit(1)).toBe(10_000 + 20 * 17_000);
  });
});
