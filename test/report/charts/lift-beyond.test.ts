import { describe, expect, it } from 'vitest';
import { liftChart } from '../../../src/report/charts/lift-chart.ts';

const point = (current: number, height: number, beyond = false) => ({ current, height, beyond });

describe('liftChart of a supply with a limit', () => {
  it('draws what lies beyond it faded, and a rig that floats beyond it only', async () => {
    const lift = [point(9, 0), point(10, 0.01), point(12, 0.02, true)];
    const faded = /opacity="0.3"/;
    expect(await liftChart([{ name: 'A', lift, operating: null, chatter: 6.4 }])).toMatch(faded);
    const within = lift.map(({ current, height }) => point(current, height));
    expect(await liftChart([{ name: 'A', lift: within, operating: null, chatter: Number.NaN }])).not.toMatch(
      faded,
    );
    const only = [point(5, 0), point(11, 0, true), point(12, 0.02, true)];
    expect(await liftChart([{ name: 'A', lift: only, operating: point(12, 0.02), chatter: 3.5 }])).toMatch(
      faded,
    );
  });
});
