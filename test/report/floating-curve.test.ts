import { describe, expect, it } from 'vitest';
import { BEYOND_SUPPLY, SLOT } from '../../src/model/inputs.ts';
import { floatingCurve } from '../../src/report/floating-curve.ts';
import { evaluateRig, FOYER, slotsOf } from '../support/design.ts';

const RIG = { plateLayers: 1, windings: 0 };
const { liftoff_current: liftoff } = evaluateRig(FOYER);
const limited = { ...FOYER, 'supply.series_resistance': 0, 'supply.max_current': 12 };

describe('floatingCurve', () => {
  it('begins exactly at lift-off, where the height is 0', () => {
    const curve = floatingCurve(RIG, slotsOf(FOYER), 16, 12);
    const last = curve.filter(({ height }) => height === 0).at(-1)!;
    expect(last.current).toBe(liftoff);
    expect(curve.at(-1)!.current).toBe(16);
    for (const [i, { current }] of curve.slice(1).entries())
      expect(current).toBeGreaterThan(curve[i]!.current);
  });

  it('ends at the limit of the supply', () => {
    const curve = floatingCurve(RIG, slotsOf(limited), 16, 12);
    expect(curve.at(-1)!.current).toBeCloseTo(12, 9);
    expect(curve.some(({ beyond }) => beyond)).toBe(false);
  });

  it('goes on beyond, marked, where the study allows it or the design is driven there', () => {
    const allowed = slotsOf(limited);
    allowed[SLOT.beyondSupply] = BEYOND_SUPPLY.allowed;
    for (const [slots, operating, end] of [
      [allowed, 10, 16],
      [slotsOf(limited), 14, 14],
    ] as const) {
      const curve = floatingCurve(RIG, slots, 16, operating);
      expect(curve.at(-1)!.current).toBe(end);
      for (const { current, beyond } of curve) expect(beyond ?? false).toBe(current > 12.001);
    }
  });
});
