import { afterEach, describe, expect, it, vi } from 'vitest';
import { quantile } from '../../src/math/quantile.ts';
import { createRandom } from '../../src/math/random.ts';
import { inputByPath } from '../../src/model/inputs.ts';
import { Q, QUANTITIES } from '../../src/model/quantities.ts';
import { isEvaluated } from '../../src/model/status.ts';
import type { Tolerance } from '../../src/model/study.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { NearRigs } from '../../src/rig/near-rigs.ts';
import { neededLaws } from '../../src/rig/needed-laws.ts';
import { createTries, TRIES, type Tries } from '../../src/rig/tries.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';
import { nightly, whole } from '../support/nightly.ts';
import { usualRig } from '../support/random-rig.ts';

/** All that rigs within tolerances are interpolated for. */
const READ = new Set(
  QUANTITIES.filter(({ effort, index }) => effort === 0 && !neededLaws(new Set([index])).insulation).map(
    ({ index }) => index,
  ),
);

interface Scene {
  readonly slots: Float64Array;
  readonly layers: number;
  readonly windings: number;
  readonly tolerance: readonly Tolerance[];
}

function within(path: string, size: number, rest: Partial<Tolerance> = {}): Tolerance {
  const { slot, integer } = inputByPath(path)!;
  const open = { minimum: integer ? 1 : 1e-30, maximum: Number.MAX_VALUE };
  return { path, slot, integer, size, relative: true, distribution: 'normal', ...open, ...rest };
}

const WORKSHOP: readonly Tolerance[] = [
  within('plate.layers.0.metal.resistivity', 0.02),
  within('plate.layers.0.thickness', 0.01),
  within('standoff', 0.03),
  within('coil.extra_mass', 0.05),
  within('coil.wire', 0.005),
  within('coil.turns', 2, { relative: false, distribution: 'uniform' }),
  within('coil.inner_radius', 0.005),
  within('coil.windings.0.turns', 1, { relative: false, distribution: 'uniform' }),
  within('coil.windings.0.offset', 0.05),
  within('drive.current', 0.01),
  within('drive.voltage', 0.01),
  within('supply.series_resistance', 0.05),
];

function laws({ layers, windings }: Pick<Scene, 'layers' | 'windings'>) {
  return createLaws(layers, windings);
}

/** A random rig near or above its lift-off with some of the workshop's tolerances, wide or a disc; null where it is neither. */
function scene(number: number, disc: boolean): Scene | null {
  const random = createRandom(11, number, 7);
  const rig: Record<string, number> = { ...usualRig(11, number) };
  const count = (pattern: RegExp) => Object.keys(rig).filter((path) => pattern.test(path)).length;
  const kind = {
    layers: count(/^plate\.layers\.\d\.thickness$/),
    windings: count(/^coil\.windings\.\d\.turns$/),
  };
  const found = laws(kind);
  found.evaluate(slotsOf(rig));
  const drives = { 'drive.current': Q.liftoff_current, 'drive.voltage': Q.liftoff_voltage };
  for (const [path, index] of Object.entries(drives)) {
    const liftoff = found.results[index]!;
    if (rig[path] !== undefined && liftoff > 0) rig[path] = liftoff * (0.95 + 0.6 * random.unit());
  }
  const slots = slotsOf(rig);
  found.evaluate(slots);
  if (!isEvaluated(found.status) || !(found.results[Q.current]! > 0)) return null;
  if ((found.results[Q.plate_model] === 1) !== disc) return null;
  const scale = [0.2, 1, 3][random.below(3)]!;
  // a disc for each of 256 rigs takes a while
  const plate = !disc || random.unit() < 0.1;
  const tolerance = WORKSHOP.filter(({ path }) => {
    const value = rig[path];
    return (
      value! > 0 &&
      value! < Number.POSITIVE_INFINITY &&
      (plate || !path.startsWith('plate')) &&
      random.unit() > 0.45
    );
  }).map((each) => ({ ...each, size: each.size * scale }));
  return tolerance.length === 0 ? null : { ...kind, slots, tolerance };
}

function scenes(count: number, disc: boolean): Scene[] {
  const found: Scene[] = [];
  for (let number = 0; found.length < count; number++) {
    const next = scene(number, disc);
    if (next) found.push(next);
  }
  return found;
}

function tries({ slots, layers, windings, tolerance }: Scene, interpolates: boolean): Tries {
  const rig = { slots, plateLayers: layers, windings, texts: {} };
  return createTries({ rig }, tolerance, [], READ, interpolates);
}

function columnOf({ rows }: Tries, index: number): Float64Array {
  return rows.quantities.slice(index * TRIES, (index + 1) * TRIES);
}

