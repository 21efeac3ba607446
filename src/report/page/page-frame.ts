import { createHash } from 'node:crypto';
import { shortText } from '../../text/clean-text.ts';
import { type Content, html, Markup } from '../text/html.ts';
import { PAGE_STYLE } from './page-style.ts';

export interface FrameOptions {
  readonly style?: string;
  /** Where the page's worker threads may come from. */
  readonly workers?: 'blob:';
}

/** A complete page: nothing in it can load, send or run anything but its own style and script. */
export function pageFrame(
  title: string,
  body: readonly Content[],
  script: string,
  { style = PAGE_STYLE, workers }: FrameOptions = {},
): string {
  const policy = [
    "default-src 'none'",
    `style-src '${fingerprint(style)}'`,
    ...(script === '' ? [] : [`script-src '${fingerprint(script)}'`]),
    ...(workers === undefined ? [] : [`worker-src ${workers}`]),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${shortText(title, 120)}</title>
<style>${new Markup(style)}</style>
</head>
<body>
${body}
${script === '' ? null : html`<script>${new Markup(script)}</script>`}
</body>
</html>
`.source;
}

/** As a policy names the one text that it lets run. */
function fingerprint(text: string): string {
  return `sha256-${createHash('sha256').update(text).digest('base64')}`;
}

/** A section with a heading that others can link to. */
export function section(id: string, heading: string, content: readonly Content[]): Markup {
  return html`<section id="${id}" aria-labelledby="${id}-heading"><h2 id="${id}-heading">${heading}</h2>
${content}
</section>
`;
}

/**
 * A picture made by this program. On a narrow screen it scrolls sideways, its letters would be too small otherwise: so the
 * keyboard reaches it, where it has no links that it reaches anyway.
 */
export function picture(svg: string): Markup {
  const reached = svg.includes('<a href=') ? null : html` tabindex="0" role="group" aria-label="Picture"`;
  return html`<div class="picture"${reached}>${new Markup(svg)}</div>`;
}

/** Likewise with what it shows in words. */
export function figure(svg: string, caption: Content, more: Content = null): Markup {
  return html`<figure>${picture(svg)}<figcaption>${caption}</figcaption></figure>${more}
`;
}

/** A table of text cells, folded away: the numbers behind a chart. */
export function dataTable(
  summary: string,
  heads: readonly string[],
  rows: readonly (readonly Content[])[],
): Markup {
  return html`<details><summary>${summary}</summary><div class="scroll" tabindex="0" role="region" aria-label="${summary}"><table><thead><tr>${heads.map((head) => html`<th scope="col" class="text">${head}</th>`)}</tr></thead><tbody>
${rows.map(([first, ...rest]) => html`<tr><th scope="row" class="text">${first ?? ''}</th>${rest.map((cell) => html`<td>${cell}</td>`)}</tr>\n`)}</tbody></table></div></details>
`;
}
