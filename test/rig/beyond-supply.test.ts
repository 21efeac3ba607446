import { describe, expect, it } from 'vitest';
import { Q } from '../../src/model/quantities.ts';
import { column, type RowBatch } from '../../src/model/rows.ts';
import { REASON, STATUS } from '../../src/model/status.ts';
import type { Study } from '../../src/model/study.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createRejudge } from '../../src/rig/judge.ts';
import { readStudy } from '../../src/study/read-study.ts';

function study(supply: string, drive: string, more = ''): Study {
  const result = readStudy(`
study: What a socket can give
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2.0 mm, insulation: grade 2, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz, ${supply}}
drive: ${drive}
vary: {coil.turns: [440, 560]}
objectives: [{maximise: height}]
${more}`);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return result.study;
}

function rows(of: Study): RowBatch {
  return createEvaluator(of)({ first: 0, count: 2, values: Float64Array.of(440, 560) });
}

describe('a drive beyond the supply', () => {
  it.each([
    ['max_voltage: 230 V', '{voltage: 400 V}', REASON.beyondVoltage],
    ['max_current: 10 A', '{current: 12 A}', REASON.beyondCurrent],
    ['fuse: 10 A', '{current: 12 A}', REASON.beyondFuse],
    ['line_voltage: 230 V, fuse: {rating: 4 A, side: line}', '{current: 12 A}', REASON.beyondFuse],
  ])('%s, %s: infeasible with the reason, and the limits count it', (supply, drive, reason) => {
    const asked = study(supply, drive);
    const found = rows(asked);
    expect([...found.status]).toEqual([STATUS.lifts, STATUS.lifts]);
    expect([...found.feasible]).toEqual([0, 0]);
    expect([...found.reason]).toEqual([reason, reason]);
    expect([...found.unmet]).toEqual([1, 1]);
    expect(asked.limits.map(({ text }) => text)).toEqual(['supply_loading <= 1']);
    // searches see by how much
    const loading = column(found, found.quantities, Q.supply_loading);
    for (const i of [0, 1]) expect(found.violation[i]).toBeCloseTo((loading[i]! - 1) / loading[i]!, 12);
  });

  it('is allowed where the study says so, and told by its loading', () => {
    const found = rows(study('max_current: 10 A, beyond: allowed', '{current: 12 A}'));
    expect([...found.feasible]).toEqual([1, 1]);
    expect([...found.reason]).toEqual([REASON.none, REASON.none]);
    expect(found.quantities[Q.supply_loading * 2]).toBeCloseTo(1.2, 12);
  });

  it('is what rests and would need more, too', () => {
    const found = rows(study('max_current: 5 A', '{current: 6 A}'));
    expect([...found.status]).toEqual([STATUS.rests, STATUS.rests]);
    expect([...found.reason]).toEqual([REASON.beyondCurrent, REASON.beyondCurrent]);
  });

  it('stays within at the supply limit, which implies no limit of its own', () => {
    const asked = study('max_voltage: 110 V, max_current: 10 A', 'supply limit');
    expect(asked.limits).toEqual([]);
    const found = rows(asked);
    expect([...found.feasible]).toEqual([1, 1]);
    expect(found.quantities[Q.supply_loading * 2]).toBeCloseTo(1, 9);
  });

  it('is no limit where the supply names none, or a fuse on a line of unknown voltage', () => {
    expect(study('line_voltage: 230 V', '{current: 12 A}').limits).toEqual([]);
    expect(study('fuse: {rating: 4 A, side: line}', '{current: 12 A}').limits).toEqual([]);
  });

  it('within tolerances is counted by the chance of meeting all limits', () => {
    const near = study('max_current: 10 A', '{current: 10 A}', 'tolerance: {drive.current: 0.1 A}');
    const found = rows(near);
    const at = near.derive.findIndex(({ name }) => name === 'probability_limits');
    expect(column(found, found.derived, at)[0]).toBeGreaterThan(0.4);
    expect(column(found, found.derived, at)[0]).toBeLessThan(0.6);
  });

  it('is not held against rows of an older program, which knew no loading', () => {
    const asked = study('max_current: 10 A', '{current: 12 A}');
    const found = rows(asked);
    found.quantities.fill(Number.NaN, Q.supply_loading * 2, (Q.supply_loading + 1) * 2);
    expect([...createRejudge(asked)(found).feasible]).toEqual([1, 1]);
  });
});