/**
 * Compares statistics of interpolated rigs with those of the same rigs one by one.
 * @returns how many of them were interpolated
 * @param scatter by which exact values jump where nodes or the polynomials of a disc change, relative
 */
function compare(all: readonly Scene[], scatter: number): number {
  const settled = vi.spyOn(NearRigs.prototype, 'settle');
  for (const each of all) {
    const near = tries(each, true);
    const plain = tries(each, false);
    near.run(each.slots);
    plain.run(each.slots);
    const differ = near.rows.status.filter((status, k) => status !== plain.rows.status[k]).length;
    // a probability of 256 rigs is known to 8 of them
    expect(differ).toBeLessThanOrEqual(1);
    for (const index of READ) {
      const [a, b] = [columnOf(near, index), columnOf(plain, index)];
      expect(a.filter(Number.isNaN).length).toBe(b.filter(Number.isNaN).length);
      const [low, middle, high] = [0.05, 0.5, 0.95].map((fraction) => quantile(b.slice(), fraction));
      const spread = high! - low!;
      if (!(spread > 0 && spread < Number.POSITIVE_INFINITY)) continue;
      // 5 % of 256 rigs are known to 0.0136 of the distribution: of a normal to 0.04 of what lies between both quantiles.
      // Half of that
      const allowed = 0.02 * spread + scatter * Math.abs(middle!);
      expect(Math.abs(quantile(a.slice(), 0.05) - low!)).toBeLessThanOrEqual(allowed);
      expect(Math.abs(quantile(a.slice(), 0.95) - high!)).toBeLessThanOrEqual(allowed);
      // a limit near the middle of what varies more than exact values scatter; off the very values that several rigs share
      if (spread < 25 * scatter * Math.abs(middle!)) continue;
      const edge = middle! + 0.0137 * spread;
      const below = (column: Float64Array) => column.filter((value) => value <= edge).length;
      expect(Math.abs(below(a) - below(b))).toBeLessThanOrEqual(8);
    }
  }
  return settled.mock.results.filter(({ value }) => value === true).length;
}

afterEach(() => {
  vi.restoreAllMocks();
});

const WIDE = nightly ? 160 : 40;
const DISCS = nightly ? 40 : 12;

describe('rigs within tolerances', () => {
  it(`have the statistics of the same rigs one by one over ${WIDE} wide plates`, () => {
    // most of them are interpolated; the rest differ too much, or their plates attract
    expect(compare(scenes(WIDE, false), 2e-4)).toBeGreaterThan(0.75 * WIDE);
  });

  it.runIf(whole)(`and over ${DISCS} discs`, () => {
    // a disc is known to 1e-3
    expect(compare(scenes(DISCS, true), 1e-3)).toBeGreaterThan(0.65 * DISCS);
  });

  it('do not depend on the design before, to the last bit', () => {
    const [one, other] = [slotsOf(FOYER), slotsOf({ ...FOYER, 'coil.turns': 300, standoff: 4e-3 })];
    const of = { slots: one, layers: 1, windings: 0, tolerance: WORKSHOP.slice(0, 7) };
    const rigs = tries(of, true);
    rigs.run(one);
    const first = rigs.rows.quantities.slice();
    rigs.run(other);
    expect([...rigs.rows.quantities]).not.toEqual([...first]);
    rigs.run(one);
    expect([...rigs.rows.quantities]).toEqual([...first]);
  });

  it('keep lift-off where it is: as many lift as one by one where half of them rest', () => {
    const { liftoff_current } = rig(FOYER);
    const slots = slotsOf({ ...FOYER, 'drive.current': liftoff_current });
    const of = { slots, layers: 1, windings: 0, tolerance: WORKSHOP.slice(0, 7) };
    const [near, plain] = [tries(of, true), tries(of, false)];
    near.run(slots);
    plain.run(slots);
    expect([...near.rows.status]).toEqual([...plain.rows.status]);
    expect(new Set(near.rows.status).size).toBe(2);
  });

  it('are evaluated one by one over iron', () => {
    const slots = slotsOf({ ...FOYER, floats: 2, 'plate.layers.0.metal.relative_permeability': 500 });
    const of = { slots, layers: 1, windings: 0, tolerance: WORKSHOP.slice(0, 4) };
    const settled = vi.spyOn(NearRigs.prototype, 'settle');
    const [near, plain] = [tries(of, true), tries(of, false)];
    near.run(slots);
    expect(settled).toHaveReturnedWith(false);
    plain.run(slots);
    expect([...near.rows.quantities]).toEqual([...plain.rows.quantities]);
  });
});

function rig(design: Design): { liftoff_current: number } {
  const found = createLaws(1);
  found.evaluate(slotsOf(design));
  return { liftoff_current: found.results[Q.liftoff_current]! };
}
