import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CoilWinding } from '../../../src/kernel/disc/coil-source.ts';
import { createDiscModes } from '../../../src/kernel/disc/disc-modes.ts';
import { resolveDisc } from '../../../src/kernel/disc/disc-resolution.ts';
import type { DiscSpec } from '../../../src/kernel/disc/disc-spec.ts';
import { readBounce } from '../../../src/kernel/motion/bounce.ts';
import { createCoupledModes } from '../../../src/kernel/motion/coupled-modes.ts';
import { MovingCoil } from '../../../src/kernel/motion/moving-coil.ts';

const OMEGA = 2 * Math.PI * 50;
/** TEAM Workshop Problem 28; geometry, conductivity, mass and current as published (see studies/two-coil-benchmark.yaml). */
const WINDINGS: readonly CoilWinding[] = [
  { innerRadius: 0.027, outerRadius: 0.055, height: 0.052, offset: 0, turns: 960, sense: 1 },
  { innerRadius: 0.08, outerRadius: 0.095, height: 0.052, offset: 0, turns: 576, sense: -1 },
];
const DISC: DiscSpec = {
  radius: 0.065,
  innerRadius: 0,
  layers: [{ thickness: 3e-3, resistivity: 1 / 3.4e7 }],
  angularFrequency: OMEGA,
};
const REST = 3.8e-3;

/** The measured curve, s and m: the file says where it comes from. */
function measured(): { time: number; gap: number }[] {
  const text = readFileSync(
    new URL('../../fixtures/levitation-benchmark-measured.csv', import.meta.url),
    'utf8',
  );
  const rows = text.split('\n').filter((line) => /^\d/.test(line));
  return rows.map((row) => {
    const [ms, mm] = row.split(',').map(Number);
    return { time: ms! / 1000, gap: mm! / 1000 };
  });
}

function benchmark(step = 1e-4, drag = 0) {
  const modes = createDiscModes(DISC, resolveDisc(DISC, WINDINGS, REST));
  const coupled = createCoupledModes(modes, WINDINGS, OMEGA, REST, 0.08);
  const rig = {
    mass: 0.107,
    drag,
    standoff: REST,
    restitution: 0.3,
    held: false,
    resistance: 5,
    freeInductance: 0.1,
    capacitance: Number.NaN,
  };
  const feed = { given: true, at: (t: number) => 20 * Math.sin(OMEGA * t), open: () => false };
  return { moving: new MovingCoil(rig, coupled, feed, step), coupled };
}

/** Gaps at the times 0, step, 2 step ... */
function run(moving: MovingCoil, seconds: number, step: number): Float64Array {
  const steps = Math.round(seconds / step);
  const gaps = new Float64Array(steps + 1);
  gaps[0] = moving.gap;
  for (let i = 1; i <= steps; i++) {
    moving.advance();
    gaps[i] = moving.gap;
  }
  return gaps;
}

describe('the published levitation benchmark, measured', () => {
  const curve = measured();
  const STEP = 1e-4;
  const { moving } = benchmark();
  const gaps = run(moving, 3, STEP);
  const bounce = readBounce(gaps, STEP, 50);
  // the measured curve at even times, so that the same code reads both
  const even = Float64Array.from({ length: 1700 }, (_, i) => interpolate(curve, i / 1000));
  const seen = readBounce(even, 1e-3, 50);
  const settled = gaps[gaps.length - 1]!;

  it('jumps as high as measured, within 1.5 mm', () => {
    expect(seen.peaks[0]).toBeCloseTo(18.2e-3, 3);
    expect(Math.abs(bounce.peaks[0]! - Math.max(...curve.map(({ gap }) => gap)))).toBeLessThan(1.5e-3);
  });

  it('settles where measured, within 0.3 mm', () => {
    expect(curve.at(-1)!.time).toBeGreaterThan(1.6);
    expect(Math.abs(settled - 11.3e-3)).toBeLessThan(0.3e-3);
  });

  it('bounces as often, within 6 %, and dies away likewise', () => {
    expect(seen.frequency).toBeCloseTo(6.84, 0);
    expect(Math.abs(bounce.frequency / 6.84 - 1)).toBeLessThan(0.06);
    // published decay 3.35 1/s; there is air in a laboratory and none here
    expect(bounce.growth).toBeLessThan(-2.5);
    expect(bounce.growth).toBeGreaterThan(-3.5);
  });

  it('follows the curve over 1.7 s to 1 mm rms at its own time, and better when shifted by 10 ms', () => {
    const rms = (shift: number) => {
      const squares = curve.map(({ time, gap }) => {
        const at = Math.max(0, Math.round((time + shift) / STEP));
        return (gaps[at]! - gap) ** 2;
      });
      return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
    };
    expect(rms(0)).toBeLessThan(1e-3);
    expect(rms(-0.01)).toBeLessThan(0.7e-3);
  });

  it('accounts for its energy', () => {
    const { supplied, windingLoss, plateLoss, dragLoss, landingLoss } = moving.energy;
    const balance = supplied - windingLoss - plateLoss - dragLoss - landingLoss - moving.stored;
    // of what did not just warm the winding; 1e-3 is asked for, and a loss taken at the end of each step would show
    expect(Math.abs(balance) / plateLoss).toBeLessThan(1e-5);
  });

  it('is independent of the step: a tenth of it changes the first peak by less than 0.05 mm', () => {
    const fine = readBounce(run(benchmark(1e-5).moving, 0.2, 1e-5), 1e-5, 50);
    expect(Math.abs(fine.peaks[0]! - bounce.peaks[0]!)).toBeLessThan(0.05e-3);
  });
});

function interpolate(curve: readonly { time: number; gap: number }[], time: number): number {
  const after = Math.max(
    1,
    curve.findIndex((point) => point.time >= time),
  );
  const [a, b] = [curve[after - 1]!, curve[after]!];
  return a.gap + ((b.gap - a.gap) * (time - a.time)) / (b.time - a.time);
}
