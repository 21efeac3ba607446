import { describe, expect, it } from 'vitest';
import { followWarming } from '../../src/rig/follow-warming.ts';
import { type Design, FOYER, SOCKET, slotsOf } from '../support/design.ts';

const { 'drive.current': _current, ...TABLE } = { ...FOYER, ...SOCKET };

describe('events of a warming', () => {
  const timeOf = (design: Design, seconds: number | null, wanted: string) => {
    const { events } = followWarming({ plateLayers: 1, windings: 0 }, slotsOf(design), seconds)!;
    return events.find(({ what }) => what === wanted)!.time;
  };

  it.each([
    ['lands', { ...TABLE, 'drive.voltage': 54 }],
    ['thermal class', { ...TABLE, 'drive.current': 16, 'coil.thermal_class': 378.15 }],
  ] as const)(
    '%s: at the same second whether moments lie two minutes apart or a few seconds',
    (what, design) => {
      const coarse = timeOf(design, null, what);
      // 200 moments: the last at twice the time
      const fine = timeOf(design, 2 * coarse, what);
      expect(coarse).toBeGreaterThan(120);
      // the steps of the integration bound each by 3e-3
      expect(Math.abs(coarse - fine)).toBeLessThan(3e-3 * coarse + 1);
    },
  );
});
