import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { MU0 } from '../../src/kernel/constants.ts';
import { GapDecays } from '../../src/kernel/gap-decays.ts';
import { PlateReflection, slowestReflection } from '../../src/kernel/plate-reflection.ts';
import { spectrumNodes } from '../../src/kernel/spectrum-nodes.ts';
import { WindingField } from '../../src/kernel/winding-field.ts';

interface Rig {
  innerRadius: number;
  outerRadius: number;
  height: number;
  gap: number;
  frequency: number;
  conductivity: number;
  permeability: number;
  thickness: number | null;
  free: number;
  total: number;
}

const RIGS = JSON.parse(
  readFileSync(new URL('../fixtures/winding-field-reference.json', import.meta.url), 'utf8'),
) as Rig[];

const field = new WindingField();

function over(rig: Rig, turns = 1, asked = field): number {
  const { outerRadius, height, gap } = rig;
  const omega = 2 * Math.PI * rig.frequency;
  const layers = [
    {
      resistivity: 1 / rig.conductivity,
      relativePermeability: rig.permeability,
      thickness: rig.thickness ?? Number.POSITIVE_INFINITY,
    },
  ];
  const width = outerRadius - rig.innerRadius;
  const slowest = Math.min(2 * slowestReflection(layers, 1, omega), 0.5 / outerRadius, 3 / height);
  const end = Math.max(40 / Math.min(width, height), 9 / gap);
  const nodes = spectrumNodes(
    width / outerRadius,
    slowest * outerRadius,
    end * outerRadius,
    rig.permeability > 1,
  );
  const k = Float64Array.from(nodes.b, (b) => b / outerRadius);
  const reflection = new PlateReflection();
  reflection.fill(layers, 1, omega, k, nodes.count);
  const decays = new GapDecays();
  decays.prepare(k, nodes.count);
  decays.at(gap);
  return asked.meanSquare({ ...rig, turns }, nodes, reflection, decays);
}

describe("the winding's mean-square field against dense quadrature (test/fixtures/winding-field-reference.py)", () => {
  it.each(RIGS)('without a plate: $innerRadius to $outerRadius m, $height m high, within 1 %%', (rig) => {
    // the table's Chebyshev fit is cut at 2e-4 of about 0.1
    expect(Math.abs(field.meanSquareFree({ ...rig, turns: 1 }) / rig.free - 1)).toBeLessThan(1e-2);
  });

  it.each(RIGS)('over a plate: $innerRadius to $outerRadius m, $height m high, at $gap m', (rig) => {
    // six points for the reflected field: 2 %, and more where one side is over ten times the other
    const width = rig.outerRadius - rig.innerRadius;
    const within = rig.height > 10 * width || width > 10 * rig.height ? 0.07 : 0.02;
    expect(Math.abs(over(rig) / rig.total - 1)).toBeLessThan(within);
  });

  it('is the same to the last bit whatever was asked before', () => {
    // backwards and at other gaps in between, so that what is kept was worked out less far, further, or for another rig
    for (const rig of [...RIGS].reverse()) {
      for (const gap of [3 * rig.gap, rig.gap / 3, rig.gap]) {
        const asked = { ...rig, gap };
        expect(over(asked)).toBe(over(asked, 1, new WindingField()));
      }
    }
  });

  it('goes as the square of the turns', () => {
    const rig = RIGS[0]!;
    expect(over(rig, 440) / over(rig)).toBeCloseTo(440 ** 2, 3);
  });
});

describe('the mean-square field of limiting shapes', () => {
  it('is a third of the squared inside field of a long thin-walled solenoid', () => {
    const square = field.meanSquareFree({ innerRadius: 0.098, outerRadius: 0.1, height: 4, turns: 1000 });
    // ends: of order radius over height
    expect(square / ((MU0 * 1000) / 4) ** 2).toBeGreaterThan(0.31);
    expect(square / ((MU0 * 1000) / 4) ** 2).toBeLessThan(1 / 3);
  });

  it('of a square section far from its other side is that of a straight bar', () => {
    // infinite square bar of side c, as line currents on a grid: <B^2> over (mu0 I / c)^2
    const n = 40;
    let sum = 0;
    const cell = (i: number) => (i + 0.5) / n - 0.5;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        let bx = 0;
        let by = 0;
        for (let k = 0; k < n; k++) {
          for (let l = 0; l < n; l++) {
            if (k === i && l === j) continue;
            const dx = cell(i) - cell(k);
            const dy = cell(j) - cell(l);
            const r2 = dx * dx + dy * dy;
            bx -= dy / r2;
            by += dx / r2;
          }
        }
        sum += (bx * bx + by * by) / (2 * Math.PI * n * n) ** 2;
      }
    }
    const bar = sum / (n * n);
    const hoop = field.meanSquareFree({ innerRadius: 0.999, outerRadius: 1, height: 0.001, turns: 1 });
    // the curvature adds an axial field of c/(4 pi R) ln(8 R/c), squared: 1e-5 of it; the sum over cells is good to 1 %
    expect(hoop / (MU0 / 0.001) ** 2 / bar).toBeCloseTo(1, 2);
  });
});
