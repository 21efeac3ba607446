import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escapeText, html, inertJson, Markup } from '../../../src/report/text/html.ts';

describe('html', () => {
  it('escapes what is inserted, in content and in attributes', () => {
    const hostile = `</p><script>alert('x')</script>" onload="y`;
    expect(html`<p title="${hostile}">${hostile}</p>`.source).toBe(
      '<p title="&lt;/p&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;&quot; onload=&quot;y">' +
        '&lt;/p&gt;&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;&quot; onload=&quot;y</p>',
    );
  });

  it('takes markup as it is, joins lists and inserts nothing for null', () => {
    expect(html`<ul>${[html`<li>${1}</li>`, null, new Markup('<li>2</li>')]}</ul>`.source).toBe(
      '<ul><li>1</li><li>2</li></ul>',
    );
  });

  it('lets no text, whatever it is, open or close a tag or an attribute', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        expect(escapeText(text)).not.toMatch(/[<>"']/);
      }),
    );
  });

  it('shows control characters, marks that reorder text and lone surrogates as unknown characters', () => {
    expect(escapeText('a\u0000b\u202ec\ud800d\u0007\n\te')).toBe('a\ufffdb\ufffdc\ufffdd\ufffd\n\te');
  });

  it('writes JSON that reads back the same and holds no tag', () => {
    const value = { text: '</script><!--<script>', list: [1, null] };
    const { source } = inertJson(value);
    expect(source).not.toContain('<');
    expect(JSON.parse(source)).toEqual(value);
  });
});
