import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { calibrate } from '../../src/measured/calibrate.ts';
import { residualsOf } from '../../src/measured/residuals.ts';
import { inputByPath } from '../../src/model/inputs.ts';
import type { FreeInput, MeasuredPoint, Reading } from '../../src/model/measured.ts';
import { Q, type QuantityName } from '../../src/model/quantities.ts';
import { createPredictor } from '../../src/rig/predict.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';
import { gaussian } from '../support/gaussian.ts';

const LAYOUT = { plateLayers: 1, windings: 0 };
const DRAWN = createPredictor(LAYOUT, slotsOf(FOYER));

type Sigmas = Partial<Record<QuantityName, number>>;

/** What a rig would show at these currents, each reading exact, with these standard uncertainties. */
function exactPoints(rig: Design, currents: readonly number[], sigmas: Sigmas): MeasuredPoint[] {
  const predictor = createPredictor(LAYOUT, slotsOf(rig));
  return currents.map((value, i) => {
    const bare = {
      line: i + 2,
      drive: { kind: 'current', value },
      driveUncertainty: 0,
      settings: [],
    } as const;
    const results = predictor.evaluate({ ...bare, readings: [] }, []);
    const readings = Object.entries(sigmas).map(([name, uncertainty]): Reading => {
      const quantity = Q[name as QuantityName];
      return { quantity, value: results[quantity]!, uncertainty };
    });
    return { ...bare, readings };
  });
}

function noisy(points: readonly MeasuredPoint[], seed: number): MeasuredPoint[] {
  const random = createRandom(8, seed);
  return points.map((point) => ({
    ...point,
    readings: point.readings.map((reading) => ({
      ...reading,
      value: reading.value + reading.uncertainty * gaussian(random),
    })),
  }));
}

function free(path: string, rest: Partial<FreeInput> = {}): FreeInput {
  const { slot, unit, minimum } = inputByPath(path)!;
  const start = FOYER[path]!;
  const scale = 0.1 * start;
  const low = minimum + 1e-3 * start;
  return { path, slot, unit, start, scale, minimum: low, maximum: 1, prior: null, ...rest };
}

const RESISTIVITY = 'plate.layers.0.metal.resistivity';
const BUILT = { ...FOYER, [RESISTIVITY]: 3.1e-8, standoff: 2.6e-3 };

