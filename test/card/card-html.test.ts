import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { card } from '../../src/commands/card.ts';
import { CAUTIONS_REMINDER } from '../../src/model/cautions/judge.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

async function page(study: string, design: number): Promise<string> {
  const io = testIo();
  const place = join(PROJECT, 'studies', study);
  expect(await card(place, { design, json: false, html: true }, io)).toBe(0);
  expect(io.err()).toBe('');
  return io.out();
}

/** Without markup. */
function text(html: string): string {
  return html.replace(/<[^>]*>/g, '\n').replace(/\n+/g, '\n');
}

describe('card --html', () => {
  it('is one page with the drawing, the lift curve, the table of currents, how to wind it and the cautions', async () => {
    const html = await page('metal-and-turns.yaml', 496);
    expect(html).toMatch(/^<!DOCTYPE html>/);
    // rig, lift curve, switched on at once, left alone
    expect(html.match(/<svg /g)).toHaveLength(4);
    const words = text(html);
    for (const part of [
      'Bench card of design 496',
      'Which metal and how many turns for the foyer table?',
      'The rig',
      'Winding it',
      'Limits of the study',
      'At its own drive',
      'Cautions',
      'In time',
      'V switched on at once',
      'Set cold and left alone',
      CAUTIONS_REMINDER,
    ]) {
      expect(words).toContain(part);
    }
    expect(html).toMatch(/<td>14.4<\/td><td>floats<\/td>/);
  });

  it('tells the spread over the whole width where the study has tolerances', async () => {
    const words = text(await page('bench/next-design.yaml', 17));
    expect(words).toContain('Within its tolerances\n');
    expect(words).toContain('255 of 256 such rigs (99.6 %) meet all limits');
    expect(words).toContain('aluminium-1050, resistivity fitted');
    expect(text(await page('metal-and-turns.yaml', 496))).not.toContain('Within its tolerances');
  });

  it('runs nothing and loads nothing', async () => {
    const html = await page('metal-and-turns.yaml', 496);
    expect(html).not.toMatch(/<script|<link|<img|https?:(?!\/\/www\.w3\.org\/2000\/svg)|script-src/);
  });

  it('has no lift curve for a rig that is clamped', async () => {
    const html = await page('pan-heater.yaml', 1008);
    // the rig, and how it warms
    expect(html.match(/<svg /g)).toHaveLength(2);
    expect(text(html)).toContain('clamped');
  });
});
