import { describe, expect, it } from 'vitest';
import { MU0 } from '../../src/kernel/constants.ts';
import { bandImageForce, heightOfForce, wireImageForce } from '../../src/kernel/image-forces.ts';

/** Two bands of width w at distance d, each of many straight wires: their mutual force, summed wire by wire, N. */
function summedForce(ampereTurns: number, radius: number, width: number, height: number): number {
  const wires = 400;
  const each = ampereTurns / wires;
  const d = 2 * height;
  let sum = 0;
  for (let i = 0; i < wires; i++) {
    for (let j = 0; j < wires; j++) {
      const x = ((i - j) / wires) * width;
      // 2e-7 I1 I2 / distance for each metre, its upright part
      sum += ((MU0 / (2 * Math.PI)) * each * each * d) / (d * d + x * x);
    }
  }
  return sum * 2 * Math.PI * radius;
}

describe('hand formulas of a coil over its image', () => {
  it('repels two wires of 1 A, 1 m apart, by 2e-7 N a metre (definition of the ampere of 1948)', () => {
    // 0.5 m over the plate, so 1 m over its image, on a turn of 1 m in all
    expect(wireImageForce(1, 1 / (2 * Math.PI), 0.5)).toBeCloseTo(2e-7, 15);
  });

  it.each([
    [0.1, 0.004],
    [0.1, 0.03],
    [0.02, 0.05],
  ])('agrees with 400 x 400 wires summed one by one: band of %s m, %s m over the plate', (width, height) => {
    const summed = summedForce(3000, 0.1, width, height);
    // the sum takes a wire's own image at its full force over a 400th of the band: an error of order w / (400 d)
    expect(bandImageForce(3000, 0.1, width, height) / summed).toBeCloseTo(1, 2);
  });

  it('is the thin wire for a narrow band, and a sheet with the pressure mu0 K^2 / 2 for a wide one', () => {
    expect(bandImageForce(1000, 0.1, 1e-5, 0.02) / wireImageForce(1000, 0.1, 0.02)).toBeCloseTo(1, 6);
    const [turns, radius, width] = [1000, 0.5, 0.2];
    const pressure = (MU0 * (turns / width) ** 2) / 2;
    const sheet = pressure * 2 * Math.PI * radius * width;
    expect(bandImageForce(turns, radius, width, 1e-6) / sheet).toBeCloseTo(1, 3);
  });

  it('joins its series for a narrow band to the closed form without a step', () => {
    const at = (ratio: number) => bandImageForce(1000, 0.1, ratio * 0.04, 0.02);
    // the force changes by ratio^2 / 6 over this: 1e-9, and cancellation leaves 1e-9 of the closed form
    expect(at(1.0001e-3) / at(0.9999e-3)).toBeCloseTo(1, 8);
  });

  it('finds the height at which the lift is the weight, and says where there is none', () => {
    const lift = (height: number) => wireImageForce(4000, 0.1, height);
    const height = heightOfForce(lift, 20, 1e-3, 10);
    expect(lift(height)).toBeCloseTo(20, 9);
    expect(heightOfForce(lift, 1e9, 1e-3, 10)).toBeNaN();
  });
});
