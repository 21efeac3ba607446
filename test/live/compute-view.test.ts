import { describe, expect, it } from 'vitest';
import { makeCard } from '../../src/card/bench-card.ts';
import { createViewer } from '../../src/live/compute-view.ts';
import { pack, unpack } from '../../src/live/live-data.ts';
import { niceCeiling } from '../../src/live/nice-ceiling.ts';
import { stateOfDesign, withSettings } from '../../src/live/rig-state.ts';
import { SLOT } from '../../src/model/inputs.ts';
import { Q, QUANTITIES } from '../../src/model/quantities.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { demoStudy, valuesOfDesign } from './rigs.ts';

describe.each([
  ['metal-and-turns', 496],
  ['highest-float', 59],
  ['pan-heater', 3],
])('a view of %s, design %i', (name, design) => {
  const study = demoStudy(name);
  const values = valuesOfDesign(study, design);
  const state = stateOfDesign(study, values);
  const card = makeCard(study, design, values);

  it('has the quantities, limits and inputs of the bench card, to the last bit', () => {
    const whole = createViewer(study).whole(state.slots);
    expect(whole.results).toEqual(card.point.results);
    expect(whole.slots).toEqual(card.slots);
    expect(whole.limits).toEqual(card.limits);
  });

  it('differs from the whole view, while one drags, in quantities on request alone', () => {
    const quick = createViewer(study).quick(state.slots);
    for (const { name: quantity, index, effort } of QUANTITIES) {
      const wanted = effort > 0 ? Number.NaN : card.point.results[index]!;
      expect(Object.is(quick.results[index], wanted), quantity).toBe(true);
    }
  });
});

describe('views of one viewer', () => {
  const study = demoStudy('metal-and-turns');
  const state = stateOfDesign(study, valuesOfDesign(study, 496));

  it('depend on their state alone, not on what was seen before', () => {
    const viewer = createViewer(study);
    const first = viewer.quick(state.slots);
    viewer.quick(withSettings(state, [[SLOT.turns, 300]]).slots);
    viewer.quick(withSettings(state, [[SLOT.frequency, 400]]).slots);
    expect(viewer.quick(state.slots)).toEqual(first);
  });

  it('have a curve that rises from lift-off on and goes through the operating point', () => {
    const { curve, results, top } = createViewer(study).quick(state.slots);
    const liftoff = results[Q.liftoff_current]!;
    expect(top).toBeGreaterThan(results[Q.current]!);
    for (const [i, { current, height }] of curve.entries()) {
      if (current <= liftoff) expect(height).toBe(0);
      else expect(height).toBeGreaterThan(curve[i - 1]!.height);
    }
    const after = curve.findIndex(({ current }) => current > results[Q.current]!);
    expect(results[Q.height]!).toBeGreaterThan(curve[after - 1]!.height);
    expect(results[Q.height]!).toBeLessThan(curve[after]!.height);
  });

  it('take their curve from laws that stop at the heat and say the same up to there', () => {
    const { slots } = createViewer(study).quick(state.slots);
    const laws = createLaws(study.rig.plateLayers, study.rig.windings);
    laws.evaluate(slots);
    const whole = laws.results.slice();
    laws.evaluateToHeat(slots);
    for (const { index, name } of QUANTITIES) {
      const value = laws.results[index]!;
      if (!Number.isNaN(value)) expect(value, name).toBe(whole[index]!);
    }
    for (const index of [Q.current, Q.height, Q.coil_on_time])
      expect(laws.results[index]!).toBe(whole[index]!);
    expect(laws.results[Q.volts_per_turn]!).toBeNaN();
    expect(whole[Q.volts_per_turn]!).not.toBeNaN();
  });

  it('say why there is no answer', () => {
    const view = createViewer(study).quick(withSettings(state, [[SLOT.layers, 5000]]).slots);
    expect(view.curve).toEqual([]);
    expect(view.reason).not.toBe(0);
  });
});

describe('data of a live page', () => {
  it('comes out of JSON as it went in, infinities, empty cells and arrays of doubles included', () => {
    const data = {
      a: [1, Number.NaN, Number.POSITIVE_INFINITY],
      b: Float64Array.of(0.1, Number.NaN),
      many: Float64Array.from({ length: 900 }, (_, i) => [0.1, Number.NaN, 1 / 3, -5e300][i % 4]!),
      none: new Float64Array(0),
      zeros: Float64Array.of(0, -0, 0, -0, 0, -0, 0, 0),
      c: { d: 'NaN' },
      e: null,
    };
    expect(unpack(JSON.parse(JSON.stringify(pack(data))))).toEqual(data);
  });
});

describe('ends of axes', () => {
  it.each([
    [0, 0],
    [0.99, 1],
    [1, 1],
    [1.01, 1.5],
    [34, 40],
    [0.061, 0.08],
    [900, 1000],
  ])('%s ends at %s', (value, end) => expect(niceCeiling(value)).toBeCloseTo(end, 12));
});
