import { numberText } from '../../text/number-text.ts';
import type { FrontColumn } from '../front-columns.ts';
import { letterOf } from '../letters.ts';
import type { ReportInput } from '../report-input.ts';
import { html, inertJson, type Markup } from '../text/html.ts';

/** The numbers of the shown designs, for the cards that the page's script fills: a data block, no script. */
export function frontData({ front, chosen }: ReportInput, columns: readonly FrontColumn[]): Markup {
  const data = {
    designs: [...front.designs],
    letters: Array.from(front.designs, (_, row) => letterOf(chosen, row)),
    columns: columns.map(({ label, unit, group }) => ({ label, unit: unit.symbol, group })),
    cells: columns.map(({ cells }) => cells.map(plain)),
  };
  return html`<script type="application/json" id="front-data">${inertJson(data)}</script>`;
}

/** As JSON can hold it: infinity in words, an empty cell as null, six digits. */
function plain(cell: number | string): number | string | null {
  if (typeof cell === 'string') return cell;
  if (Number.isNaN(cell)) return null;
  return Number.isFinite(cell) ? Number(cell.toPrecision(6)) : numberText(cell);
}
