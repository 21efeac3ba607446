import { describe, expect, it } from 'vitest';
import { tidySvg } from '../../../src/report/charts/tidy-svg.ts';

const wrap = (content: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" class="marks" width="10" height="10" viewBox="0 0 10 10">${content}</svg>`;

describe('tidySvg', () => {
  it('rounds coordinates to a hundredth of a pixel and leaves texts alone', () => {
    const svg = tidySvg(wrap('<text transform="translate(1.23456,-0.00001)">d="1.23456"</text>'), 'chart');
    expect(svg).toContain('<text transform="translate(1.23,0)">d="1.23456"</text>');
  });

  it('moves the description of a linked mark to its link', () => {
    const mark =
      '<a xlink:href="#design-3"><path aria-label="design 3 &gt; x" role="graphics-symbol" aria-roledescription="point" d="M0,0"/></a>';
    const svg = tidySvg(wrap(mark), 'chart');
    expect(svg).toContain('<a href="#design-3" aria-label="design 3 &gt; x"><path d="M0,0"/></a>');
    expect(svg).toContain('<svg xmlns="http://www.w3.org/2000/svg" role="group" aria-label="chart"');
  });

  it('takes the dashes of a curve from the filled mark of its legend, and leaves those of a stroke there', () => {
    const symbol = (fill: string) =>
      `<g class="mark-symbol role-legend-symbol"><path d="M0,0" fill="${fill}" stroke="#123456" stroke-dasharray="7,3"/></g>`;
    expect(tidySvg(wrap(symbol('#123456')), 'chart')).not.toContain('dasharray');
    expect(tidySvg(wrap(symbol('transparent')), 'chart')).toContain('stroke-dasharray="7,3"');
  });

  it('makes a chart without links one image, described by its escaped alternative text', () => {
    expect(tidySvg(wrap(''), '"<b>')).toContain('role="img" aria-label="&quot;&lt;b&gt;"');
  });
});
