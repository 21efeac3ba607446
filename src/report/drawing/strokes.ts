import { INK, TEXT_SIZE } from '../charts/palette.ts';
import { textWidth } from '../charts/text-width.ts';
import { html, type Markup } from '../text/html.ts';

/** Px of a drawing's width. */
export const WIDTH = 680;

export function line(x1: number, y1: number, x2: number, y2: number, ink: string, dash = ''): Markup {
  const dashed = dash === '' ? null : html` stroke-dasharray="${dash}"`;
  return html`<path d="M${px(x1)} ${px(y1)}L${px(x2)} ${px(y2)}" stroke="${ink}" stroke-width="1"${dashed}/>`;
}

/** From x1 to x2; the head is at x2, the end that is measured. */
export function arrow(x1: number, x2: number, y: number): Markup {
  const head = x2 >= x1 ? 'm-7 -3l7 3l-7 3' : 'm7 -3l-7 3l7 3';
  return html`<path d="M${px(x1)} ${px(y)}H${px(x2)}${head}" fill="none" stroke="${INK.text}" stroke-width="1"/>`;
}

/** Text that stands on bare paper; smaller where it would leave the drawing. */
export function label(x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end'): Markup {
  const size = sizeOf(x, text, anchor);
  const shrunk = size < TEXT_SIZE.label ? html` font-size="${px(size)}"` : null;
  return html`<text x="${px(x)}" y="${px(y)}" text-anchor="${anchor}" fill="${INK.text}"${shrunk}>${text}</text>`;
}

/** Text on a patch of paper over whatever lies below it. A halo of strokes would need `paint-order`, without which it hides the text. */
export function labelOver(x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end'): Markup {
  const size = sizeOf(x, text, anchor);
  const width = textWidth(text, size);
  const left = x - { start: 0, middle: width / 2, end: width }[anchor];
  return html`<rect x="${px(left - 2)}" y="${px(y - size)}" width="${px(width + 4)}" height="${px(1.3 * size)}" fill="${INK.paper}"/>${label(x, y, text, anchor)}`;
}

function sizeOf(x: number, text: string, anchor: 'start' | 'middle' | 'end'): number {
  const room = { start: WIDTH - x, middle: 2 * Math.min(x, WIDTH - x), end: x }[anchor] - 4;
  return Math.min(TEXT_SIZE.label, (TEXT_SIZE.label * room) / textWidth(text, TEXT_SIZE.label));
}

/** To a hundredth of a pixel. */
export function px(value: number): number {
  return Math.round(value * 100) / 100;
}
