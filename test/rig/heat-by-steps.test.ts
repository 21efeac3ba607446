import { describe, expect, it } from 'vitest';
import type { Design } from '../support/design.ts';
import { compareHeat } from '../support/heat-by-steps/compare.ts';
import { DormandPrince, STAGES } from '../support/heat-by-steps/dormand-prince.ts';
import { wildRig } from '../support/heat-by-steps/wild-rig.ts';
import { nightly } from '../support/nightly.ts';
import { usualRig } from '../support/random-rig.ts';

const COUNT = nightly ? { usual: 1200, wild: 1000 } : { usual: 80, wild: 50 };
/** Of the integration; by how far that is from finer ones, times differ by less than 1e-5. */
const TOLERANCE = 1e-6;
/** Plates much faster than their winding take steps as short as theirs: left out where they would take more than these. */
const MOST_STEPS = nightly ? 4000 : 100;

type Differences = Record<'onTime' | 'loadTime' | 'coolTime' | 'mean' | 'plate' | 'hottest', number[]>;

/** Rows against the second method: times as parts, temperatures in K, ascending. */
function differences(rigs: readonly Design[]): Differences & { compared: number } {
  const found: Differences = { onTime: [], loadTime: [], coolTime: [], mean: [], plate: [], hottest: [] };
  let compared = 0;
  for (const design of rigs) {
    // a plate's edge changes the loss, not the laws of heat: wide ones are quicker
    const pair = compareHeat({ ...design, 'plate.edge': 0 }, TOLERANCE, MOST_STEPS);
    // where its faces do not come to rest, or come to one of two, the second method has no answer
    if (pair === null || pair.course.gaveUp || pair.course.unsettled > 0) continue;
    compared++;
    const { row, course, rig } = pair;
    const part = (list: number[], a: number, b: number) => {
      if (a > 0 && b > 0 && Number.isFinite(a) && Number.isFinite(b)) list.push(Math.abs(a / b - 1));
    };
    part(found.onTime, row.onTime, course.onTime);
    part(found.loadTime, row.loadTime, course.loadTime);
    part(found.coolTime, row.coolTime, course.coolTime);
    const { steady } = course;
    if (steady === null || Number.isNaN(row.mean)) continue;
    const count = rig.windings.length;
    found.mean.push(Math.abs(row.mean - Math.max(...steady.subarray(0, count))));
    found.hottest.push(Math.abs(row.hottest - course.hottest));
    // the row's plate is that without a load
    if (rig.plate !== null && rig.vessel === null) found.plate.push(Math.abs(row.plate - steady[count]!));
  }
  for (const list of Object.values(found)) list.sort((a, b) => a - b);
  if (nightly) {
    const at = (list: number[], share: number) =>
      (list[Math.floor(share * (list.length - 1))] ?? 0).toExponential(1);
    const told = Object.entries(found).map(([name, list]) =>
      [name, list.length, ...[0.5, 0.9, 0.99, 1].map((share) => at(list, share))].join(' '),
    );
    process.stdout.write(`${compared} rigs: ${told.join(', ')}\n`);
  }
  return { ...found, compared };
}

function share(list: readonly number[], part: number): number {
  return list[Math.floor(part * (list.length - 1))]!;
}

describe('heat against fifth-order steps of its definitions', () => {
  const rigs = (make: (seed: number, number: number) => Design, count: number) =>
    Array.from({ length: count }, (_, number) => make(8, number));

  it(`agrees as docs/heat.md says: ${COUNT.usual} usual rigs`, () => {
    const found = differences(rigs(usualRig, COUNT.usual));
    expect(found.compared).toBeGreaterThan(0.7 * COUNT.usual);
    expect(found.onTime.length).toBeGreaterThan(0.15 * COUNT.usual);
    expect(share(found.onTime, 0.97)).toBeLessThan(2.5e-3);
    expect(found.onTime.at(-1)!).toBeLessThan(nightly ? 5e-2 : 5e-3);
    expect(share(found.coolTime, 0.9)).toBeLessThan(1e-3);
    expect(share(found.coolTime, 0.99)).toBeLessThan(1e-2);
    for (const list of [found.mean, found.plate]) {
      expect(share(list, 0.9)).toBeLessThan(2e-3);
      expect(list.at(-1)!).toBeLessThan(0.2);
    }
    expect(share(found.hottest, 0.9)).toBeLessThan(1e-2);
    if (found.loadTime.length > 0) expect(found.loadTime.at(-1)!).toBeLessThan(nightly ? 5e-2 : 1e-2);
  }, 600_000);

  it(`and ${COUNT.wild} wild ones`, () => {
    const found = differences(rigs(wildRig, COUNT.wild));
    expect(found.compared).toBeGreaterThan(0.6 * COUNT.wild);
    expect(share(found.onTime, 0.9)).toBeLessThan(2.5e-3);
    expect(share(found.onTime, 0.97)).toBeLessThan(2e-2);
    expect(share(found.coolTime, 0.97)).toBeLessThan(5e-3);
    for (const list of [found.mean, found.plate]) expect(share(list, 0.9)).toBeLessThan(2e-3);
    expect(share(found.hottest, 0.9)).toBeLessThan(1e-2);
  }, 600_000);
});

it('rigs whose times were once off by 2 to 16 %, or nothing: several windings, a load', () => {
  const rigs = [
    ...[152, 175, 888, 948].map((number) => usualRig(7, number)),
    ...[12, 84, 112].map((number) => wildRig(7, number)),
  ];
  const found = differences(rigs);
  expect(found.compared).toBe(rigs.length);
  expect(found.onTime.at(-1)!).toBeLessThan(5e-3);
  expect(found.loadTime.at(-1)!).toBeLessThan(1e-2);
});

describe('DormandPrince', () => {
  it('has stages whose places are 1/5, 3/10, 4/5, 8/9, 1 and 1', () => {
    const sums = STAGES.map((row) => row.reduce((sum, each) => sum + each, 0));
    const places = [1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1];
    for (const [i, place] of places.entries()) expect(sums[i]!).toBeCloseTo(place, 13);
  });

  it('follows a decay within its tolerance', () => {
    const steps = new DormandPrince(Float64Array.of(100), 1e-3, 1e-9, (y, rate) => {
      rate[0] = -y[0]!;
    });
    while (steps.time < 3) steps.advance(3 - steps.time);
    expect(steps.y[0]! / (100 * Math.exp(-3))).toBeCloseTo(1, 7);
  });
});
