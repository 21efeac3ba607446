import { describe, expect, it } from 'vitest';
import { createPatience } from '../../src/run/time-limit.ts';

describe('createPatience', () => {
  it('gives the first designs a minute and a quarter of a second each', () => {
    expect(createPatience(() => 0).limit(1024)).toBe(60_000 + 250 * 1024);
  });

  it('then gives designs many times what the slowest took, and never less than 10 s', () => {
    let now = 0;
    const patience = createPatience(() => now);
    for (const [took, count] of [
      [500, 100],
      [100, 100],
    ] as const) {
      const done = patience.start();
      now += took;
      done(count);
    }
    expect(patience.limit(0)).toBe(10_000);
    // 5 ms a design, twenty times over
    expect(patience.limit(1000)).toBe(10_000 + 20 * 5 * 1000);
  });

  it('learns nothing from a message without designs', () => {
    let now = 0;
    const patience = createPatience(() => now);
    const done = patience.start();
    now += 50;
    done(0);
    expect(patience.limit(1)).toBe(60_250);
  });

  it('waits longer where designs are expected to be slow, whatever fast ones came before', () => {
    let now = 0;
    const patience = createPatience(() => now, 17_000);
    expect(patience.limit(2)).toBe(60_000 + 20 * 17_000 * 2);
    const note = patience.start();
    now = 10;
    note(10);
    expect(patience.limit(1)).toBe(10_000 + 20 * 17_000);
  });
});
