import { describe, expect, it } from 'vitest';
import type { GapResponse } from '../../src/kernel/gap-response.ts';
import { type MovingRig, SmallMotionSolver } from '../../src/kernel/small-motion.ts';

const OMEGA = 2 * Math.PI * 50;

/** One spatial frequency over a thin sheet: D = q e^{-k (g1 + g2)} Gamma, Gamma = -p tau / (1 + p tau), at g = 0. */
function sheet(q: number, k: number, tau: number): GapResponse & { curvature: number } {
  const response = {
    valueRe: 0,
    valueIm: 0,
    slopeRe: 0,
    slopeIm: 0,
    mixedRe: 0,
    mixedIm: 0,
    curvature: 0,
    evaluate(pRe: number, pIm: number) {
      const [a, b] = [1 + pRe * tau, pIm * tau];
      const d = a * a + b * b;
      const re = (-(pRe * tau * a + pIm * tau * b) * q) / d;
      const im = (-(pIm * tau * a - pRe * tau * b) * q) / d;
      Object.assign(response, { valueRe: re, valueIm: im, slopeRe: -k * re, slopeIm: -k * im });
      Object.assign(response, { mixedRe: k * k * re, mixedIm: k * k * im });
    },
  };
  response.evaluate(0, OMEGA);
  response.curvature = 4 * response.mixedRe;
  return response;
}

function rig(response: { curvature: number }, more: Partial<MovingRig> = {}): MovingRig {
  return {
    mass: 3,
    drag: 0,
    omega: OMEGA,
    current: 12,
    // lift falls with the gap: d2 Re dL / dg2 < 0
    curvature: response.curvature,
    voltageHeld: false,
    resistance: 2,
    freeInductance: 0.04,
    capacitance: Number.NaN,
    ...more,
  };
}

describe('small motion over one thin sheet at one spatial frequency', () => {
  it('is damped by I^2 k^2 q tau (1 - w^2 tau^2) / (1 + w^2 tau^2)^2 in all, by either sign of it', () => {
    const [q, k] = [8e-3, 8];
    const solver = new SmallMotionSolver();
    for (const x of [0.3, 0.7, 0.95, 1.05, 2, 5]) {
      const tau = x / OMEGA;
      const response = sheet(q, k, tau);
      const moving = rig(response, { current: 3 });
      const { growth, neededDrag } = solver.solve(moving, response);
      const damping = (3 * 3 * k * k * q * tau * (1 - x * x)) / (1 + x * x) ** 2;
      // a bounce of 1 Hz beside 50 Hz leaves its square and what it shifts the zero at w tau = 1 by
      const scale = (3 * 3 * k * k * q * tau) / (1 + x * x) ** 2;
      expect(Math.abs(growth + damping / 6) * 6).toBeLessThan(0.01 * scale);
      expect(Math.abs(neededDrag - Math.max(0, -damping))).toBeLessThan(0.01 * scale);
    }
  });

  it('answers drag like any oscillator', () => {
    const response = sheet(8e-3, 8, 2 / OMEGA);
    const solver = new SmallMotionSolver();
    const free = { ...solver.solve(rig(response), response) };
    const dragged = { ...solver.solve(rig(response, { drag: 1.2 }), response) };
    // growth falls by c / 2m, but for the square of that over the bounce
    expect(dragged.growth).toBeCloseTo(free.growth - 0.2, 4);
    expect(dragged.neededDrag).toBe(free.neededDrag);
  });

  it('at held voltage of a winding without resistance keeps the flux, so that its stiffness is (I^2 / 2) L (1 / L)" L', () => {
    // a perfect plate and R = 0: the flux L I is held, force = -(1/2) flux^2 d(1/L)/dg, L = L0 + D
    const response = sheet(8e-3, 8, 1e6);
    const lossless = rig(response, { voltageHeld: true, resistance: 0 });
    const { frequency } = new SmallMotionSolver().solve(lossless, response);
    const [l, slope, curvature] = [0.04 - 8e-3, 2 * 8 * 8e-3, -4 * 64 * 8e-3];
    const stiffness = 144 * ((slope * slope) / l - curvature / 2);
    expect(frequency / (Math.sqrt(stiffness / 3) / (2 * Math.PI))).toBeCloseTo(1, 4);
  });

  it('has no bounce where the lift rises with the gap', () => {
    const response = sheet(-8e-3, 8, 2 / OMEGA);
    const { growth, frequency, neededDrag } = new SmallMotionSolver().solve(rig(response), response);
    expect([growth, frequency, neededDrag]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });
});
