import { MARK } from './category.ts';

/**
 * Advance widths of Helvetica for the characters from space to `~`, in thousandths of the font size (Adobe's font
 * metrics, from memory). Other characters count as wide as a digit and a little.
 */
const WIDTHS = (
  '278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 ' +
  '584 584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 ' +
  '667 611 278 278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 ' +
  '556 500 722 500 500 500 334 260 334 584'
)
  .split(' ')
  .map(Number);
const OTHER = 600;
/** The font that is there may be a wider one: DejaVu Sans takes 1.13 to 1.16 times as much (measured in Chromium). */
const ALLOWANCE = 1.16;

/** About how wide a text will be, px. Wide enough to lay out a chart, and the same on every machine. */
export function textWidth(text: string, size: number): number {
  let thousandths = 0;
  for (const character of text) {
    if (character !== MARK) thousandths += WIDTHS[character.codePointAt(0)! - 32] ?? OTHER;
  }
  return (thousandths / 1000) * size * ALLOWANCE;
}
