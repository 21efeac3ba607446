import { describe, expect, it } from 'vitest';
import { inputByPath } from '../../src/model/inputs.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import type { VariedNumber } from '../../src/model/study.ts';
import { createGrid } from '../../src/plan/grid.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createEvaluationOrder } from '../../src/rig/evaluation-order.ts';
import { FOYER, slotsOf } from '../support/design.ts';

function axis(path: string, levels: readonly number[]): VariedNumber {
  const { slot, name, unit, meaning } = inputByPath(path)!;
  return {
    kind: 'number',
    path,
    name,
    column: name,
    unit,
    slot,
    meaning,
    integer: false,
    levels: Float64Array.from(levels),
  };
}

const drive = axis('drive.current', [10, 12, 13]);
const turns = axis('coil.turns', [400, 440]);
const thickness = axis('plate.layers.0.thickness', [0.003, 0.012]);

describe('createEvaluationOrder', () => {
  it('keeps designs of one coil together, among them those of one plate, each in its own order', () => {
    const vary = [drive, thickness, turns];
    const order = createEvaluationOrder(vary)(createGrid(vary).next()!)!;
    // design = 4 * drive + 2 * thickness + turns
    expect([...order]).toEqual([0, 4, 8, 2, 6, 10, 1, 5, 9, 3, 7, 11]);
  });

  it('leaves alone what is in the best order already, and what has no list of levels', () => {
    const sorted = [turns, thickness, drive];
    expect(createEvaluationOrder(sorted)(createGrid(sorted).next()!)).toBeNull();
    const open: VariedNumber = { ...turns, between: 'linear' };
    const batch = { first: 0, count: 1, values: Float64Array.of(12, 433) };
    expect(createEvaluationOrder([drive, open])(batch)).toBeNull();
  });

  it('changes no bit of any row', () => {
    const vary = [drive, thickness, turns];
    const task = {
      rig: { slots: slotsOf(FOYER), plateLayers: 1, windings: 0, texts: {} },
      vary,
      derive: [],
      limits: [],
      objectives: [],
    };
    const batch = createGrid(vary).next()!;
    const whole = createEvaluator(task)(batch);
    for (let i = 0; i < batch.count; i++) {
      const values = batch.values.slice(i * vary.length, (i + 1) * vary.length);
      // an evaluator of its own: nothing is left over from a neighbour
      const alone: RowBatch = createEvaluator(task)({ first: i, count: 1, values });
      const row = Float64Array.from(alone.quantities, (_, q) => whole.quantities[q * batch.count + i]!);
      expect(row).toEqual(alone.quantities);
      expect(whole.status[i]).toBe(alone.status[0]);
    }
  });
});
