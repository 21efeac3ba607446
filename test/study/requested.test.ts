import { describe, expect, it } from 'vitest';
import { Q, QUANTITIES, quantityColumns } from '../../src/model/quantities.ts';
import { column } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { largestBatch } from '../../src/plan/batch-size.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { evaluated, studyFrom } from '../support/finished-study.ts';

const PLAIN = disturbedStudy('requests')
  .replace('step: 2}', 'step: 100}')
  .replace('from: 1 mm', 'from: 6 mm')
  .replace(/^keep.*$/m, '');

/** The study with more lines. */
function withLines(lines: string) {
  return studyFrom(`${PLAIN}\n${lines}\n`);
}

describe('a quantity on request', () => {
  it('is requested by keep, derive, limits, objectives and statistics, and by nothing else', () => {
    expect(studyFrom(PLAIN).requested).toBeUndefined();
    expect(withLines('keep: [height, guide_damping]').requested).toEqual([Q.guide_damping]);
    expect(withLines('derive: {twice: 2 * bounce_growth}').requested).toEqual([Q.bounce_growth]);
    const limited = PLAIN.replace('coil_mass <= 3 kg]', "coil_mass <= 3 kg, 'bounce_growth <= 0 1/s']");
    expect(studyFrom(limited).requested).toEqual([Q.bounce_growth]);
    const sought = PLAIN.replace('{minimise: coil_mass}', '{minimise: guide_damping}');
    expect(studyFrom(sought).requested).toEqual([Q.guide_damping]);
    const spread = withLines('tolerance: {standoff: 5 %}\nkeep: [height, bounce_growth]');
    expect(spread.requested).toEqual([Q.bounce_growth]);
    expect(spread.derive.map(({ name }) => name)).toContain('bounce_growth_p95');
  });

  it('adds its columns to rows and parts, and changes no other bit of them', () => {
    const [plain] = evaluated(studyFrom(PLAIN));
    const [asked] = evaluated(withLines('derive: {growth: bounce_growth}'));
    const always = quantityColumns();
    expect(plain!.quantities.length).toBe(always * plain!.count);
    expect(asked!.quantities.length).toBe((Q.bounce_growth + 1) * plain!.count);
    expect(asked!.quantities.subarray(0, plain!.quantities.length)).toEqual(plain!.quantities);
    const growth = column(asked!, asked!.quantities, Q.bounce_growth);
    expect(growth.some((value) => Number.isFinite(value))).toBe(true);
    expect(column(asked!, asked!.derived, 0)).toEqual(growth);
    const format = createPartFormat(withLines('derive: {growth: bounce_growth}'), 'a stamp');
    const part = format.fromBytes(format.toBytes([{ rows: asked!, report: null }]), asked!);
    expect(part!.rows.quantities).toEqual(asked!.quantities);
    expect(
      createPartFormat(studyFrom(PLAIN), 'a stamp').fromBytes(
        format.toBytes([{ rows: asked!, report: null }]),
        asked!,
      ),
    ).toBeNull();
  });

  it('stands behind all others, so that rows without it end before', () => {
    const efforts = QUANTITIES.map(({ effort }) => effort > 0);
    expect(efforts.indexOf(true)).toBe(quantityColumns());
    expect(efforts.lastIndexOf(false)).toBe(quantityColumns() - 1);
  });

  it('is a function of the design alone, whatever was asked before', () => {
    const study = withLines('derive: {growth: bounce_growth}');
    const evaluate = createEvaluator(study);
    const [all] = evaluated(study);
    for (let i = all!.count - 1; i >= 0; i -= 3) {
      const width = study.vary.length;
      const values = all!.values.slice(i * width, (i + 1) * width);
      const alone = evaluate({ first: i, count: 1, values });
      expect(alone.quantities[Q.bounce_growth]).toBe(column(all!, all!.quantities, Q.bounce_growth)[i]);
    }
  });

  it('makes batches smaller', () => {
    const largest = (study: Study) => largestBatch(study, () => createPlan(study).sample(8));
    expect(largest(withLines('derive: {growth: bounce_growth}'))).toBeLessThan(largest(studyFrom(PLAIN)));
  });
});
