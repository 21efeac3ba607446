import { describe, expect, it } from 'vitest';
import { createPlan } from '../../src/plan/create-plan.ts';
import { timePerDesign } from '../../src/run/time-per-design.ts';
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
    expect(timePerDesign(study, sample, now) / (0.25e-3 / 8)).toBeCloseTo(1, 9);
  });
});
