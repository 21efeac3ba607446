import { afterEach, describe, expect, it, vi } from 'vitest';
import type { RigHeat } from '../../src/kernel/rig-heat.ts';
import { TimeToLimit } from '../../src/kernel/time-to-limit.ts';
import { WarmUp } from '../../src/kernel/warm-up.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { type Design, FOYER, SOCKET, slotsOf } from '../support/design.ts';
import { usualRig } from '../support/random-rig.ts';

/** Fourth-order steps in time of the laws themselves, none longer than 0.5 K of the winding, until the limit. */
function inFineSteps(heat: RigHeat, from: Float64Array, limit: number): number {
  const y = from.slice(0, 2);
  const end = y.slice();
  const place = y.slice();
  const rate = new Float64Array(heat.windings.length + 1);
  const decay = rate.slice();
  const first = y.slice();
  const sum = y.slice();
  const step = (h: number): number => {
    sum.set(first);
    let last = first;
    for (const [part, weight] of [
      [0.5, 2],
      [0.5, 2],
      [1, 1],
    ] as const) {
      for (let i = 0; i < 2; i++) place[i] = y[i]! + part * h * last[i]!;
      heat.rates(place, rate, null);
      last = rate.slice(0, 2);
      for (let i = 0; i < 2; i++) sum[i] = sum[i]! + weight * last[i]!;
    }
    for (let i = 0; i < 2; i++) end[i] = y[i]! + (h / 6) * sum[i]!;
    return heat.hottestAt(end) - limit;
  };
  heat.rates(y, rate, null);
  let below = heat.hottestAt(y) - limit;
  for (let time = 0, n = 0; n < 40_000; n++) {
    heat.rates(y, rate, decay);
    first.set(rate.subarray(0, 2));
    const slow = Math.min(0.5 / Math.abs(first[0]!), 3 / Math.abs(first[1]!));
    const h = Math.min(slow, 0.2 / decay[0]!, 0.5 / decay[1]!);
    const above = step(h);
    if (above >= 0) return time + (h * below) / (below - above);
    time += h;
    below = above;
    y.set(end);
  }
  return Number.NaN;
}

/** What is found over what fine steps find, less 1; of every design whose only winding comes to its limit without a load. */
function errors(designs: readonly Design[]): number[] {
  const found: number[] = [];
  const { times } = WarmUp.prototype;
  vi.spyOn(WarmUp.prototype, 'times').mockImplementation(function (this: WarmUp, from, goal, out) {
    times.call(this, from, goal, out);
    const { heat } = this as unknown as { heat: RigHeat };
    if (!goal.reachesLimit || goal.reachesPlate || heat.unknowns !== 2 || out.limit === 0) return;
    found.push(Math.abs(out.limit / inFineSteps(heat, from, goal.limit) - 1));
  });
  const layouts = new Map<string, ReturnType<typeof createLaws>>();
  for (const design of designs) {
    const count = (path: RegExp) => Object.keys(design).filter((name) => path.test(name)).length;
    const layers = count(/^plate\.layers\.\d\.thickness$/);
    const windings = count(/^coil\.windings\.\d\.turns$/);
    const key = `${layers} ${windings}`;
    const laws = layouts.get(key) ?? createLaws(layers, windings);
    layouts.set(key, laws);
    laws.evaluate(slotsOf(design));
  }
  return found.sort((a, b) => a - b);
}

afterEach(() => {
  vi.restoreAllMocks();
});

describe('WarmUp of one winding', () => {
  it('is within 0.4 % of fine steps of the laws, 1 % in the worst case, for random rigs', () => {
    const found = errors(Array.from({ length: 500 }, (_, i) => usualRig(7, i)));
    expect(found.length).toBeGreaterThan(120);
    expect(found[Math.floor(0.95 * found.length)]!).toBeLessThan(4e-3);
    expect(found.at(-1)!).toBeLessThan(1e-2);
  });

  it('is so where plate and winding warm together, within 1.5 % where the limit is only just reached', () => {
    const designs: Design[] = [];
    for (let thickness = 0; thickness < 6; thickness++) {
      for (let current = 0; current < 9; current++) {
        for (let turns = 0; turns < 5; turns++) {
          designs.push({
            ...FOYER,
            ...SOCKET,
            'standoff.breakdown': 2e7,
            'plate.edge': 0,
            'plate.layers.0.thickness': 1e-3 * 12 ** (thickness / 5),
            'drive.current': 10 + 0.75 * current,
            'coil.turns': 300 + 50 * turns,
          });
        }
      }
    }
    const found = errors(designs);
    expect(found.length).toBeGreaterThan(200);
    expect(found[Math.floor(0.5 * found.length)]!).toBeLessThan(1e-3);
    expect(found[Math.floor(0.9 * found.length)]!).toBeLessThan(4e-3);
    expect(found.at(-1)!).toBeLessThan(1.5e-2);
  });
});

