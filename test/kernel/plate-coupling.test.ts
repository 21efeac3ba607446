import { describe, expect, it } from 'vitest';
import { WidePlate } from '../../src/rig/wide-plate.ts';
import { coilOf, computePlate, layer } from '../support/wide-plate.ts';

const coil = { innerRadius: 0.05, outerRadius: 0.16616, height: 0.016896, turns: 440 };
const plate = { ...coil, omega: 2 * Math.PI * 50, layers: [layer(3.5e7, 0.012)] };

describe('a coil over a plate', () => {
  const valuesAt = (coupling: ReturnType<typeof computePlate>['coupling']) => {
    const { inductanceRe, inductanceIm, slopeRe, slopeIm, curvatureRe, jerkRe } = coupling;
    return [inductanceRe, inductanceIm, slopeRe, slopeIm, curvatureRe, jerkRe];
  };

  it('gives the same bits at a gap, whatever gaps were asked about before', () => {
    const { coupling } = computePlate({ ...plate, gap: 0.002 });
    const fresh = [0.002, 0.003, 0.004].map((gap) => {
      const own = computePlate({ ...plate, gap: 0.002 }).coupling;
      own.evaluate(gap);
      return valuesAt(own);
    });
    // back and forth, so that some are brought back and some are worked out again
    for (const [gap, index] of [
      [0.002, 0],
      [0.003, 1],
      [0.002, 0],
      [0.004, 2],
      [0.003, 1],
      [0.002, 0],
    ] as const) {
      coupling.evaluateLift(gap);
      coupling.evaluate(gap);
      expect(valuesAt(coupling)).toEqual(fresh[index]);
    }
  });

  it('forgets them with the plate', () => {
    const wide = new WidePlate();
    const over = (thickness: number) => {
      const layers = [layer(3.5e7, thickness)];
      const sections = [{ ...coil, offset: 0, sense: 1 as const }];
      wide.prepare(
        coilOf(sections),
        { layers, layerCount: 1, omega: plate.omega },
        0.002,
        2.5 * coil.outerRadius,
      );
      wide.coupling.evaluate(0.002);
      return valuesAt(wide.coupling);
    };
    over(0.012);
    const { coupling } = computePlate({ ...plate, layers: [layer(3.5e7, 0.001)], gap: 0.002 });
    expect(over(0.001)).toEqual(valuesAt(coupling));
  });
});
