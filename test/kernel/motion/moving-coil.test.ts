import { describe, expect, it } from 'vitest';
import { GRAVITY } from '../../../src/kernel/constants.ts';
import { readBounce } from '../../../src/kernel/motion/bounce.ts';
import type { CoupledModes } from '../../../src/kernel/motion/coupled-modes.ts';
import { type Feed, MovingCoil, type MovingCoilRig } from '../../../src/kernel/motion/moving-coil.ts';

const OMEGA = 2 * Math.PI * 50;

const RIG: MovingCoilRig = {
  mass: 3,
  drag: 0,
  standoff: 2e-3,
  restitution: 0.3,
  held: false,
  resistance: 2.5,
  freeInductance: 0.04,
  capacitance: Number.NaN,
};

/** A plate of modes that all couple as s e^{-k gap}. */
function plate(...modes: readonly { s: number; k: number; rate: number }[]): CoupledModes {
  const coupling = new Float64Array(modes.length);
  const slope = new Float64Array(modes.length);
  return {
    count: modes.length,
    rates: Float64Array.from(modes, ({ rate }) => rate),
    nearest: 0,
    farthest: 1,
    coupling,
    slope,
    evaluate(gap) {
      modes.forEach(({ s, k }, n) => {
        coupling[n] = s * Math.exp(-k * gap);
        slope[n] = -k * coupling[n]!;
      });
    },
  };
}

const TABLE = plate(
  { s: 0.1, k: 8, rate: 60 },
  { s: 0.08, k: 14, rate: 250 },
  { s: 0.03, k: 40, rate: 3000 },
);

function feed(amplitude: number, more: Partial<Feed> = {}): Feed {
  return { given: false, at: (t) => amplitude * Math.sin(OMEGA * t), open: () => false, ...more };
}

function balance({ energy, stored }: MovingCoil): number {
  const { supplied, windingLoss, plateLoss, dragLoss, landingLoss, switchLoss } = energy;
  return supplied - windingLoss - plateLoss - dragLoss - landingLoss - switchLoss - stored;
}

describe('rigid limits', () => {
  it('falls freely without currents: v^2 = 2 g h, and lands with what its restitution leaves', () => {
    const moving = new MovingCoil(RIG, plate(), feed(0), 1e-4);
    moving.place(0.042);
    while (Number.isNaN(moving.landingSpeed)) moving.advance();
    expect(moving.landingSpeed).toBeCloseTo(Math.sqrt(2 * GRAVITY * 0.04), 12);
    expect(moving.landingTime).toBeCloseTo(Math.sqrt((2 * 0.04) / GRAVITY), 12);
    expect(moving.speed / moving.landingSpeed).toBeCloseTo(0.3, 2);
    for (let i = 0; i < 20_000; i++) moving.advance();
    expect(moving.resting).toBe(true);
    expect(moving.gap).toBe(2e-3);
    // all its height has gone into landings, but for what Verlet's steps leave at each
    expect(moving.energy.landingLoss / (3 * GRAVITY * 0.04)).toBeCloseTo(1, 3);
  });

  it('sinks against drag as the textbook says: v = (m g / c)(1 - e^{-ct/m})', () => {
    const moving = new MovingCoil({ ...RIG, drag: 20 }, plate(), feed(0), 1e-4);
    moving.place(1);
    for (let i = 0; i < 3000; i++) moving.advance();
    const wanted = ((-3 * GRAVITY) / 20) * (1 - Math.exp((-20 * 0.3) / 3));
    // second order in the step
    expect(moving.speed / wanted).toBeCloseTo(1, 7);
  });

  it('switches on a held coil without a plate as R and L: the offset dies with L/R', () => {
    const held = { ...RIG, held: true };
    for (const phase of [0, Math.PI / 2, 1.3]) {
      const u = (t: number) => 100 * Math.sin(OMEGA * t + phase);
      const moving = new MovingCoil(held, plate(), feed(0, { at: u }), 1e-5);
      const angle = phase - Math.atan2(OMEGA * 0.04, 2.5);
      const size = 100 / Math.hypot(2.5, OMEGA * 0.04);
      for (let i = 0; i < 5000; i++) moving.advance();
      const wanted =
        size * (Math.sin(OMEGA * 0.05 + angle) - Math.sin(angle) * Math.exp((-0.05 * 2.5) / 0.04));
      expect(Math.abs(moving.current - wanted)).toBeLessThan(1e-4 * size);
    }
  });

  it('rings with a series capacitor at the frequency of L and C', () => {
    const held = { ...RIG, held: true, resistance: 0, capacitance: 50e-6 };
    const moving = new MovingCoil(held, plate(), feed(0, { at: () => 10 }), 1e-5);
    const rate = 1 / Math.sqrt(0.04 * 50e-6);
    for (let i = 0; i < 3000; i++) moving.advance();
    expect(moving.capacitorVoltage).toBeCloseTo(10 * (1 - Math.cos(rate * 0.03)), 2);
    expect(moving.current).toBeCloseTo(10 * 50e-6 * rate * Math.sin(rate * 0.03), 4);
    expect(Math.abs(balance(moving))).toBeLessThan(1e-9);
  });
});

