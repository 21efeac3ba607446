import { describe, expect, it } from 'vitest';
import { INK } from '../../../src/report/charts/palette.ts';
import { crossSection } from '../../../src/report/drawing/cross-section.ts';
import type { RigOutline, WindingOutline } from '../../../src/report/drawing/rig-outline.ts';

const winding: WindingOutline = {
  innerRadius: 0.05,
  outerRadius: 0.166,
  height: 0.017,
  offset: 0,
  sense: 1,
  metal: 'aluminium',
  ink: INK.aluminium,
  turns: 440,
  layers: Number.NaN,
  wire: 0.002,
  wound: null,
};
const rig: RigOutline = {
  windings: [winding],
  coilHeight: 0.017,
  coilLoss: 390,
  plate: {
    layers: [{ thickness: 0.012, metal: 'aluminium-1050', ink: INK.aluminium }],
    radius: 0.35,
    innerRadius: 0,
    loss: 119,
    heat: null,
    isAbove: false,
  },
  gap: 0.0219,
  standoff: 0.002,
};

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly fill: string;
}

/** The filled rectangles of a drawing, without its paper. */
function boxes(svg: string): Box[] {
  const found = svg.matchAll(
    /<rect x="([^"]+)" y="([^"]+)" width="([^"]+)" height="([^"]+)" fill="([^"]+)"/g,
  );
  return Array.from(found, ([, x, y, width, height, fill]) => ({
    x: Number(x),
    y: Number(y),
    width: Number(width),
    height: Number(height),
    fill: fill!,
  }));
}

describe('crossSection', () => {
  it('is to scale, the same scale across and upward', () => {
    const [plateLeft, plateRight, coilLeft, coilRight] = boxes(crossSection(rig, 'rig')) as [
      Box,
      Box,
      Box,
      Box,
    ];
    const scale = plateLeft.width / 0.35;
    // coordinates are rounded to 0.01 px
    const close = (value: number, metres: number) =>
      expect(Math.abs(value - metres * scale)).toBeLessThan(0.02);
    close(plateLeft.height, 0.012);
    close(coilLeft.width, 0.116);
    close(coilLeft.height, 0.017);
    close(coilRight.x - plateRight.x, 0.05);
    close(plateLeft.y - (coilLeft.y + coilLeft.height), 0.0219);
    expect(coilLeft.x + coilLeft.width + coilRight.x).toBeCloseTo(2 * plateRight.x, 1);
  });

  it('sets the plate over the coil where the plate floats or is a pan', () => {
    const above = boxes(crossSection({ ...rig, plate: { ...rig.plate, isAbove: true } }, 'pan'));
    expect(above[0]!.y).toBeLessThan(above[2]!.y);
  });

  it('writes the dimensions, what each part is made of and how much heat it takes', () => {
    const svg = crossSection(rig, 'A: design 7, knee');
    for (const text of [
      'A: design 7, knee: 440 turns of 2 mm aluminium wire, coil loss 390 W',
      '50 mm',
      '166 mm',
      'winding 17 mm',
      'floats 19.9 mm',
      'standoff 2 mm',
      'plate 12 mm',
      'plate: 12 mm aluminium-1050, radius 350 mm, plate loss 119 W',
    ]) {
      expect(svg).toContain(`>${text}</text>`);
    }
  });

  it('draws a dot a wire, as many in each layer as there are', () => {
    const wound = { pitch: 0.01, perLayer: [11, 11, 10] };
    const svg = crossSection({ ...rig, windings: [{ ...winding, wound, layers: 3 }] }, 'rig');
    const layers = Array.from(
      svg.matchAll(/h(-?[\d.]+)" stroke-dasharray="0 ([\d.]+)"/g),
      ([, length, pitch]) => Math.floor(Math.abs(Number(length)) / Number(pitch)) + 1,
    );
    expect(layers).toEqual([11, 11, 10, 11, 11, 10]);
  });

  it('says so when foil is drawn thicker than it is, and breaks off a plate without an edge', () => {
    const foil = {
      ...rig.plate,
      layers: [{ thickness: 1e-5, metal: 'copper', ink: INK.copper }],
      radius: Number.NaN,
    };
    const svg = crossSection({ ...rig, plate: foil }, 'rig');
    expect(svg).toContain('plate: 0.01 mm copper, plate loss 119 W, drawn thicker than it is');
    expect(svg.match(/l-4 2l8 4l-4 2/g)).toHaveLength(2);
  });

  it('gives opposed windings opposite signs', () => {
    const outer = { ...winding, innerRadius: 0.17, outerRadius: 0.2, sense: -1 as const };
    const dots = (svg: string) => svg.match(/r="1.8"/g)?.length ?? 0;
    const signs = (svg: string) => svg.match(/r="6"/g)?.length ?? 0;
    const both = crossSection({ ...rig, windings: [winding, outer] }, 'rig');
    expect([signs(both), dots(both)]).toEqual([4, 2]);
    expect(signs(crossSection(rig, 'rig'))).toBe(0);
  });

  it('keeps hostile names as text', () => {
    const hostile = { ...rig, windings: [{ ...winding, metal: '"><script>alert(1)</script>' }] };
    expect(crossSection(hostile, '<b>')).not.toMatch(/<script|<b>/);
  });
});
