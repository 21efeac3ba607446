import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DesignBatch } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { batchSize } from '../../src/plan/batch-size.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { studyFrom } from '../support/finished-study.ts';

describe('batchSize', () => {
  it('leaves work for several threads in a small study and stays bounded in a large one', () => {
    expect(batchSize(1)).toBe(16);
    expect(batchSize(264)).toBe(16);
    expect(batchSize(6400)).toBe(100);
    expect(batchSize(100_000)).toBe(1563);
    expect(batchSize(1e12)).toBe(4000);
  });

  it('cuts slow designs into batches of a few seconds, down to single designs', () => {
    const discs = (plate: string, rest = '') =>
      studyFrom(`study: Discs
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 899, layers: 8, inner_radius: 220 mm}
  plate: {metal: aluminium-1050, thickness: 18 mm${plate}}
  standoff: 2 mm
drive: {current: 1 A}
vary: {supply.frequency: {from: 97 kHz, to: 100 kHz, count: 640}}
objectives: [{maximise: height}]
${rest}`);
    const first = (study: Study) => (createPlan(study).next() as DesignBatch).count;
    // 640 designs in 64 pieces
    expect(first(discs(''))).toBe(16);
    expect(first(discs(', radius: 611 mm, edge: ignored'))).toBe(16);
    expect(first(discs(', radius: 611 mm'))).toBe(10);
    // the hole's rim takes a fine resolution: a second a design
    expect(first(discs(', radius: 611 mm, inner_radius: 122 mm'))).toBe(3);
    // each is 257 rigs then
    const spread = discs(', radius: 611 mm, inner_radius: 122 mm', 'tolerance: {plate.thickness: 1 mm}\n');
    expect(first(spread)).toBe(1);
    expect(createPlan(spread).atOnce).toBe(640);
  });

  it('never shrinks as the study grows', () => {
    fc.assert(
      fc.property(fc.nat(1e9), fc.nat(1e9), (a, b) => {
        expect(batchSize(Math.min(a, b))).toBeLessThanOrEqual(batchSize(Math.max(a, b)));
      }),
    );
  });
});
