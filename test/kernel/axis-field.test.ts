import { describe, expect, it } from 'vitest';
import { axisField } from '../../src/kernel/axis-field.ts';
import { MU0 } from '../../src/kernel/constants.ts';

describe('axisField', () => {
  it("is a loop's mu0 a^2 / (2 (a^2 + z^2)^(3/2)) for a small section", () => {
    const section = { innerRadius: 0.0999, outerRadius: 0.1001, height: 0.0002, turns: 7 };
    for (const z of [0, 0.03, -0.2]) {
      const loop = (7 * MU0 * 0.01) / (2 * (0.01 + z * z) ** 1.5);
      // the section is 2e-3 of the radius: its square
      expect(Math.abs(axisField(section, z) / loop - 1)).toBeLessThan(1e-5);
    }
  });

  it('is mu0 N I / h inside a long solenoid and half of it at the end', () => {
    const section = { innerRadius: 0.01, outerRadius: 0.0101, height: 10, turns: 1000 };
    expect(axisField(section, 0) / (MU0 * 100)).toBeCloseTo(1, 5);
    expect(axisField(section, 5) / (MU0 * 100)).toBeCloseTo(0.5, 5);
  });

  it('is the sum of its loops for a fat coil', () => {
    const section = { innerRadius: 0.03, outerRadius: 0.09, height: 0.05, turns: 1 };
    const n = 200;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        const a = 0.03 + (0.06 * (i + 0.5)) / n;
        const z = 0.07 - 0.05 * ((j + 0.5) / n - 0.5);
        sum += (MU0 * a * a) / (2 * (a * a + z * z) ** 1.5);
      }
    }
    // midpoint rule: 1/n^2
    expect(axisField(section, 0.07) / (sum / (n * n))).toBeCloseTo(1, 4);
  });
});
