import { expect, it } from 'vitest';
import { sidewaysChart } from '../../src/report/charts/sideways-chart.ts';

it('draws a curve that a study looks at nowhere', async () => {
  const curve = [0, 1, 2, 3, 4].map((i) => ({ shift: i * 1e-3, overWeight: -0.1 * i, force: -i }));
  const svg = await sidewaysChart([{ name: 'A', curve: curve as never, at: null }]);
  expect(svg).toContain('<svg');
});