describe('energy', () => {
  it('closes to 1e-3 of what moves, at switch-on, landing, with drag, capacitor and a cut', () => {
    const runs: [string, MovingCoilRig, Feed][] = [
      ['voltage', RIG, feed(150)],
      ['high voltage, drag', { ...RIG, drag: 1 }, feed(220)],
      ['given current', RIG, feed(18, { given: true })],
      ['capacitor', { ...RIG, capacitance: 300e-6 }, feed(60)],
      ['cut', RIG, feed(180, { open: (t) => t > 0.5 })],
      ['no restitution', { ...RIG, restitution: 0 }, feed(180, { open: (t) => t > 0.5 })],
    ];
    for (const [name, rig, fed] of runs) {
      const moving = new MovingCoil(rig, TABLE, fed, 1e-4);
      for (let i = 0; i < 10_000; i++) moving.advance();
      const { plateLoss, windingLoss } = moving.energy;
      expect(Math.abs(balance(moving)) / (plateLoss + windingLoss), name).toBeLessThan(1e-3);
    }
  });
});

describe('accuracy', () => {
  it('is of second order in the step while it flies', () => {
    // gaps every 10 ms of 0.2 s
    const at = (step: number) => {
      const moving = new MovingCoil({ ...RIG, standoff: 1e-3 }, TABLE, feed(150), step);
      moving.placeSteady(0.02, 10, OMEGA, 0);
      return Array.from({ length: 20 }, () => {
        for (let i = 0; i < Math.round(0.01 / step); i++) moving.advance();
        return moving.gap;
      });
    };
    const exact = at(2.5e-6);
    const errors = [2e-4, 1e-4, 5e-5].map((step) => Math.hypot(...at(step).map((gap, i) => gap - exact[i]!)));
    const orders = [Math.log2(errors[0]! / errors[1]!), Math.log2(errors[1]! / errors[2]!)];
    for (const order of orders) {
      expect(order).toBeGreaterThan(1.8);
      expect(order).toBeLessThan(2.3);
    }
  });

  it('grows and dies as the closed form of a thin sheet says, held current', () => {
    for (const x of [0.5, 3]) {
      const tau = x / OMEGA;
      const [s, k, mass] = [0.25, 8, 3];
      const sheet = plate({ s, k, rate: 1 / tau });
      // D = s^2 e^{-2kg} Gamma: lift I^2 k s^2 e^{-2kg} x^2 / (1 + x^2) carries the weight
      const gap = 0.02;
      const q = s * s * Math.exp(-2 * k * gap);
      const current = Math.sqrt((mass * GRAVITY * (1 + x * x)) / (k * q * x * x));
      const given = feed(0, { given: true, at: (t) => Math.SQRT2 * current * Math.cos(OMEGA * t) });
      const moving = new MovingCoil({ ...RIG, standoff: 1e-3 }, sheet, given, 1e-4);
      moving.placeSteady(gap, current, OMEGA, 0);
      moving.gap += 1e-4;
      const gaps = Float64Array.from({ length: 60_000 }, () => {
        moving.advance();
        return moving.gap;
      });
      const damping = (current * current * k * k * q * tau * (1 - x * x)) / (1 + x * x) ** 2;
      const { growth } = readBounce(gaps, 1e-4, 50, 0.5);
      // the bounce over the supply's frequency, squared, and the amplitude of the bounce leave some per cent
      expect(growth / (-damping / (2 * mass)), `w tau = ${x}`).toBeGreaterThan(0.95);
      expect(growth / (-damping / (2 * mass)), `w tau = ${x}`).toBeLessThan(1.05);
    }
  });
});
