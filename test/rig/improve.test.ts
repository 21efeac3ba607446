import { describe, expect, it } from 'vitest';
import { compileLimit } from '../../src/expression/compile.ts';
import { SLOT } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { STATUS } from '../../src/model/status.ts';
import { createDesignReader } from '../../src/rig/design.ts';
import { improve } from '../../src/rig/improve.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { includeStock, stockFile } from '../../src/study/include-files.ts';
import { readStudy } from '../../src/study/read-study.ts';

/** A thin sheet of a poor alloy: it needs 26.9 A to lift, and the drive gives 12 A. */
const RESTING = `study: It rests
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm, extra_mass: 150 g}
  plate: {metal: EN AW-6082, thickness: 0.8 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz, max_voltage: 230 V, max_current: 30 A}
drive: {current: 12 A}
limits: [coil_mass <= 4 kg, current <= 16 A]
objectives: [maximise: height]
`;

function rig(text: string) {
  const result = readStudy(text);
  if ('problems' in result) throw new Error(result.problems[0]!.found);
  const { study } = result;
  const reader = createDesignReader(study);
  reader.read(new Float64Array(0), 0);
  return { study, slots: reader.slots.slice() };
}

const aim = (text: string) => rig(RESTING.replace('current <= 16 A', text)).study.limits[1]!;

describe('what would make a rig lift', () => {
  const { study, slots } = rig(RESTING);
  const before = slots.slice();
  const found = improve(study, slots, null, true);

  it('is the lift-off current, rounded up to what somebody sets: a second way to the same number', () => {
    const laws = createLaws(1);
    laws.evaluate(slots.slice());
    const needed = laws.results[Q.liftoff_current]!;
    const current = found.single.find(({ changes }) => changes[0]!.path === 'drive.current')!;
    const to = current.changes[0]!.to as number;
    expect(to).toBeGreaterThan(needed);
    // three digits, and the last of six halvings of a step of 15 %: 0.3 %
    expect(to).toBeLessThan(needed * 1.008);
    expect(current.status).toBe(STATUS.lifts);
    expect(current.broken.map((i) => study.limits[i]!.text)).toEqual([
      'current <= 16 A',
      'supply_loading <= 1',
    ]);
  });

  it('takes a foil for the plate that it is not yet, however far that is', () => {
    const foil = rig(RESTING.replace('0.8 mm', '0.02 mm'));
    const thicker = improve(foil.study, foil.slots, null, false).single.find(
      ({ changes }) => changes[0]!.path === 'plate.thickness',
    )!;
    const to = thicker.changes[0]!.to as number;
    expect(to / 0.02e-3).toBeGreaterThan(8);
    expect(thicker.status).toBe(STATUS.lifts);
  });

  it('puts first what breaks no limit, each input once, and every one of them lifts', () => {
    const paths = found.single.map(({ changes }) => changes[0]!.path);
    expect(paths[0]).toBe('plate.thickness');
    expect(new Set(paths).size).toBe(paths.length);
    for (const { status } of found.single) expect(status).toBe(STATUS.lifts);
    const broken = found.single.map((each) => each.broken.length);
    expect(broken).toEqual([...broken].sort((a, b) => a - b));
  });

  it('takes plates of thicknesses that are sold, no thicker than needed', () => {
    const [thicker] = found.single;
    expect(thicker!.changes[0]!.to).toBe(0.003);
    const laws = createLaws(1);
    const asked = slots.slice();
    // the size before it in the series
    asked[thicker!.changes[0]!.slot!] = 0.0025;
    laws.evaluate(asked);
    expect(laws.status).toBe(STATUS.rests);
  });

  it('takes less plate where it is the plate that floats: half as thick is half as heavy', () => {
    const thick = rig(
      RESTING.replace('floats: coil', 'floats: plate').replace(
        'plate: {metal: EN AW-6082, thickness: 0.8 mm}',
        'plate: {metal: EN AW-6082, thickness: 30 mm, radius: 250 mm}',
      ),
    );
    const thinner = improve(thick.study, thick.slots, null, false).single.find(
      ({ changes }) => changes[0]!.path === 'plate.thickness',
    );
    expect(thinner!.changes[0]!.to).toBeLessThan(0.03);
    expect(thinner!.status).toBe(STATUS.lifts);
  });

  it('finds two changes, each smaller than alone', () => {
    const [a, b] = found.pair!.changes;
    expect(found.pair!.status).toBe(STATUS.lifts);
    for (const change of [a!, b!]) {
      const alone = found.single.find(({ changes }) => changes[0]!.path === change.path)!;
      expect(change.distance).toBeLessThan(alone.changes[0]!.distance);
    }
  });

  it('leaves the rig as it was', () => {
    expect(slots).toEqual(before);
  });
});

