import { escapeText } from '../text/html.ts';
import { MARK } from './category.ts';

/** Attributes that hold coordinates. */
const GEOMETRY = /\b(transform|d|x|y|x1|x2|y1|y2|width|height|viewBox)="([^"]*)"/g;
/** Layers that Vega draws even when there is nothing in them. */
const EMPTY = /<path class="(?:background|foreground)" aria-hidden="true" d="(?:M0,0h0v0h0Z)?"[^>]*\/>/g;
/** Labels for which Vega found no room: not everything that reads a figure knows that they are not to be seen. */
const UNSEEN = /<text [^>]*opacity="0"[^>]*>[^<]*<\/text>/g;
/** A mark that is a link: its description belongs to the link. */
const LINK = /<a xlink:href="([^"]*)"><path aria-label="([^"]*)"/g;
/** A filled mark of a legend, around which Vega draws the dashes of its curve: they would make its edge ragged. */
const DASHED_MARK = /(role-legend-symbol"[^>]*><path [^>]*fill="#[^>]*?) stroke-dasharray="[^"]*"/g;
/** Vega's words on axes, legends and groups, and what is obvious. */
const NEEDLESS =
  / (?:role="graphics-\w+"|aria-roledescription="[^"]*"|aria-hidden="true"|pointer-events="none"|(?:stroke-|fill-)?opacity="1"|xmlns:xlink="[^"]*"|version="1.1")/g;
const DESCRIBED_GROUP = /(<g class="[^"]*") aria-label="[^"]*"/;

/**
 * Vega's SVG, smaller and the same on every machine: coordinates to a hundredth of a pixel, no empty layers, no labels
 * that nobody sees. The whole is one image with a description or, where marks are links, a group whose members are the links.
 */
export function tidySvg(svg: string, alt: string): string {
  // inside attributes Vega escapes `>`, so that a tag ends where it seems to; texts stay as they are
  const tidy = svg
    .replaceAll(MARK, '')
    .replace(EMPTY, '')
    .replace(DASHED_MARK, '$1')
    .replace(UNSEEN, '')
    .replace(LINK, '<a href="$1" aria-label="$2"><path')
    .replace(/<[^>]*>/g, (tag) =>
      tag
        .replace(GEOMETRY, (_, name: string, value: string) => `${name}="${rounded(value)}"`)
        .replace(NEEDLESS, '')
        .replace(DESCRIBED_GROUP, '$1'),
    );
  const role = tidy.includes('<a href=') ? 'group' : 'img';
  return tidy.replace('class="marks"', `role="${role}" aria-label="${escapeText(alt)}"`);
}

function rounded(value: string): string {
  return value.replace(/-?\d+\.\d{3,}(?:e-?\d+)?/g, (number) =>
    String(Math.round(Number(number) * 100) / 100),
  );
}
