import { describe, expect, it } from 'vitest';
import { compileLimit } from '../../src/expression/compile.ts';
import { createRandom } from '../../src/math/random.ts';
import { inputByPath } from '../../src/model/inputs.ts';
import type { Derived } from '../../src/model/program.ts';
import { Q, type QuantityName } from '../../src/model/quantities.ts';
import { STATUS } from '../../src/model/status.ts';
import type { Task, Tolerance } from '../../src/model/study.ts';
import { UNITS } from '../../src/model/units.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { createSpread } from '../../src/rig/spread.ts';
import { FOYER, slotsOf } from '../support/design.ts';
import { gaussian } from '../support/gaussian.ts';

function within(path: string, size: number, rest: Partial<Tolerance> = {}): Tolerance {
  const { slot, integer } = inputByPath(path)!;
  const open = { minimum: 1e-30, maximum: Number.MAX_VALUE };
  return { path, slot, integer, size, relative: false, distribution: 'normal', ...open, ...rest };
}

function quantileOf(name: QuantityName, fraction: number): Derived {
  const statistic = { kind: 'quantile', fraction, quantity: Q[name] } as const;
  return { name: `${name}_${fraction}`, column: '', text: '', program: [], unit: UNITS.one, statistic };
}

const CHANCES: readonly Derived[] = (['lifts', 'limits'] as const).map((of) => ({
  name: `probability_${of}`,
  column: '',
  text: '',
  program: [],
  unit: UNITS.one,
  statistic: { kind: 'probability', of },
}));

/** Statistics of the foyer table's coil, in the order of `derive`. */
function spreadOf(
  tolerance: readonly Tolerance[],
  derive: readonly Derived[],
  limits: string[] = [],
): number[] {
  const compiled = limits.map((text) => {
    const outcome = compileLimit(text, derive);
    if (!outcome.ok) throw new Error(outcome.flaw.found);
    return outcome.value;
  });
  const slots = slotsOf(FOYER);
  const rig = { slots, plateLayers: 1, windings: 0, texts: {} };
  const task: Task = { rig, vary: [], derive, limits: compiled, objectives: [], tolerance };
  const columns = new Float64Array(derive.length);
  createSpread(task)!.fill(slots, STATUS.lifts, columns, 0, 1);
  return [...columns];
}

describe('createSpread', () => {
  it('is nothing for a study without tolerances', () => {
    const rig = { slots: slotsOf(FOYER), plateLayers: 1, windings: 0, texts: {} };
    expect(createSpread({ rig, vary: [], derive: [], limits: [], objectives: [] })).toBeNull();
  });

  it('propagates a linear case as the GUM does', () => {
    // coil mass is linear in extra mass; JCGM 100 (10): u = 1 x u(extra mass); 5 and 95 % of a normal at 1.6449 u
    const quantiles = [quantileOf('coil_mass', 0.05), quantileOf('coil_mass', 0.95)];
    const [low, high] = spreadOf([within('coil.extra_mass', 0.02)], quantiles);
    const laws = createLaws(1);
    laws.evaluate(slotsOf(FOYER));
    const mass = laws.results[Q.coil_mass]!;
    // 256 even points: a quantile is known to about a 128th of the distribution, 0.076 u at its 5 % point
    expect(Math.abs(low! - (mass - 1.6449 * 0.02))).toBeLessThan(0.08 * 0.02);
    expect(Math.abs(high! - (mass + 1.6449 * 0.02))).toBeLessThan(0.08 * 0.02);
  });

  it('spreads evenly over plus and minus its size where asked, and as a share of the value', () => {
    const uniform = { relative: true, distribution: 'uniform' } as const;
    const quantiles = [quantileOf('gap', 0.05), quantileOf('gap', 0.95)];
    // at rest the gap is the standoff
    const weak = within('drive.current', 0.001, { maximum: 1 });
    const [low, high] = spreadOf([weak, within('standoff', 0.1, uniform)], quantiles);
    expect(Math.abs(low! - 0.002 * 0.91)).toBeLessThan(0.002 * 0.2 * 0.01);
    expect(Math.abs(high! - 0.002 * 1.09)).toBeLessThan(0.002 * 0.2 * 0.01);
  });

  it('agrees with brute force: quantiles hold their share of 4000 drawn rigs, probabilities are theirs', () => {
    const tolerance = [
      within('plate.layers.0.metal.resistivity', 0.05, { relative: true }),
      within('standoff', 0.3e-3),
      within('coil.turns', 3),
      within('drive.current', 0.02, { relative: true }),
    ];
    const derive = [
      quantileOf('height', 0.05),
      quantileOf('height', 0.95),
      quantileOf('liftoff_current', 0.05),
      quantileOf('liftoff_current', 0.95),
      ...CHANCES,
    ];
    const limits = ['height >= 18.5 mm', 'voltage <= 100 V'];
    const [h05, h95, i05, i95, lifts, probability] = spreadOf(tolerance, derive, limits);
    const laws = createLaws(1);
    const random = createRandom(5);
    const slots = slotsOf(FOYER);
    const draws = 4000;
    const below = [0, 0, 0, 0];
    let good = 0;
    for (let i = 0; i < draws; i++) {
      const built = slots.slice();
      for (const { slot, size, relative, integer } of tolerance) {
        const value = slots[slot]! + gaussian(random) * size * (relative ? slots[slot]! : 1);
        built[slot] = integer ? Math.round(value) : value;
      }
      laws.evaluate(built);
      const { results } = laws;
      const [height, liftoff] = [results[Q.height]!, results[Q.liftoff_current]!];
      [height < h05!, height < h95!, liftoff < i05!, liftoff < i95!].forEach((isBelow, k) => {
        if (isBelow) below[k]!++;
      });
      if (height >= 18.5e-3 && results[Q.voltage]! <= 100) good++;
    }
    // 256 even points in four dimensions: about 0.015; 4000 draws: 0.0035
    [0.05, 0.95, 0.05, 0.95].forEach((share, k) => {
      expect(Math.abs(below[k]! / draws - share)).toBeLessThan(0.02);
    });
    // an edge through the middle of the sample is coarser: 0.02 and 0.008
    expect(Math.abs(probability! - good / draws)).toBeLessThan(0.04);
    expect(good / draws).toBeGreaterThan(0.3);
    expect(good / draws).toBeLessThan(0.9);
    expect(lifts).toBe(1);
  });

  it('gives a design without an answer no statistics', () => {
    const rig = { slots: slotsOf(FOYER), plateLayers: 1, windings: 0, texts: {} };
    const derive = [...CHANCES];
    const task: Task = {
      rig,
      vary: [],
      derive,
      limits: [],
      objectives: [],
      tolerance: [within('standoff', 1e-4)],
    };
    const columns = new Float64Array(4);
    createSpread(task)!.fill(rig.slots, STATUS.impossible, columns, 1, 2);
    expect([...columns]).toEqual([0, Number.NaN, 0, Number.NaN]);
  });
});
