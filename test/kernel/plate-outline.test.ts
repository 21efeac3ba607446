import { describe, expect, it } from 'vitest';
import { equalDiscRadius } from '../../src/kernel/plate-outline.ts';
import { SidewaysCoupling } from '../../src/kernel/sideways/sideways-coupling.ts';
import { SidewaysPlate } from '../../src/kernel/sideways/sideways-plate.ts';
import { resolveSideways } from '../../src/kernel/sideways/sideways-resolution.ts';
import { computeDisc, discSpec, winding } from '../support/disc.ts';
import { nightly } from '../support/nightly.ts';
import { circlesOf, rectangleMesh, SheetStack } from '../support/sheet-mesh.ts';

const REACH = 0.166;
const COIL = [winding(0.05, REACH, 0.017, 440)];
const SQUARE = { thick: 2.843e-8 / 0.012, thin: 2.843e-8 / 0.003 };
const OMEGA = 2 * Math.PI * 50;

/** Lift and loss of the equal disc over those of the plate itself, less one, at each gap. */
function errors(
  [a, b]: [number, number],
  square: number,
  gaps: readonly number[],
): { lift: number; loss: number }[] {
  const cells = nightly ? 18 : 12;
  const across = Math.round(cells * Math.sqrt(a / b));
  const along = Math.round(cells * Math.sqrt(b / a));
  const sheet = new SheetStack(rectangleMesh(a, b, across, along), [{ depth: 5e-5, square }], OMEGA);
  const circles = circlesOf(COIL, 10, 2);
  const step = 1e-3;
  return gaps.map((gap) => {
    const [above, below] = [step, -step].map((h) => sheet.inductance(circles, { shift: 0, gap: gap + h }));
    const layers: [number, number][] = [[1e-4, square * 1e-4]];
    const { coupling } = computeDisc(
      { radius: equalDiscRadius(a, b), layers, frequency: 50 },
      COIL,
      gap,
      1e-3,
    );
    return {
      lift: coupling.slopeRe / ((above!.re - below!.re) / (2 * step)) - 1,
      loss: coupling.inductanceIm / ((above!.im + below!.im) / 2) - 1,
    };
  });
}

describe('the disc that lifts like a rectangular plate', () => {
  const claims: [oblong: number, lift: number, loss: number][] = [
    [1, 0.04, 0.05],
    [4 / 3, 0.08, 0.08],
    [1.5, 0.13, 0.09],
  ];
  for (const [oblong, lift, loss] of claims) {
    it(`of ${oblong.toFixed(2)} to 1 does so as well as is claimed`, () => {
      for (const half of nightly ? [0.5, 0.7, 0.9, 1, 1.15, 1.3] : [0.5, 0.9]) {
        const mean = 2 * half * REACH;
        const sides: [number, number] = [mean * Math.sqrt(oblong), mean / Math.sqrt(oblong)];
        for (const square of nightly ? [SQUARE.thin, SQUARE.thick] : [SQUARE.thin]) {
          for (const found of errors(sides, square, nightly ? [0.01, 0.02] : [0.02])) {
            expect(Math.abs(found.lift)).toBeLessThan(lift);
            expect(Math.abs(found.loss)).toBeLessThan(loss);
          }
        }
      }
    });
  }

  it('of a square pushes a coil to the side as the square does, within 12 % up to half sides of 0.9 coil radii', () => {
    const gap = 0.01;
    const square = SQUARE.thin;
    for (const half of nightly ? [0.5, 0.6, 0.7, 0.8, 0.9] : [0.6, 0.9]) {
      const side = 2 * half * REACH;
      const cells = nightly ? 18 : 14;
      const sheet = new SheetStack(rectangleMesh(side, side, cells, cells), [{ depth: 5e-5, square }], OMEGA);
      const circles = circlesOf(COIL, 12, 2);
      const spec = discSpec({
        radius: equalDiscRadius(side, side),
        layers: [[1e-4, square * 1e-4]],
        frequency: 50,
      });
      const coupling = new SidewaysCoupling(new SidewaysPlate(spec, resolveSideways(spec, COIL, gap)));
      coupling.fill(COIL, gap, 0.0085);
      for (const shift of [0.1 * REACH, 0.3 * REACH]) {
        const force = -2 * sheet.forceOnSheets(circles, { shift, gap });
        expect(Math.abs(coupling.slopeAt(shift) / force - 1), `${half} ${shift}`).toBeLessThan(0.12);
      }
    }
  });

  it('is the same whichever side comes first, and none for a strip', () => {
    expect(equalDiscRadius(0.3, 0.4)).toBe(equalDiscRadius(0.4, 0.3));
    expect(equalDiscRadius(0.3, 0.45)).toBeGreaterThan(0);
    expect(equalDiscRadius(0.3, 0.46)).toBeNaN();
  });
});
