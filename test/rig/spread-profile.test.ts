import { describe, expect, it } from 'vitest';
import { compileLimit } from '../../src/expression/compile.ts';
import { inputByPath } from '../../src/model/inputs.ts';
import type { Limit, Program } from '../../src/model/program.ts';
import { Q, type QuantityName } from '../../src/model/quantities.ts';
import type { Task, Tolerance } from '../../src/model/study.ts';
import { createSpreadProfiler, type SpreadProfile } from '../../src/rig/spread-profile.ts';
import { evaluateRig, FOYER, slotsOf } from '../support/design.ts';

function within(path: string, size: number, rest: Partial<Tolerance> = {}): Tolerance {
  const { slot, integer } = inputByPath(path)!;
  const open = { minimum: 1e-30, maximum: Number.MAX_VALUE };
  return { path, slot, integer, size, relative: false, distribution: 'normal', ...open, ...rest };
}

const quantity = (name: QuantityName): Program => [{ op: 'quantity', index: Q[name] }];

function limit(text: string): Limit {
  const outcome = compileLimit(text, []);
  if (!outcome.ok) throw new Error(outcome.flaw.found);
  return outcome.value;
}

/** Of the foyer table's coil with some inputs changed. */
function profile(
  tolerance: readonly Tolerance[],
  programs: readonly Program[],
  { limits = [], changes = {} }: { limits?: string[]; changes?: Readonly<Record<string, number>> } = {},
): SpreadProfile {
  const slots = slotsOf({ ...FOYER, ...changes });
  const rig = { slots, plateLayers: 1, windings: 0, texts: {} };
  const task: Task = { rig, vary: [], derive: [], limits: limits.map(limit), objectives: [], tolerance };
  return createSpreadProfiler(task, programs)!(slots)!;
}

const shares = ({ slopes }: { slopes: Float64Array }) => [...slopes].map((slope) => slope * slope);

/** What the workshop leaves open. */
const BENCH: readonly Tolerance[] = [
  within('plate.layers.0.metal.resistivity', 7.4e-10),
  within('standoff', 0.16e-3),
  within('coil.extra_mass', 0.02),
  within('drive.current', 0.01, { relative: true }),
];

describe('createSpreadProfiler', () => {
  it('is nothing for a study without tolerances', () => {
    const rig = { slots: slotsOf(FOYER), plateLayers: 1, windings: 0, texts: {} };
    expect(createSpreadProfiler({ rig, vary: [], derive: [], limits: [], objectives: [] }, [])).toBeNull();
  });

  it('finds the shares of variance that the law of propagation gives', () => {
    const names = ['liftoff_current', 'height', 'voltage', 'coil_mass'] as const;
    const found = profile(BENCH, names.map(quantity));
    names.forEach((name, n) => {
      // JCGM 100:2008 (10), slopes by central differences over one standard deviation each way
      const parts = BENCH.map(({ path, size, relative }) => {
        const at = FOYER[path]!;
        const by = relative ? size * at : size;
        const [above, below] = [at + by, at - by].map(
          (value) => evaluateRig({ ...FOYER, [path]: value })[name],
        );
        return ((above! - below!) / 2) ** 2;
      });
      const variance = parts.reduce((sum, part) => sum + part, 0);
      const { explained, median, own, p05, p95 } = found.quantities[n]!;
      expect(explained).toBeGreaterThan(0.99);
      shares(found.quantities[n]!).forEach((share, t) => {
        // 256 points spread a variable's own variance by some per cent
        expect(Math.abs(share - parts[t]! / variance)).toBeLessThan(0.02);
      });
      expect(p05).toBeLessThan(median);
      expect(median).toBeLessThan(p95);
      expect(Math.abs(median - own)).toBeLessThan(0.1 * (p95 - p05));
      // of a normal, 5 to 95 % is 3.29 standard deviations; quantiles of 256 points are good to a few per cent
      expect((p95 - p05) / (3.29 * Math.sqrt(variance))).toBeCloseTo(1, 1);
    });
  });

  it('gives each input what only it changes, and lets the drive change no lift-off', () => {
    const found = profile(BENCH, [quantity('coil_mass'), quantity('liftoff_current')]);
    const [mass, liftoff] = found.quantities.map(shares);
    expect(mass![2]).toBeCloseTo(1, 10);
    expect(liftoff![3]).toBeLessThan(1e-3);
  });

  it('says that slopes explain too little where half of the rigs rest', () => {
    const { liftoff_current } = evaluateRig(FOYER);
    // at 2 % about lift-off the height is 0 for one half and rises for the other: its line explains 3/4 at most
    const drive = within('drive.current', 0.02, { relative: true });
    const found = profile([drive], [quantity('height')], {
      changes: { 'drive.current': liftoff_current! },
      limits: ['height >= 1 um'],
    });
    // a rectified normal: R2 = (1/4) / (1/2 - 1/(2 pi)) = 0.733; the curve above it is nearly straight
    expect(found.quantities[0]!.explained).toBeGreaterThan(0.68);
    expect(found.quantities[0]!.explained).toBeLessThan(0.78);
    expect(Math.abs(found.probabilityLifts - 0.5)).toBeLessThan(0.02);
    expect(Math.abs(found.probabilityLimits - 0.5)).toBeLessThan(0.02);
  });

  it('knows no probability without limits, no shares of what never changes, no quantiles where a rig has no answer', () => {
    const found = profile(
      [within('coil.extra_mass', 0.02)],
      [quantity('resistance_cold'), quantity('plate_temperature')],
    );
    expect(found.probabilityLimits).toBeNaN();
    const [fixed, empty] = found.quantities;
    expect([fixed!.p05, fixed!.explained]).toEqual([fixed!.p95, Number.NaN]);
    // without a radius a plate has no temperature
    expect([empty!.own, empty!.p05, empty!.p95, empty!.explained]).toEqual(new Array(4).fill(Number.NaN));
  });

  it('has nothing to say of a design that cannot be built', () => {
    const slots = slotsOf({ ...FOYER, 'coil.inner_radius': 1e9 });
    const rig = { slots, plateLayers: 1, windings: 0, texts: {} };
    const task: Task = { rig, vary: [], derive: [], limits: [], objectives: [], tolerance: BENCH };
    expect(createSpreadProfiler(task, [])!(slots)).toBeNull();
  });
});
