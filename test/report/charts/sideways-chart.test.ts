import { describe, expect, it } from 'vitest';
import { sidewaysChart } from '../../../src/report/charts/sideways-chart.ts';

const CURVE = [
  { shift: 0, overWeight: 0 },
  { shift: 0.05, overWeight: 0.004 },
  { shift: 0.09, overWeight: 0.008 },
];

describe('the chart of sideways forces', () => {
  it('is drawn where the study looks at no design, because nothing pushes it there', async () => {
    const svg = await sidewaysChart([{ name: 'A: design 12, floats highest', curve: CURVE, at: null }]);
    expect(svg).toContain('distance from the axis (mm)');
    const marked = await sidewaysChart([
      { name: 'A: design 12, floats highest', curve: CURVE, at: CURVE[1]! },
    ]);
    expect(marked.length).toBeGreaterThan(svg.length);
  });
});
