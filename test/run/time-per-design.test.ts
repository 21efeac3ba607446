import { describe, expect, it } from 'vitest';
import type { DesignBatch } from '../../src/model/rows.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createTrialState, timePerDesign } from '../../src/run/time-per-design.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { studyFrom } from '../support/finished-study.ts';

/** A machine left alone: both clocks show the same. */
const twice = (ms: number) => ({ wall: ms, busy: ms });

describe('timePerDesign', () => {
  it('counts the work of the processor on a machine that others want, too, and says by how much it was slower', () => {
    const study = studyFrom(disturbedStudy('Loaded'));
    const evaluate = createEvaluator(study);
    let passes = 0;
    // 2 ms of work a pass of 8 designs, in 10 ms on the wall
    const timed = (batch: DesignBatch) => {
      passes += batch.count / 8;
      return evaluate(batch);
    };
    const now = () => ({ wall: 10 * passes, busy: 2 * passes });
    const { seconds, slowdown } = timePerDesign(timed, createPlan(study).sample(8), now);
    expect(seconds).toBeCloseTo(2e-3 / 8, 9);
    expect(slowdown).toBeCloseTo(5, 9);
  });

  it('does not count the work of other threads', () => {
    const study = studyFrom(disturbedStudy('Others'));
    const evaluate = createEvaluator(study);
    let passes = 0;
    const timed = (batch: DesignBatch) => {
      passes += batch.count / 8;
      return evaluate(batch);
    };
    const now = () => ({ wall: 2 * passes, busy: 7 * passes });
    expect(timePerDesign(timed, createPlan(study).sample(8), now)).toEqual({
      seconds: expect.closeTo(2e-3 / 8, 9),
      slowdown: 1,
    });
  });

  it('tells a time that is shorter than the tick of the clock', () => {
    const study = studyFrom(disturbedStudy('Ticks'));
    const sample = createPlan(study).sample(8);
    // every pass over the sample looks at the clock once: 4 passes a millisecond
    let looks = 0;
    const now = () => twice(Math.floor(looks++ / 4));
    // 0.25 ms for 8 designs; 20 passes a round, which begins and ends with a tick
    expect(timePerDesign(createEvaluator(study), sample, now).seconds / (0.25e-3 / 8)).toBeCloseTo(1, 9);
  });

  it('is done after the first pass where all designs take no longer than a trial', () => {
    const study = studyFrom(disturbedStudy('Few'));
    const evaluate = createEvaluator(study);
    const tried = (designs: number) => {
      let clock = 0;
      let passes = 0;
      const timed = (batch: DesignBatch) => {
        passes += batch.count / 8;
        clock += 2 * batch.count;
        return evaluate(batch);
      };
      const sample = createPlan(study).sample(8);
      const timing = timePerDesign(timed, sample, () => twice(clock), undefined, designs);
      return { passes, timing };
    };
    const once = { passes: 1, timing: { seconds: 2e-3, slowdown: 1 } };
    expect(tried(8)).toEqual(once);
    expect(tried(40)).toEqual(once);
    expect(tried(41).passes).toBeGreaterThan(2);
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
    expect(timePerDesign(slow, createPlan(study).sample(48), () => twice(clock), state)).toEqual({
      seconds: 0.25,
      slowdown: 1,
    });
    expect(tried).toEqual([0, 1]);
    expect([...state]).toEqual([1, 2]);
  });
});
