import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { pageFrame } from '../../../src/report/page/page-frame.ts';

const hashed = (text: string) => `&#39;sha256-${createHash('sha256').update(text).digest('base64')}&#39;`;

describe('pageFrame', () => {
  const page = pageFrame('<i>title</i>', [], "'use strict';");

  it('lets run exactly the script and the style that it holds', () => {
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)![1]!;
    const script = /<script>([\s\S]*?)<\/script>/.exec(page)![1]!;
    const style = /<style>([\s\S]*?)<\/style>/.exec(page)![1]!;
    expect(policy.split('; ')).toEqual([
      'default-src &#39;none&#39;',
      `style-src ${hashed(style)}`,
      `script-src ${hashed(script)}`,
      'base-uri &#39;none&#39;',
      'form-action &#39;none&#39;',
    ]);
  });

  it('lets nothing run where there is no script', () => {
    expect(pageFrame('title', [], '')).not.toMatch(/<script|script-src/);
  });

  it('keeps a title as text', () => {
    expect(page).toContain('<title>&lt;i&gt;title&lt;/i&gt;</title>');
  });
});
