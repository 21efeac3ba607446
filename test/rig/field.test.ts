import { describe, expect, it } from 'vitest';
import { axisField } from '../../src/kernel/axis-field.ts';
import type { FieldGrid } from '../../src/kernel/field-grid.ts';
import { gaussLegendre } from '../../src/math/gauss-legendre.ts';
import { Q } from '../../src/model/quantities.ts';
import { createCoil } from '../../src/rig/coil.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { FOYER as AT_22, type Design, slotsOf } from '../support/design.ts';

/** With the plate at the temperature that its resistivity is given for. */
const FOYER: Design = { ...AT_22, 'plate.at_temperature': 293.15 };
const CURRENT = 12;
const GAP = 0.02;

const steel = {
  'plate.layers.0.metal.relative_permeability': 200,
  'plate.layers.0.metal.resistivity': 2e-7,
  'plate.layers.0.thickness': 2e-3,
  // at mains frequency the flux in it spreads beyond two coil radii
  'supply.frequency': 2000,
};
const second = {
  'plate.layers.1.metal.resistivity': 1.7e-8,
  'plate.layers.1.metal.temperature_coefficient': 0.0039,
  'plate.layers.1.metal.density': 8900,
  'plate.layers.1.metal.specific_heat': 385,
  'plate.layers.1.metal.relative_permeability': 1,
  'plate.layers.1.thickness': 5e-3,
};
const disc = (radius: number): Design => ({ ...FOYER, 'plate.radius': radius, 'plate.extra_mass': 0 });

function lawsOf(design: Design) {
  const laws = createLaws('plate.layers.1.thickness' in design ? 2 : 1);
  laws.evaluate(slotsOf(design));
  return laws;
}

function fieldOf(design: Design, grid: Partial<Record<keyof FieldGrid, number[]>>) {
  const { radii = [], heights = [], depths = [] } = grid;
  const of = (values: number[]) => Float64Array.from(values);
  return lawsOf(design).field(GAP, CURRENT, { radii: of(radii), heights: of(heights), depths: of(depths) });
}

/** Loss of the currents drawn, W: their squares over the plate's section by Gauss' rule. */
function lossOf(design: Design, radius: number, layers: [thickness: number, resistivity: number][]): number {
  const rule = gaussLegendre(24);
  const radii: number[] = [];
  const across: number[] = [];
  for (let part = 0; part < 4; part++) {
    rule.nodes.forEach((x, i) => {
      radii.push((radius * (part + x)) / 4);
      across.push((radius / 4) * rule.weights[i]!);
    });
  }
  let top = 0;
  let loss = 0;
  for (const [thickness, resistivity] of layers) {
    const depths = Array.from(rule.nodes, (x) => top + thickness * x);
    const { current } = fieldOf(design, { radii, depths });
    depths.forEach((_, d) => {
      radii.forEach((r, p) => {
        const at = d * radii.length + p;
        const square = current.re[at]! ** 2 + current.im[at]! ** 2;
        loss += resistivity * square * 2 * Math.PI * r * across[p]! * thickness * rule.weights[d]!;
      });
    });
    top += thickness;
  }
  return loss;
}

describe('currents drawn into a plate', () => {
  it.each<[name: string, design: Design, reach: number, layers: [number, number][]]>([
    ['a wide plate', FOYER, 0.33, [[12e-3, 2.82e-8]]],
    ['magnetic steel', { ...FOYER, ...steel }, 0.33, [[2e-3, 2e-7]]],
    [
      'two layers',
      { ...FOYER, ...second },
      0.33,
      [
        [12e-3, 2.82e-8],
        [5e-3, 1.7e-8],
      ],
    ],
    ['a disc under the coil', disc(0.17), 0.17, [[12e-3, 2.82e-8]]],
    ['a disc wider than the coil', disc(0.25), 0.25, [[12e-3, 2.82e-8]]],
  ])('make the plate loss of the laws: %s', (_, design, reach, layers) => {
    const { coupling } = lawsOf(design);
    coupling!.evaluate(GAP);
    const omega = 2 * Math.PI * design['supply.frequency']!;
    const wanted = -omega * coupling!.inductanceIm * CURRENT ** 2;
    // what the spectrum's end leaves out, and currents beyond two coil radii
    expect(Math.abs(lossOf(design, reach, layers) / wanted - 1)).toBeLessThan(0.01);
  });

  it('flow against the coil and later than it', () => {
    const { current } = fieldOf(FOYER, { radii: [0.1], depths: [1e-4, 6e-3] });
    const [re, im] = [current.re, current.im] as const;
    // between a quarter of a cycle later (all resistance) and half of one (none)
    expect(re[0]!).toBeLessThan(0);
    expect(im[0]!).toBeLessThan(0);
    // the deeper, the later and the weaker
    expect(im[1]! * re[0]! - re[1]! * im[0]!).toBeLessThan(0);
    expect(Math.hypot(current.re[1]!, current.im[1]!)).toBeLessThan(
      Math.hypot(current.re[0]!, current.im[0]!),
    );
  });

  it('end at the rims of a disc', () => {
    const { current } = fieldOf(disc(0.17), { radii: [0.16, 0.18], depths: [1e-3, 13e-3] });
    expect(current.re[0]!).not.toBe(0);
    expect([current.re[1], current.re[2], current.re[3]]).toEqual([0, 0, 0]);
  });
});

