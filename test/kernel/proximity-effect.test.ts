import { describe, expect, it } from 'vitest';
import { MU0 } from '../../src/kernel/constants.ts';
import { proximityResistance, transverseLossRatio } from '../../src/kernel/proximity-effect.ts';
import { skinArgument, skinEffect } from '../../src/kernel/skin-effect.ts';

function ratio(x: number, permeability = 1): number {
  const skin = { resistanceRatio: 0, inductanceRatio: 0 };
  skinEffect(x, skin);
  return transverseLossRatio(x, skin, permeability);
}

describe('transverseLossRatio', () => {
  it('is 8 Im(-J2/J0) / x^2 of a wire that is not magnetic (recomputed with mpmath)', () => {
    for (const [x, expected] of BESSEL_RATIOS) expect(Math.abs(ratio(x) / expected - 1)).toBeLessThan(1e-12);
  });

  it('starts at 1, and at (2 mu / (mu + 1))^2 for a magnetic wire, whose field inside is that much larger', () => {
    expect(ratio(0)).toBe(1);
    expect(ratio(0, 100)).toBeCloseTo((200 / 101) ** 2, 12);
  });

  it('tends to the loss of a thick wire that keeps the field out, 8 sqrt(2) / x^3', () => {
    // rim field 2 B sin(phi): P = (2 B / mu0)^2 pi a rho / depth; the correction is of order 1/x
    expect(ratio(1e4) / ((8 * Math.SQRT2) / 1e12)).toBeCloseTo(1, 3);
  });
});

describe('proximityResistance', () => {
  const frequency = 1000;
  const omega = 2 * Math.PI * frequency;
  const rho = 1 / 58e6;
  const radius = 0.25e-3;
  const x = skinArgument(radius, rho, 1, omega);
  // a wide window: the field of `turns` over a breadth b rises linearly from 0 to mu0 N I / b
  const breadth = 0.03;
  const depth = (count: number, porosity: number) => ({
    turns: (count * porosity * breadth) / (2 * radius),
    squareField: 0,
  });

  it("is Sullivan's winding formula at low frequency (IEEE Trans. Power Electron. 14 (1999) 283, from memory)", () => {
    // F_r - 1 = pi^2 w^2 mu0^2 N^2 d^6 / (768 rho^2 b^2) for one strand
    const turns = 400;
    const length = 50;
    const meanSquare = (MU0 * turns) ** 2 / (3 * breadth ** 2);
    const extra = proximityResistance(radius, rho, omega, ratio(x), meanSquare, length);
    const dc = (rho * length) / (Math.PI * radius ** 2);
    const d = 2 * radius;
    const published = (Math.PI * omega * MU0 * turns * d ** 3) ** 2 / (768 * (rho * breadth) ** 2);
    // x = 0.17: the published formula is the low-frequency limit, x^4/100 off
    expect(extra / dc / published).toBeCloseTo(1, 4);
  });

  it("agrees with Dowell's layers of round wire within the 5 % that his square wire stands for (Proc. IEE 113 (1966) 1387, from memory)", () => {
    // F_R - 1 = (5 m^2 - 1) D^4 / 45, D = (pi/4)^(3/4) (d / skin depth) sqrt(porosity), low frequency
    const layers = 20;
    const porosity = 0.85;
    const { turns } = depth(layers, porosity);
    const meanSquare = (MU0 * turns) ** 2 / (3 * breadth ** 2);
    const extra = proximityResistance(radius, rho, omega, ratio(x), meanSquare, 1);
    const dc = rho / (Math.PI * radius ** 2);
    const skinDepth = Math.sqrt((2 * rho) / (omega * MU0));
    const D = (Math.PI / 4) ** 0.75 * ((2 * radius) / skinDepth) * Math.sqrt(porosity);
    const dowell = ((5 * layers ** 2 - 1) * D ** 4) / 45;
    expect(extra / dc / dowell).toBeGreaterThan(0.94);
    expect(extra / dc / dowell).toBeLessThan(0.97);
  });

  it("agrees with a wire maker's worked example of litz, 450 strands of AWG 40: 1.034 times dc at 100 kHz", () => {
    // seen on page 131 of the catalogue at newenglandwire.com; its formula H + K (N d / D)^2 G, G = (d sqrt(f) / 10.44)^4 with d in
    // inches, K = 2 for many strands (from memory), gives the cable's diameter D: N d / D = 14.9. A straight cable is round,
    // so the mean square of its own field is half of that at its rim.
    const strand = 0.0031 * 0.0254;
    const packed = 14.9;
    const hertz = 2 * Math.PI * 100e3;
    const argument = skinArgument(strand / 2, rho, 1, hertz);
    const skin = { resistanceRatio: 0, inductanceRatio: 0 };
    skinEffect(argument, skin);
    const dc = rho / (Math.PI * (strand / 2) ** 2);
    const rim = (MU0 * packed) / (Math.PI * strand);
    const extra = proximityResistance(strand / 2, rho, hertz, ratio(argument), rim ** 2 / 2, 1);
    expect(Math.abs((skin.resistanceRatio * dc + extra) / dc - 1.0344)).toBeLessThan(0.006);
  });
});

const BESSEL_RATIOS: readonly (readonly [x: number, ratio: number])[] = [
  [0.1, 0.999997135425221],
  [1, 0.972184730685762],
  [2, 0.689791018449969],
  [5, 0.0773113654201518],
  [10, 0.0104998462221028],
  [30, 0.000409091610943086],
];
