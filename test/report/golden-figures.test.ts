import { describe, expect, it } from 'vitest';
import { buildReport } from '../../src/report/build-report.ts';
import { madeUpReport } from '../support/made-up-report.ts';

/** A tag a line, coordinates to a tenth of a pixel: what differs can be read, and rounding does not show. */
function normalised(svg: string): string {
  return svg
    .replaceAll('><', '>\n<')
    .replace(/<[^>]*>/g, (tag) =>
      tag.replace(/-?\d+\.\d+/g, (number) => String(Math.round(Number(number) * 10) / 10 + 0)),
    )
    .concat('\n');
}

describe('the pictures of a report', () => {
  it('are the ones that were looked at', async () => {
    const { figures } = await buildReport(madeUpReport());
    expect(figures.map(({ name }) => name)).toEqual([
      'front.svg',
      'effects-1.svg',
      'effects-2.svg',
      'ordered-1.svg',
      'ordered-2.svg',
      'map-1.svg',
      'map-2.svg',
      'lift.svg',
      'sensitivities.svg',
      'spread.svg',
      'shares.svg',
      expect.stringMatching(/^motion-\d+\.svg$/),
      expect.stringMatching(/^warm-\d+\.svg$/),
      expect.stringMatching(/^rig-\d+\.svg$/),
      expect.stringMatching(/^rig-\d+\.svg$/),
    ]);
    for (const { name, svg } of figures) {
      await expect(normalised(svg)).toMatchFileSnapshot(`../golden/figures/${name}`);
    }
  });
});
