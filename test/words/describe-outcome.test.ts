import { describe, expect, it } from 'vitest';
import { describeOutcome } from '../../src/words/describe-outcome.ts';
import { type Row, workshopStudy } from '../support/batches.ts';
import { frontOf } from '../support/front.ts';

describe('how good an answer is', () => {
  it('says of a grid, too, at which ends of ranges its winners stand', () => {
    const study = workshopStudy();
    expect(study.plan.kind).toBe('grid');
    const turns = study.vary.findIndex((one) => one.kind === 'number');
    const varied = study.vary[turns]!;
    if (varied.kind !== 'number') throw new Error('no number varies');
    const largest = Math.max(...varied.levels);
    const rows: Row[] = [
      { values: study.vary.map((_, v) => (v === turns ? largest : 0)), objectives: [0.01, 2] },
    ];
    const told = describeOutcome(study, null, frontOf(study, rows), null).join('\n');
    expect(told).toContain(`${varied.name.replaceAll('_', ' ')} (largest)`);
  });

  it('names what has no price, and what was assumed', () => {
    const study = {
      ...workshopStudy(),
      assumed: ["Metal 'scrap': density as usual of aluminium."],
      stock: { file: 'rack.yaml', currency: 'EUR', unpriced: ['posts'] },
    };
    expect(describeOutcome(study, null, frontOf(study, []), null)).toEqual([
      "Metal 'scrap': density as usual of aluminium.",
      'No price given: posts; the costs of designs that take them are empty.',
    ]);
  });
});
