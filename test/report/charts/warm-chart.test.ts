import { describe, expect, it } from 'vitest';
import { shownUntil, sinks, type WarmCurve, warmChart } from '../../../src/report/charts/warm-chart.ts';

/** Ten hours, a moment a minute. */
function course(plate: number, sinking: number): WarmCurve['moments'] {
  return Array.from({ length: 601 }, (_, i) => {
    const risen = 1 - Math.exp(-i / 20);
    return {
      time: 60 * i,
      height: 0.02 - sinking * risen,
      mean: 295 + 150 * risen,
      hottest: 295 + 200 * risen,
      plate,
    };
  });
}

const class155 = { time: 1200, label: null };
const curve: WarmCurve = {
  moments: course(300, 0.005),
  floats: true,
  thermalClass: 428.15,
  events: [class155],
};
const texts = (svg: string) => Array.from(svg.matchAll(/<text[^>]*>([^<]*)</g), ([, text]) => text!);

describe('warmChart', () => {
  it('marks the thermal class and fades what lies beyond it', async () => {
    const svg = await warmChart(curve);
    expect(texts(svg)).toContain('thermal class 155 °C');
    expect(svg).toContain('opacity="0.3"');
    const safe = await warmChart({ ...curve, events: [], thermalClass: 900 });
    expect(texts(safe).some((text) => text.startsWith('thermal class'))).toBe(false);
    expect(safe).not.toContain('opacity="0.3"');
  });

  it('ends soon after the last thing that happens, or with the course, then in hours', async () => {
    expect(shownUntil(curve)).toBe(4800);
    expect(texts(await warmChart(curve))).toContain('time (min)');
    expect(shownUntil({ ...curve, events: [class155, { time: 20_000, label: 'lands' }] })).toBe(36_000);
    expect(texts(await warmChart({ ...curve, events: [] }))).toContain('time (h)');
  });

  it('names what happens on the way', async () => {
    expect(texts(await warmChart({ ...curve, events: [{ time: 600, label: 'water warm' }] }))).toContain(
      'water warm',
    );
  });

  it('leaves out a plate that is not known, and a height that stays', async () => {
    expect(texts(await warmChart(curve))).toEqual(expect.arrayContaining(['plate', 'height (mm)']));
    const held = { ...curve, moments: course(Number.NaN, 0) };
    expect(sinks(held)).toBe(false);
    const shown = texts(await warmChart(held));
    expect(shown).not.toContain('plate');
    expect(shown).not.toContain('height (mm)');
  });
});