describe('TimeToLimit with linear flows', () => {
  const START = 293;
  /** W, W/K, J/K: two bodies that give off heat to the room and to each other; the hottest place is 10 % over the mean. */
  function linear(changes: Partial<typeof BODIES>): { heat: RigHeat; evaluations: () => number } {
    const b = { ...BODIES, ...changes };
    let evaluations = 0;
    const winding = {
      plateHelp: b.between,
      plateGrowth: b.between,
      madeSlope: 0,
      hottest: 0,
      body: { heatCapacity: b.capacity },
    };
    const rates = (y: Float64Array, rate: Float64Array, decay: Float64Array | null) => {
      evaluations++;
      const own = y[0]! - START;
      const plate = y[1]! - START;
      winding.hottest = y[0]! + 0.1 * own;
      rate[0] = (b.loss - b.toRoom * own - b.between * (own - plate)) / b.capacity;
      rate[1] = (b.plateLoss - b.plateToRoom * plate + b.between * (own - plate)) / b.plateCapacity;
      if (decay === null) return;
      decay[0] = (b.toRoom + b.between) / b.capacity;
      decay[1] = (b.plateToRoom + b.between) / b.plateCapacity;
    };
    const heat = { plateHeld: false, plate: { capacity: b.plateCapacity }, windings: [winding], rates };
    return { heat: heat as unknown as RigHeat, evaluations: () => evaluations };
  }
  const BODIES = {
    loss: 150,
    toRoom: 1.2,
    between: 0.8,
    capacity: 2000,
    plateLoss: 100,
    plateToRoom: 2,
    plateCapacity: 8000,
  };

  /** Mean over the start after a time by both modes, K. */
  function meanAfter(b: typeof BODIES, time: number): number {
    const a11 = (b.toRoom + b.between) / b.capacity;
    const a12 = b.between / b.capacity;
    const a21 = b.between / b.plateCapacity;
    const a22 = (b.plateToRoom + b.between) / b.plateCapacity;
    const determinant = a11 * a22 - a12 * a21;
    const f1 = b.loss / b.capacity;
    const f2 = b.plateLoss / b.plateCapacity;
    const rest1 = (a22 * f1 + a12 * f2) / determinant;
    const half = Math.sqrt(((a11 - a22) / 2) ** 2 + a12 * a21);
    const slow = (a11 + a22) / 2 - half;
    const fast = (a11 + a22) / 2 + half;
    // x = rest + p e^-slow t + q e^-fast t with x = 0 and x' = f1 at the start
    const p = (f1 - fast * rest1) / (fast - slow);
    return rest1 + p * Math.exp(-slow * time) - (rest1 + p) * Math.exp(-fast * time);
  }

  it.each([
    ['a plate slower than the winding', {}, 5],
    ['a faster one', { plateCapacity: 400 }, 5],
    ['a winding that is far from rest', { loss: 2000 }, 5],
    ['a plate that hardly matters', { between: 0.01 }, 5],
    // its course is found by a second and a third pass, four more each
    ['a plate that heats the winding', { plateLoss: 600, loss: 60 }, 13],
    // 4 % beyond the limit: in stretches
    ['a winding that comes to rest just beyond', { loss: 129, plateLoss: 0 }, 30],
  ])('is exact to 5e-4 against both modes: %s', (_name, changes, most) => {
    const { heat, evaluations } = linear(changes);
    const toLimit = new TimeToLimit(heat);
    expect(toLimit.find(Float64Array.of(START, START), START + 77)).toBe(true);
    expect(toLimit.mean - START).toBeCloseTo(70, 3);
    expect(evaluations()).toBeLessThanOrEqual(most);
    let low = 0;
    let high = 1e5;
    while (high - low > 1e-6 * high) {
      const middle = (low + high) / 2;
      if (meanAfter({ ...BODIES, ...changes }, middle) < 70) low = middle;
      else high = middle;
    }
    expect(Math.abs(toLimit.time / low - 1)).toBeLessThan(5e-4);
  });

  it('finds nothing where the winding never gets there', () => {
    const toLimit = new TimeToLimit(linear({ loss: 40, plateLoss: 0 }).heat);
    expect(toLimit.find(Float64Array.of(START, START), START + 77)).toBe(false);
  });

  it('is nothing where the start is as hot', () => {
    const toLimit = new TimeToLimit(linear({}).heat);
    expect(toLimit.find(Float64Array.of(START, START), START - 1)).toBe(true);
    expect(toLimit.time).toBe(0);
  });
});
