import { TEXT_SIZE } from './palette.ts';
import { textWidth } from './text-width.ts';

/** Symbol and air beside a label, px. */
const BESIDE = 40;

/** How many columns a legend above a chart may have so that it is no wider than the chart. */
export function legendColumns(labels: readonly string[], width: number): number {
  const widest = Math.max(...labels.map((label) => textWidth(label, TEXT_SIZE.label)));
  return Math.max(1, Math.min(labels.length, Math.floor(width / (widest + BESIDE))));
}
