import { describe, expect, it } from 'vitest';
import { Q } from '../../../src/model/quantities.ts';
import { hasMeans } from '../../../src/report/charts/effects-chart.ts';
import { frontChart } from '../../../src/report/charts/front-chart.ts';
import { liftChart } from '../../../src/report/charts/lift-chart.ts';
import { METAL_INKS } from '../../../src/report/charts/metal-inks.ts';
import { liftBounds } from '../../../src/report/fixed-bounds.ts';
import { limit } from '../../support/batches.ts';
import { madeUpReport } from '../../support/made-up-report.ts';

describe('crosses of the chart of the front', () => {
  const input = madeUpReport();
  const chart = (unmet: readonly number[], alone: readonly number[]) => {
    const { survey } = input;
    const count = unmet.length;
    const otherSample = {
      designs: unmet.map((_, i) => 900 + i),
      objectives: unmet.map((_, i) => Float64Array.of(0.02, 2.2 + i / 10)),
      values: unmet.map(() => Float64Array.of(0, 400, 0.003)),
      unmet,
      of: count,
    };
    const limits = survey.limits.map((each, i) => ({ ...each, alone: alone[i]! }));
    return frontChart({ ...input, survey: { ...survey, otherSample, limits } }, [], 1);
  };

  it('have a shape for each limit that is missed, which the legend names, and one for several', async () => {
    const { svg, crosses } = await chart([1, 2, 3, 2], [1, 2]);
    expect(crosses).toBe(4);
    for (const text of [
      'misses current &lt;= 16 A',
      'misses coil_mass &lt;= 3 kg',
      'misses several, or another',
    ])
      expect(svg).toContain(`>${text}<`);
    const shapes = Array.from(
      svg.matchAll(/ d="([^"]*)" stroke="#8b8b8b" stroke-width="1.2"/g),
      ([, shape]) => shape!,
    );
    expect(shapes).toHaveLength(4);
    expect(new Set(shapes).size).toBe(3);
    expect(shapes[1]).toBe(shapes[3]);
  });

  it('are named only where they are drawn', async () => {
    const { svg } = await chart([2], [0, 1]);
    expect(svg).toContain('>misses coil_mass &lt;= 3 kg<');
    expect(svg).not.toContain('misses current');
    expect(svg).not.toContain('misses several');
  });

  it('leave the colours to the metals', async () => {
    const { svg } = await chart([1], [1, 0]);
    expect(svg).toContain(`stroke="${METAL_INKS[0]!.ink}"`);
    expect(svg).toContain('>aluminium<');
  });
});

describe('liftChart', () => {
  const lift = [
    { current: 9, height: 0 },
    { current: 12, height: 0.02 },
    { current: 13, height: 0.024, atLimit: true },
  ];
  const rig = { name: 'A', lift, operating: null, chatter: 6.4 };

  it('draws chatter below the axis, up to lift-off where the curve begins', async () => {
    const svg = await liftChart([rig]);
    const chatter =
      /translate\(([\d.]+),[\d.]+\)" x2="([\d.]+)" y2="0" stroke="#0a4a86" stroke-width="3.5"/.exec(svg)!;
    const curve = /<path d="M([\d.]+),[\d.]+[^"]*" stroke="#0a4a86" stroke-width="1.8"/.exec(svg)!;
    expect(Number(chatter[1]) + Number(chatter[2])).toBeCloseTo(Number(curve[1]), 1);
    expect(await liftChart([{ ...rig, chatter: Number.NaN }])).not.toContain('stroke-width="3.5"');
  });

  it('marks what ends the supply, and limits of the study on current and height', async () => {
    const bounds = liftBounds([
      limit('height >= 8 mm', 'height', '>=', 0.008),
      limit('current <= 11 A', 'current', '<=', 11),
      limit('coil_mass <= 3 kg', 'coil_mass', '<=', 3),
    ]);
    const svg = await liftChart([rig], bounds);
    expect(svg).toContain('>height &gt;= 8 mm<');
    expect(svg).toContain('>current &lt;= 11 A<');
    expect(svg).not.toContain('coil_mass');
    const bar = /mark-rect role-mark layer_\d+_marks"><path/;
    expect(svg).toMatch(bar);
    expect(await liftChart([{ ...rig, lift: lift.slice(0, 2) }], bounds)).not.toMatch(bar);
  });
});

describe('a mean of all designs', () => {
  it('is of a plan that spreads its designs, not of a search', () => {
    const search = { seed: 1, patience: 1, tolerance: 1, population: 8, generations: 3 };
    expect(hasMeans({ plan: { kind: 'grid' } })).toBe(true);
    expect(hasMeans({ plan: { kind: 'sobol', points: 8, seed: 1 } })).toBe(true);
    expect(hasMeans({ plan: { kind: 'genetic', ...search } })).toBe(false);
  });
});

describe('a limit on a quantity', () => {
  it('has a place on an axis where the other side is a number', () => {
    const [{ left, right }] = [limit('height >= 8 mm', 'height', '>=', 0.008)];
    const turned = { text: '8 mm <= height', comparison: '<=' as const, left: right, right: left };
    expect(liftBounds([turned]).height).toEqual([{ value: 0.008, text: '8 mm <= height' }]);
    const other = { ...turned, left: [{ op: 'quantity' as const, index: Q.gap }] };
    expect(liftBounds([other]).height).toEqual([]);
  });
});
