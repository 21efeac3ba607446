import { cleanText } from '../../text/clean-text.ts';

/** Markup made by this program. Whatever else goes into a page is text and gets escaped. */
export class Markup {
  readonly source: string;
  constructor(source: string) {
    this.source = source;
  }
}

export type Content = Markup | string | number | null | readonly Content[];

/** Escaped for element content and for quoted attributes, of HTML and of XML. */
export function escapeText(text: string): string {
  return cleanText(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;');
}

function sourceOf(content: Content): string {
  if (content === null) return '';
  if (content instanceof Markup) return content.source;
  if (typeof content === 'object') return content.map(sourceOf).join('');
  return escapeText(String(content));
}

/** A template whose inserted values are escaped unless they are markup themselves; null inserts nothing. */
export function html(parts: TemplateStringsArray, ...values: readonly Content[]): Markup {
  let source = parts[0]!;
  values.forEach((value, i) => {
    source += sourceOf(value) + parts[i + 1]!;
  });
  return new Markup(source);
}

/** JSON that is inert inside a script element: no `<` that could end it or open a comment. */
export function inertJson(value: unknown): Markup {
  return new Markup(JSON.stringify(value).replaceAll('<', '\\u003c'));
}