describe('an aim', () => {
  it('is reached where it is a height, and a higher one takes more', () => {
    const { study, slots } = rig(RESTING);
    const current = (height: string) => {
      const { single } = improve(study, slots, aim(`height >= ${height}`), false);
      const one = single.find(({ changes }) => changes[0]!.path === 'drive.current')!;
      return { to: one.changes[0]!.to as number, height: one.results[Q.height]! };
    };
    const [low, high] = [current('5 mm'), current('15 mm')];
    expect(low.height).toBeGreaterThanOrEqual(0.005);
    expect(high.height).toBeGreaterThanOrEqual(0.015);
    expect(high.to).toBeGreaterThan(low.to);
  });

  it('that a rig meets as it is asks for no change', () => {
    const { study, slots } = rig(RESTING.replace('0.8 mm', '12 mm'));
    expect(slots[SLOT.driveCurrent]).toBe(12);
    expect(improve(study, slots, null, true)).toMatchObject({ met: true, single: [], pair: null });
  });
});

describe('a rig with parts from stock', () => {
  const stock = `currency: EUR
prices:
  wire: [{metal: aluminium, price: 18 EUR/kg}]
transformers:
  - {name: small, voltage: 100 V, current: 8 A, price: 0 EUR/piece}
  - {name: large, voltage: 260 V, current: 16 A, price: 90 EUR/piece}
plates:
  - {metal: EN AW-1050A, thickness: 8 mm, square: 600 mm, price: 50 EUR/piece}
  - {metal: EN AW-1050A, thickness: 4 mm, square: 600 mm, price: 30 EUR/piece}
`;
  const source = RESTING.replace('max_voltage: 230 V, max_current: 30 A', 'transformer: from stock')
    .replace(/plate: .*/, 'plate: {thickness: from stock}')
    .replace('drive: {current: 12 A}', 'stock: rack.yaml\ndrive: supply limit')
    .replace('limits: [coil_mass <= 4 kg, current <= 16 A]', 'limits: [coil_mass <= 4 kg]');
  const whole = includeStock(stockFile(new TextEncoder().encode(source))!, new TextEncoder().encode(stock));
  if ('problems' in whole) throw new Error(whole.problems[0]!.found);
  const read = readStudy(whole.text);
  if ('problems' in read) throw new Error(read.problems[0]!.found);
  const { study } = read;
  const slotsOf = (...values: number[]) => {
    const reader = createDesignReader(study);
    reader.read(Float64Array.from(values), 0);
    return reader.slots.slice();
  };
  const names = study.vary.map(({ path }) => path);

  it('may take another transformer of the rack, and no voltage that none of them gives', () => {
    expect(names).toEqual(['plate.layers.0.thickness', 'supply.transformer']);
    const { now, single } = improve(study, slotsOf(0, 0), null, false);
    expect(now.status).toBe(STATUS.rests);
    const paths = single.map(({ changes }) => changes[0]!.path);
    expect(paths).toContain('supply.transformer');
    expect(paths.some((path) => path.startsWith('supply.max_'))).toBe(false);
  });

  it('finds no pair of which one change does nothing', () => {
    const outcome = compileLimit('plate_cost <= 40', []);
    if (!outcome.ok) throw new Error(outcome.flaw.found);
    const { single, pair } = improve(study, slotsOf(0, 1), outcome.value, true);
    // nothing else changes that cost
    expect(single.map(({ changes }) => changes[0]!.path)).toEqual(['plate.thickness']);
    expect(pair).toBeNull();
  });
});
