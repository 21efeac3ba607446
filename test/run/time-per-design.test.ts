import { describe, expect, it } from 'vitest';
import type { DesignBatch } from '../../src/model/rows.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createTrialState, timePerDesign } from '../../src/run/time-per-design.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { studyFrom } from '../support/finished-study.ts';

describe('timePerDesign', () => {
  it('tells a time that is shorter than the tick of the clock', () => {
    const study = studyFrom(disturbedStudy('Ticks'));
    const sample = createPlan(study).sample(8);
    // every pass over the sample looks at the clock once: 4 passes a millisecond
    let looks = 0;
    const now = () => Math.floor(looks++ / 4);
    // 0.25 ms for 8 designs; 20 passes a round, which begins and ends with a tick
    expect(timePerDesign(createEvaluator(study), sample, now) / (0.25e-3 / 8)).toBeCloseTo(1, 9);
  });

  it('tries slow designs only as long as the time allows, and takes their mean', () => {
    const study = studyFrom(disturbedStudy('Slow'));
    const evaluate = createEvaluator(study);
    let clock = 0;
    const tried: number[] = [];
    const slow = (batch: DesignBatch) => {
      tried.push(batch.first);
      clock += 200 + 100 * batch.first;
      return evaluate(batch);
    };
    const state = createTrialState();
    // 200 and 300 ms: half a second
    expect(timePerDesign(slow, createPlan(study).sample(48), () => clock, state)).toBe(0.25);
    expect(tried).toEqual([0, 1]);
    expect([...state]).toEqual([1, 2]);
  });
});
