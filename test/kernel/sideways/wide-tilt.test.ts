import { describe, expect, it } from 'vitest';
import { WideTilt } from '../../../src/kernel/sideways/wide-tilt.ts';
import { relative, winding } from '../../support/disc.ts';
import { circlesOf } from '../../support/sheet-mesh.ts';

describe('a coil that leans over a wide plate', () => {
  it('over a perfect conductor couples as with its image in three dimensions', () => {
    const coil = [winding(0.06, 0.1, 0.02, 100)];
    const [gap, above] = [0.02, 0.015];
    const circles = circlesOf(coil, 6, 3);
    const points = 60;
    // Neumann's double sum over the turned circles and their mirror images below z = 0
    const mutual = (turn: number) => {
      const loops = circles.flatMap(({ radius, level, turns }) =>
        Array.from({ length: points }, (_, p) => {
          const angle = (2 * Math.PI * p) / points;
          const length = (2 * Math.PI * radius * turns) / points;
          const [x, y, z] = [radius * Math.cos(angle), radius * Math.sin(angle), level - above];
          const [tx, ty] = [-Math.sin(angle) * length, Math.cos(angle) * length];
          const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
          return {
            at: [x * cos + z * sin, y, z * cos - x * sin + gap + above],
            along: [tx * cos, ty, -tx * sin],
          };
        }),
      );
      let sum = 0;
      for (const p of loops) {
        for (const q of loops) {
          const distance = Math.hypot(p.at[0]! - q.at[0]!, p.at[1]! - q.at[1]!, p.at[2]! + q.at[2]!);
          // an image's horizontal current runs against its original's, its vertical one with it
          const along = -p.along[0]! * q.along[0]! - p.along[1]! * q.along[1]! + p.along[2]! * q.along[2]!;
          sum += along / distance;
        }
      }
      return 1e-7 * sum;
    };
    const step = 0.005;
    const expected = (mutual(step) - 2 * mutual(0) + mutual(-step)) / step ** 2;
    const copper = { resistivity: 1e-16, relativePermeability: 1, thickness: 0.01 };
    const got = new WideTilt().evaluate(coil, [copper], 1, 2 * Math.PI * 1e5, gap, above);
    // what 6 x 3 circles leave of the section
    expect(relative(got, expected)).toBeLessThan(1e-3);
    expect(got).toBeLessThan(0);
  });
});
