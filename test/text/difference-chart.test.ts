import { describe, expect, it } from 'vitest';
import { differenceChart } from '../../src/text/difference-chart.ts';

describe('differenceChart', () => {
  it('draws values to both sides of zero, with their uncertainty', () => {
    const bars = [
      { label: '9 A', value: '-1', at: -1, uncertainty: 0 },
      { label: '10 A', value: '+0.5', at: 0.5, uncertainty: 0.25 },
      { label: '11 A', value: '0', at: 0, uncertainty: 0 },
    ];
    expect(differenceChart(bars, 1)).toEqual([
      ' 9 A    -1  o=========|',
      '10 A  +0.5            |====o---',
      '11 A     0            o',
    ]);
  });
});
