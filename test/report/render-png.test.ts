import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { renderPng, whyNoPng } from '../../src/report/render-png.ts';

const SVG = readFileSync(new URL('../golden/figures/rig-19.svg', import.meta.url), 'utf8');

/** From the header of a PNG. */
function sizeOf(png: Uint8Array): { width: number; height: number } {
  const view = new DataView(png.buffer, png.byteOffset);
  expect([...png.subarray(1, 4)].map((code) => String.fromCharCode(code)).join('')).toBe('PNG');
  return { width: view.getUint32(16), height: view.getUint32(20) };
}

describe('a figure as PNG', () => {
  it('is twice as large, and has its words', async () => {
    const [width, height] = ['width', 'height'].map((name) =>
      Number(new RegExp(` ${name}="(\\d+(?:\\.\\d+)?)"`).exec(SVG)![1]),
    );
    const png = await renderPng(SVG);
    expect(sizeOf(png)).toEqual({ width: 2 * width!, height: Math.round(2 * height!) });
    const wordless = await renderPng(SVG.replaceAll(/<text[^>]*>[^<]*<\/text>/g, ''));
    expect(png.length).toBeGreaterThan(1.3 * wordless.length);
  });

  it('is refused where there is no font, without which it would lose its words', async () => {
    expect(await whyNoPng()).toBe(null);
    expect(await whyNoPng({ font: { loadSystemFonts: false } })).toBe('no font');
  });
});