describe('calibrate', () => {
  it('finds inputs from exact readings', () => {
    const points = exactPoints(BUILT, [10, 12, 14], { height: 1e-4, voltage: 0.1 });
    const found = calibrate(points, DRAWN, [free(RESISTIVITY), free('standoff')])!;
    expect(found.converged).toBe(true);
    // the quadrature's noise (1e-7) and the end of the search
    expect(found.fitted[0]!.value / 3.1e-8).toBeCloseTo(1, 4);
    expect(found.fitted[1]!.value / 2.6e-3).toBeCloseTo(1, 4);
    expect(found.chiSquare).toBeLessThan(1e-3);
  });

  it('states errors that hold the truth in 95 % of 200 seeded trials', () => {
    const exact = exactPoints(BUILT, [10, 11.5, 14], { height: 3e-4, voltage: 0.3 });
    const truth = [3.1e-8, 2.6e-3];
    const inside = [0, 0];
    const trials = 200;
    for (let trial = 0; trial < trials; trial++) {
      const found = calibrate(noisy(exact, trial), DRAWN, [free(RESISTIVITY), free('standoff')])!;
      found.fitted.forEach(({ value, error }, i) => {
        if (Math.abs(value - truth[i]!) <= 1.96 * error) inside[i]!++;
      });
    }
    // 200 draws of 0.95 have a standard deviation of 0.0154; three of them
    for (const count of inside) expect(Math.abs(count / trials - 0.95)).toBeLessThan(0.047);
  });

  it('takes the errors from the scatter where none are stated', () => {
    const points = noisy(exactPoints(BUILT, [10, 11, 12, 13, 14], { height: 3e-4, voltage: 0.3 }), 3);
    const silent = points.map((point) => ({
      ...point,
      readings: point.readings.map((reading) => ({ ...reading, uncertainty: Number.NaN })),
    }));
    const found = calibrate(silent, DRAWN, [free(RESISTIVITY), free('standoff')])!;
    expect(found.stated).toBe(false);
    // the errors were scaled until what is left is what they explain
    expect(found.chiSquare / found.freedom).toBeCloseTo(1, 1);
    expect(Math.abs(found.fitted[1]!.value - 2.6e-3)).toBeLessThan(3 * found.fitted[1]!.error);
  });

  it('says which inputs it cannot tell apart, and which change nothing', () => {
    const points = exactPoints(FOYER, [11, 12, 13], { coil_mass: 0.005, resistance_cold: 0.01 });
    const mass = { scale: 0.1, maximum: 10, minimum: 0 };
    const alike = calibrate(points, DRAWN, [
      free('coil.extra_mass', mass),
      free('coil.metal.density', { maximum: 1e5 }),
    ])!;
    expect(alike.distinct).toBe(false);
    expect(alike.alike[0]!.slice(0, 2)).toEqual(['coil.extra_mass', 'coil.metal.density']);
    // more of the one is less of the other
    expect(alike.alike[0]![2]).toBeCloseTo(-1, 6);
    expect(alike.fitted.every(({ error }) => Number.isNaN(error))).toBe(true);
    const idle = calibrate(points, DRAWN, [free('standoff'), free('coil.extra_mass', mass)])!;
    expect(idle.idle).toEqual(['standoff']);
  });

  it('keeps to what is known beforehand where the points say nothing', () => {
    const points = exactPoints(FOYER, [12], { coil_mass: 0.005 });
    const prior = { value: 2.2e-3, error: 3e-4 };
    const found = calibrate(points, DRAWN, [free('standoff', { scale: prior.error, prior })])!;
    expect(found.fitted[0]!.value).toBeCloseTo(prior.value, 8);
    expect(found.fitted[0]!.error).toBeCloseTo(prior.error, 8);
  });

  it('weighs a prior and a reading as two measurements of one thing', () => {
    // JCGM 100, as for a weighted mean: the inverse variances add; coil mass is linear in extra mass
    const points = exactPoints({ ...FOYER, 'coil.extra_mass': 0.2 }, [12], { coil_mass: 0.01 });
    const prior = { value: 0.16, error: 0.02 };
    const mass = free('coil.extra_mass', { minimum: 0, maximum: 10, scale: 0.02, prior });
    const { value, error } = calibrate(points, DRAWN, [mass])!.fitted[0]!;
    const weights = [1 / 0.01 ** 2, 1 / 0.02 ** 2] as const;
    const sum = weights[0] + weights[1];
    // exactly linear: the end of the search
    expect(value).toBeCloseTo((0.2 * weights[0] + 0.16 * weights[1]) / sum, 7);
    expect(error).toBeCloseTo(1 / Math.sqrt(sum), 8);
  });

  it('has nothing to say where the model has no answer', () => {
    const [point] = exactPoints(FOYER, [12], { coil_mass: 0.005 });
    const empty = [{ ...point!, readings: [{ quantity: Q.plate_temperature, value: 300, uncertainty: 1 }] }];
    expect(calibrate(empty, DRAWN, [free('standoff')])).toBeNull();
  });
});

describe('residualsOf', () => {
  it('adds the uncertainty of the drive by the law of propagation', () => {
    // voltage at rest is proportional to current: u(V) = (V / I) u(I)
    const [point] = exactPoints(FOYER, [4], { voltage: 0.1 });
    const [residual] = residualsOf([{ ...point!, driveUncertainty: 0.05 }], DRAWN, []);
    expect(residual!.sigma).toBeCloseTo(Math.hypot(0.1, (point!.readings[0]!.value / 4) * 0.05), 9);
  });
});
