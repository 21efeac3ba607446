import { describe, expect, it } from 'vitest';
import { createOperatorShare, type OperatorShare } from '../../src/plan/operator-share.ts';

/** One generation: children made, and how many of them succeeded, of either way. */
function generation(share: OperatorShare, first: [number, number], second: [number, number]): void {
  for (const [isSecond, [made, succeeded]] of [[false, first] as const, [true, second] as const]) {
    for (let i = 0; i < made; i++) share.record(isSecond, i < succeeded);
  }
  share.mark();
}

describe('the share of an operator', () => {
  it('is a half while its children succeed more often, however few they are, and a twentieth while they do not', () => {
    const share = createOperatorShare();
    generation(share, [47, 5], [3, 1]);
    expect(share.value).toBe(0.5);
    generation(share, [25, 20], [25, 0]);
    expect(share.value).toBe(0.05);
  });

  it('is a twentieth while nothing succeeds, or nothing is known', () => {
    const share = createOperatorShare();
    share.mark();
    expect(share.value).toBe(0.05);
    generation(share, [25, 0], [25, 0]);
    expect(share.value).toBe(0.05);
  });

  it('forgets: what was better long ago gives way to what is better now', () => {
    const share = createOperatorShare();
    for (let i = 0; i < 20; i++) generation(share, [25, 0], [25, 10]);
    expect(share.value).toBe(0.5);
    let generations = 0;
    for (; share.value === 0.5 && generations < 100; generations++) generation(share, [25, 10], [25, 0]);
    // of rates that fade by a tenth a generation, half is gone after ln(2)/ln(1/0.9) = 6.6
    expect(generations).toBeGreaterThan(1);
    expect(generations).toBeLessThan(10);
  });
});
