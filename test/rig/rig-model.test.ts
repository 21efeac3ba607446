import { describe, expect, it } from 'vitest';
import { SLOT } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { liftCurve } from '../../src/rig/lift-curve.ts';
import { type Design, FOYER, SOCKET, slotsOf } from '../support/design.ts';

const LAYOUT = { plateLayers: 1, windings: 0 };
const DISC: Design = { ...FOYER, 'plate.radius': 0.2 };

/** The model of a design, and the laws that it belongs to. */
function modelOf(design: Design) {
  const laws = createLaws(1);
  const slots = slotsOf(design);
  laws.evaluate(slots);
  return { laws, slots, model: laws.operatingPoint!.model };
}

describe('the model of a rig', () => {
  it.each([
    ['a wide plate', FOYER],
    ['a disc', DISC],
  ])('carries the weight at every point of the lift curve, over %s', (_, design) => {
    const { slots, model } = modelOf(design);
    const points = liftCurve(LAYOUT, slots, [9, 11, 13, 15, 17]);
    const floating = points.filter(({ height }) => height > 0);
    expect(floating.length).toBeGreaterThanOrEqual(3);
    for (const { current, height } of floating) {
      // the gap is solved to 1e-9 of itself; the model's nodes may be those of another reach, good to 1e-6
      expect(model.force(model.nearest + height, current) / model.weight).toBeCloseTo(1, 5);
    }
    for (const { current } of points.filter(({ height }) => height === 0)) {
      expect(model.force(model.nearest, current)).toBeLessThan(model.weight);
    }
  });

  it("has the supply's voltage at the operating gap, and more resistance nearer the plate", () => {
    const { laws, slots, model } = modelOf({ ...FOYER, ...SOCKET });
    const { results } = laws;
    const { resistance, reactance } = model.impedance(results[Q.gap]!)!;
    const capacitance = slots[SLOT.seriesCapacitance]!;
    const series = Number.isNaN(capacitance) ? 0 : -1 / (model.omega * capacitance);
    const voltage = results[Q.current]! * Math.hypot(resistance + model.seriesResistance, reactance + series);
    // the winding's resistance is that of one step before: 1e-6
    expect(voltage / results[Q.supply_voltage]!).toBeCloseTo(1, 5);
    const rest = model.impedance(model.nearest)!;
    expect(rest.resistance).toBeGreaterThan(resistance);
    expect(rest.reactance).toBeLessThan(reactance);
  });

  it('has no answer outside its gaps', () => {
    const { model } = modelOf(FOYER);
    for (const gap of [0.99 * model.nearest, 1.01 * model.farthest, Number.NaN]) {
      expect(model.impedance(gap)).toBeNull();
      expect(model.force(gap, 12)).toBeNaN();
    }
    expect(model.impedance(model.nearest)).not.toBeNull();
    expect(model.force(model.farthest, 12)).toBeGreaterThan(0);
  });

  it('leaves the laws at the operating gap', () => {
    const { laws, model } = modelOf(FOYER);
    const { over, resistance } = laws.operatingPoint!;
    const before = [over.inductanceRe, over.slopeRe, over.curvatureRe, resistance.ac[0]];
    model.impedance(model.nearest);
    model.force(model.farthest, 5);
    expect([over.inductanceRe, over.slopeRe, over.curvatureRe, resistance.ac[0]]).toEqual(before);
  });
});
