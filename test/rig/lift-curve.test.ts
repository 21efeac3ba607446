import { describe, expect, it } from 'vitest';
import { SLOT } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { STATUSES } from '../../src/model/status.ts';
import { atOwnDrive, atSupplyLimit, liftCurve } from '../../src/rig/lift-curve.ts';
import { FOYER, slotsOf } from '../support/design.ts';

const layout = { plateLayers: 1, windings: 0 };
const slots = slotsOf({ ...FOYER, 'supply.series_resistance': 0 });

describe('liftCurve', () => {
  it('gives each current its own height, whatever the drive of the design', () => {
    const points = liftCurve(layout, slots, [8, 10, 11, 12, 13]);
    expect(points.map(({ status }) => STATUSES[status])).toEqual([
      'rests',
      'lifts',
      'lifts',
      'lifts',
      'lifts',
    ]);
    // the heights of this rig were computed apart from this program, and are given to 0.1 mm
    const apart = [0, 8.4e-3, 14.3e-3, 19.9e-3, 25.1e-3];
    points.forEach(({ height }, i) => {
      expect(Math.abs(height - apart[i]!)).toBeLessThan(0.06e-3);
    });
    expect(points.map(({ current }) => current)).toEqual([8, 10, 11, 12, 13]);
  });

  it('is the same where the drive is a voltage, and where nothing drives', () => {
    const currents = [8, 11, 13];
    const points = liftCurve(layout, slots, currents);
    for (const [current, voltage] of [
      [Number.NaN, 90],
      [Number.NaN, Number.NaN],
    ]) {
      const others = slots.slice();
      others[SLOT.driveCurrent] = current!;
      others[SLOT.driveVoltage] = voltage!;
      expect(liftCurve(layout, others, currents)).toEqual(points);
    }
  });

  it('is the design itself at the design’s own current, and leaves its inputs alone', () => {
    const before = slots.slice();
    const [point] = liftCurve(layout, slots, [12]);
    expect(point).toEqual(atOwnDrive(layout, slots));
    expect(slots).toEqual(before);
  });
});

describe('atSupplyLimit', () => {
  it('is null where the supply has no limit', () => {
    expect(atSupplyLimit(layout, slots)).toBeNull();
  });

  it('goes up to the supply’s limit, whatever the drive of the design', () => {
    const limited = slotsOf({ ...FOYER, 'supply.series_resistance': 0, 'supply.max_voltage': 100 });
    const point = atSupplyLimit(layout, limited);
    expect(point!.results[Q.supply_voltage]).toBeCloseTo(100, 7);
    expect(point!.current).toBeGreaterThan(12);
    const byVoltage = limited.slice();
    byVoltage[SLOT.driveCurrent] = Number.NaN;
    byVoltage[SLOT.driveVoltage] = 90;
    expect(atSupplyLimit(layout, byVoltage)).toEqual(point);
  });
});