describe('flux density drawn into the air', () => {
  it('is that of the coil alone over a plate that hardly conducts', () => {
    const poor = { ...FOYER, 'plate.layers.0.metal.resistivity': 9e-6, 'plate.layers.0.thickness': 1e-5 };
    const coil = createCoil(0);
    coil.fill(slotsOf(poor));
    const { section } = coil.windings[0]!;
    const heights = [0.005, GAP + section.height / 2, 0.08, 0.15];
    const { axial, radial } = fieldOf(poor, { radii: [1e-4], heights });
    const most = CURRENT * axisField(section, 0);
    heights.forEach((height, h) => {
      const wanted = CURRENT * axisField(section, height - GAP - section.height / 2);
      expect(Math.abs(axial.re[h]! - wanted)).toBeLessThan(0.005 * most);
      expect(Math.abs(radial.re[h]!)).toBeLessThan(0.005 * most);
    });
  });

  it('has no sources: the flux through a cap is that through its rim', () => {
    for (const design of [FOYER, disc(0.17)]) {
      const rule = gaussLegendre(24);
      const radius = 0.06;
      const [low, high] = [0.006, 0.016];
      const radii = [...rule.nodes.map((x) => radius * x), radius];
      const heights = [low, ...rule.nodes.map((x) => low + (high - low) * x), high];
      const { axial, radial } = fieldOf(design, { radii, heights });
      const disk = (row: number) =>
        rule.weights.reduce(
          (sum, w, i) => sum + 2 * Math.PI * radii[i]! * radius * w * axial.re[row * radii.length + i]!,
          0,
        );
      const side = rule.weights.reduce(
        (sum, w, i) =>
          sum + 2 * Math.PI * radius * (high - low) * w * radial.re[(i + 1) * radii.length + 24]!,
        0,
      );
      const through = disk(heights.length - 1) - disk(0);
      expect(Math.abs(through + side)).toBeLessThan(0.002 * Math.abs(side));
    }
  });

  it('hardly enters a good conductor', () => {
    const good = { ...FOYER, 'plate.layers.0.thickness': 0.04, 'supply.frequency': 5000 };
    const { axial, radial } = fieldOf(good, { radii: [0.11], heights: [1e-4] });
    expect(Math.abs(axial.re[0]!)).toBeLessThan(0.1 * Math.abs(radial.re[0]!));
  });

  it('is nearly the same over a wide disc and over a wide plate', () => {
    const grid = { radii: [0.03, 0.08, 0.11, 0.15], heights: [0.005, 0.05, 0.09], depths: [1e-3] };
    const wide = fieldOf({ ...disc(0.33), 'plate.edge': 0 }, grid);
    const over = fieldOf(disc(0.33), grid);
    for (const part of ['axial', 'radial', 'current'] as const) {
      const most = Math.max(...wide[part].re.map(Math.abs));
      for (const of of ['re', 'im'] as const)
        wide[part][of].forEach((value, i) => {
          expect(Math.abs(value - over[part][of][i]!)).toBeLessThan(0.03 * most);
        });
    }
  });

  it('is the loss density of the plate where the heat falls', () => {
    const laws = lawsOf(disc(0.17));
    expect(laws.results[Q.plate_model]).toBe(1);
    const density = new Float64Array(1);
    laws.lossDensity(GAP, CURRENT, Float64Array.of(0.1), density);
    const rule = gaussLegendre(24);
    const { current } = fieldOf(disc(0.17), {
      radii: [0.1],
      depths: Array.from(rule.nodes, (x) => 12e-3 * x),
    });
    const loss = rule.weights.reduce(
      (sum, w, d) => sum + w * 12e-3 * 2.82e-8 * (current.re[d]! ** 2 + current.im[d]! ** 2),
      0,
    );
    // both are exact sums over the same currents
    expect(loss / density[0]!).toBeCloseTo(1, 6);
  });
});
