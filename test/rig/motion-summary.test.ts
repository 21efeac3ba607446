import { describe, expect, it } from 'vitest';
import type { MotionRun } from '../../src/kernel/motion/motion-run.ts';
import { summariseMotion } from '../../src/rig/motion-summary.ts';
import type { PreparedMotion } from '../../src/rig/prepare-motion.ts';

const STANDOFF = 0.002;
const STEADY = 0.012;
const STEP = 1e-3;

/** A bounce made up: it rises to 17 mm of gap, then rings at 3 Hz about 12 mm and dies away at 2 1/s; 4 s of it. */
function made(changes: Partial<PreparedMotion> = {}): PreparedMotion {
  const gaps = Float64Array.from({ length: 4001 }, (_, i) => {
    const t = i * STEP;
    return STEADY - 0.01 * Math.exp(-2 * t) * Math.cos(2 * Math.PI * 3 * t);
  });
  const run = {
    gaps,
    step: STEP,
    time: 4,
    highest: 0.017,
    highestTime: 0.16,
    lost: false,
    peakCurrent: 20,
    peakCurrentTime: 0.005,
    hardestLanding: 0.5,
    hardestLandingTime: 3.5,
  } as unknown as MotionRun;
  const drive = {
    quantity: 'current',
    from: 12,
    to: 12,
    rise: 0,
    cutAt: Number.POSITIVE_INFINITY,
    phase: 0,
  } as const;
  return {
    run,
    drive,
    standoff: STANDOFF,
    steadyGap: STEADY,
    mass: 4,
    headroom: 0.1,
    liftoffCurrent: 5,
    liftoffVoltage: 100,
    frequency: 50,
    ...changes,
  };
}

describe('summariseMotion', () => {
  it('counts heights from where it rests, and clearance from there to the ceiling', () => {
    const summary = summariseMotion(made());
    expect(summary.highest).toBeCloseTo(0.015, 12);
    expect(summary.steadyHeight).toBeCloseTo(0.01, 12);
    expect(summary.clearance).toBeCloseTo(0.1 - 0.015, 12);
    expect(summary.overshoot).toBeCloseTo(0.005, 12);
    expect(summary.everLifted).toBe(true);
  });

  it('reads frequency and decay of the bounce after the jump', () => {
    const { bounceFrequency, bounceGrowth } = summariseMotion(made());
    // extrema of sampled values: a step of 1 ms in half a period of 167 ms
    expect(Math.abs(bounceFrequency / 3 - 1)).toBeLessThan(0.01);
    expect(Math.abs(bounceGrowth / -2 - 1)).toBeLessThan(0.03);
  });

  it('gives a landing the energy of its mass at its speed', () => {
    expect(summariseMotion(made()).landingEnergy).toBeCloseTo(0.5, 12);
  });

  it('knows no overshoot where nothing floats in the end', () => {
    const { overshoot, steadyHeight, settlingTime } = summariseMotion(made({ steadyGap: Number.NaN }));
    expect([overshoot, steadyHeight, settlingTime]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });
});
