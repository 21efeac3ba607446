import { describe, expect, it } from 'vitest';
import { STATUSES } from '../../src/model/status.ts';
import type { Study } from '../../src/model/study.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createWorkforceHere, isShort, timeHere } from '../../src/session/short-study.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { studyFrom } from '../support/finished-study.ts';

/** Finer than the milliseconds that all of it takes. */
const clock = { now: () => performance.now() };
/** Thirty designs of the disturbed study. */
const few = (text: string) => text.replace('step: 2}', 'step: 120}').replace('step: 1 mm', 'step: 23 mm');
const study = studyFrom(few(disturbedStudy('Short')));
const longer = (more: string) => studyFrom(few(disturbedStudy('Long', more)));

describe('a short study', () => {
  it('is a grid or a scatter of few quick designs', () => {
    expect(isShort(study)).toBe(true);
    expect(isShort(studyFrom(disturbedStudy('Many')))).toBe(false);
    expect(isShort(studyFrom(disturbedStudy('Descents', 'plan: {nelder_mead: {seed: 1}}')))).toBe(false);
    expect(isShort(studyFrom(disturbedStudy('Bred', 'plan: {genetic: {seed: 1}}')))).toBe(false);
    expect(isShort(longer('derive: {jump: overshoot}'))).toBe(false);
  });

  it('has the same rows as on a thread, to the last bit', async () => {
    const batch = () => createPlan(study).next()!;
    const { rows } = await createWorkforceHere(study, clock).do(0, batch());
    const plain = batch();
    if ('from' in plain) throw new Error('a grid has no descents');
    expect(rows).toEqual(createEvaluator(study)(plain));
  });

  it('has a design whose evaluation throws as a failed one, and the others', async () => {
    const plan = createPlan(study);
    const work = plan.next()!;
    if ('from' in work) throw new Error('a grid has no descents');
    const [first] = study.objectives;
    // a program that no version of this one makes
    const broken = { ...first!, program: [{ op: 'nonsense' }] } as unknown as Study['objectives'][number];
    const workforce = createWorkforceHere({ ...study, objectives: [broken] }, clock);
    expect(workforce.fault).toBe(null);
    const { rows } = await workforce.do(0, work);
    expect(rows.count).toBe(work.count);
    expect([...rows.status].map((code) => STATUSES[code])).toEqual(Array(work.count).fill('failed'));
    expect(workforce.fault).toMatch(/./);
  });

  it('is tried here where its time is seen in a forecast, unless one design of it may take long', async () => {
    const plan = createPlan(study);
    const time = timeHere(study, clock)!;
    const guess = await time(plan.sample(4), plan.atMost);
    expect(guess).toEqual({ seconds: 50e-6, slowdown: 1, atLeast: false });
    const trial = await time(plan.sample(4), 1_000_000);
    expect(trial.atLeast).toBe(false);
    expect(trial.seconds).toBeGreaterThan(0);
    expect(trial.seconds).not.toBe(guess.seconds);
    expect(timeHere(longer('derive: {jump: overshoot}'), clock)).toBe(null);
  });
});
