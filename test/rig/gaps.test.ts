import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { limitExcess } from '../../src/expression/limit-excess.ts';
import { isEvaluated } from '../../src/model/status.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createGaps } from '../../src/rig/judge.ts';
import { readStudy } from '../../src/study/read-study.ts';

const TEXT = readFileSync(new URL('../../studies/seven-choices.yaml', import.meta.url), 'utf8').replace(
  /^plan:.*$/m,
  'plan: {sobol: {points: 200, seed: 1}}',
);

describe('gaps of limits', () => {
  it('are above 0 for the limits that a row does not meet, and for no others', () => {
    const reading = readStudy(TEXT);
    if ('problems' in reading) throw new Error(reading.problems[0]!.found);
    const { study } = reading;
    const evaluate = createEvaluator(study);
    const gapsOf = createGaps(study);
    const width = study.vary.length;
    let unmet = 0;
    for (const plan = createPlan(study); !plan.done; ) {
      const batch = plan.next();
      if (!batch || 'from' in batch) throw new Error('batches only');
      for (let i = 0; i < batch.count; i++) {
        const row = evaluate({ first: 0, count: 1, values: batch.values.slice(i * width, (i + 1) * width) });
        if (!isEvaluated(row.status[0]!)) continue;
        const gaps = gapsOf(row);
        for (const [l, gap] of gaps.entries()) {
          const isUnmet = ((row.unmet[0]! >> l) & 1) === 1;
          // an empty value leaves its limit unmet; what has come to its bound meets it, whichever way its digits fell
          if (!(Math.abs(gap) <= 1e-9)) expect(!(gap <= 0)).toBe(isUnmet);
          if (isUnmet) unmet++;
        }
        const sum = gaps.reduce((total, gap) => (gap <= 1e-9 ? total : total + limitExcess(1 + gap, 1)), 0);
        // a design that rests has its own millionth besides
        expect(Math.abs(row.violation[0]! - sum)).toBeLessThan(2e-6);
      }
    }
    expect(unmet).toBeGreaterThan(100);
  });
});
