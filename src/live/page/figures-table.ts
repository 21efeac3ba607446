import { QUANTITIES } from '../../model/quantities.ts';
import { toUnit, type Unit } from '../../model/units.ts';
import { measureText, numberText } from '../../text/number-text.ts';
import type { RigView } from '../compute-view.ts';
import { make, write } from './elements.ts';

/** Every quantity now, and beside a pinned state how far it has moved. */
export function createFiguresTable(region: HTMLElement) {
  const heads = ['now', 'pinned', 'difference'].map((text) => make('th', { scope: 'col' }, text));
  const rows = QUANTITIES.map(({ label, meaning, column }) => {
    const cell = (name: string) => make('td', { 'data-figure': `${name} ${column}` });
    const cells = [cell('now'), cell('pinned'), cell('difference')] as const;
    return {
      cells,
      row: make('tr', {}, make('th', { scope: 'row', class: 'text', title: meaning }, label), ...cells),
    };
  });
  region.replaceChildren(
    make(
      'table',
      {},
      make('thead', {}, make('tr', {}, make('th', { scope: 'col', class: 'text' }, 'figure'), ...heads)),
      make('tbody', {}, ...rows.map(({ row }) => row)),
    ),
  );
  return {
    update({ results, isWhole }: RigView, pinned: RigView | null): void {
      for (const head of heads.slice(1)) head.hidden = pinned === null;
      QUANTITIES.forEach(({ index, unit, words, effort }, i) => {
        const [now, before, difference] = rows[i]!.cells;
        const value = results[index]!;
        write(now, effort > 0 && !isWhole ? '…' : figureText(value, unit, words));
        before.hidden = pinned === null;
        difference.hidden = pinned === null;
        if (pinned === null) return;
        const other = pinned.results[index]!;
        write(before, figureText(other, unit, words));
        write(difference, words.length > 0 ? '' : differenceText(value, other, unit));
      });
    },
  };
}

function figureText(si: number, unit: Unit, words: readonly string[]): string {
  return words.length > 0 ? (words[si] ?? measureText(Number.NaN, unit)) : measureText(si, unit);
}

/** `+1.2 mm (+8 %)` */
function differenceText(si: number, other: number, unit: Unit): string {
  const difference = toUnit(si, unit) - toUnit(other, unit);
  if (!Number.isFinite(difference)) return '';
  if (difference === 0) return '0';
  const text = signed(difference, numberText(Math.abs(difference)));
  const symbol = unit.symbol === '' ? '' : ` ${unit.symbol}`;
  const fraction = unit.offset === 0 ? difference / Math.abs(toUnit(other, unit)) : Number.NaN;
  if (!Number.isFinite(fraction)) return `${text}${symbol}`;
  return `${text}${symbol} (${signed(fraction, String(Number((100 * Math.abs(fraction)).toPrecision(2))))} %)`;
}

function signed(value: number, size: string): string {
  return `${value < 0 ? '−' : '+'}${size}`;
}
