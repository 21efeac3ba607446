import { measuredChart } from './charts/measured-chart.ts';
import type { ComparisonInput } from './comparison-input.ts';
import { comparisonPage } from './page/comparison-page.ts';

/** Measured points beside the model as a page: a chart a quantity, the fit, and the numbers. */
export async function buildComparison(input: ComparisonInput): Promise<string> {
  const charts: string[] = [];
  for (const quantity of input.quantities) charts.push(await measuredChart(quantity));
  return comparisonPage(input, charts);
}
