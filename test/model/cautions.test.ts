import { describe, expect, it } from 'vitest';
import { HAZARDS, SET } from '../../src/model/cautions/caution-rule.ts';
import {
  CAUTION_VALUES,
  type CautionValue,
  type CautionValueName,
  type CautionValues,
} from '../../src/model/cautions/caution-values.ts';
import {
  byHazard,
  CAUTION_RULES,
  CAUTIONS_REMINDER,
  type Judgement,
  judge,
  judgeNothing,
  raisedOf,
  unjudgedOf,
} from '../../src/model/cautions/judge.ts';

const NAMES = Object.keys(CAUTION_VALUES) as CautionValueName[];
const unknown = (atLeast = Number.NaN): CautionValue => ({ missing: 'no `it` given', atLeast });

/** Every flag that gates a rule set, and every value on the harmless side of its threshold. */
function calm(): Record<CautionValueName, CautionValue> {
  const values = Object.fromEntries(NAMES.map((name) => [name, 0])) as Record<CautionValueName, number>;
  for (const { only } of CAUTION_RULES) if (only !== undefined) values[only] = 1;
  for (const { threshold } of CAUTION_RULES) if (typeof threshold !== 'number') values[threshold] = 1e-3;
  for (const { value, raisedWhen } of CAUTION_RULES) if (raisedWhen === 'below') values[value] = 1e9;
  // a gate of one rule that is the value of another
  values.floats = 0;
  return values;
}

const of = (id: string, values: CautionValues): Judgement =>
  judge(values).find(({ rule }) => rule.id === id)!;

describe('the registry of cautions', () => {
  it('names no caution twice, and goes from the worst hazard down', () => {
    const ids = CAUTION_RULES.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const order = CAUTION_RULES.map(({ hazard }) => Object.keys(HAZARDS).indexOf(hazard));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(CAUTION_RULES[0]!.hazard).toBe('shock');
  });

  it('gives every caution words, advice that ends, and a source or the word that there is none', () => {
    for (const { id, brief, topic, rule, advice, source } of CAUTION_RULES) {
      for (const text of [brief, topic, rule]) expect(text.length, id).toBeGreaterThan(2);
      expect(brief.length, id).toBeLessThan(45);
      expect(advice.endsWith('.'), id).toBe(true);
      expect(source, id).toMatch(/seen|from memory|computed|symmetry|geometry|no source|solved|metals/);
    }
  });

  it('knows no value that no caution looks at', () => {
    const looked = CAUTION_RULES.flatMap(({ value, threshold, only, figures }) => [
      value,
      threshold,
      only,
      ...(figures ?? []).map((each) => each.value),
    ]);
    expect([...new Set(looked)].filter((name) => typeof name === 'string').sort()).toEqual(NAMES.sort());
  });

  it('implies only by rules that exist and look at the same value with a wider threshold', () => {
    for (const { id, impliedBy, value } of CAUTION_RULES) {
      if (impliedBy === undefined) continue;
      const graver = CAUTION_RULES.find((rule) => rule.id === impliedBy);
      expect(graver?.value, id).toBe(value);
    }
  });
});

describe('judging', () => {
  it.each(CAUTION_RULES.map((rule) => [rule.id, rule] as const))(
    '%s: raised beyond its threshold, not at it, and not judged where its value, threshold or gate is unknown',
    (id, { value, threshold, raisedWhen, only }) => {
      const at = typeof threshold === 'number' ? threshold : 1e-3;
      const step = raisedWhen === 'above' ? 1e-6 : -1e-6;
      const values = { ...calm(), ...(typeof threshold === 'string' ? { [threshold]: at } : {}) };
      const beyond = { ...values, [value]: at + step * Math.max(1, Math.abs(at)) };
      if (only !== undefined && only !== value) beyond[only] = 1;
      expect(of(id, beyond)).toMatchObject({ verdict: 'raised', value: beyond[value], threshold: at });
      expect(of(id, { ...beyond, [value]: at }).verdict).toBe('clear');
      const why = { verdict: 'not judged', missing: 'no `it` given' };
      expect(of(id, { ...beyond, [value]: unknown() })).toMatchObject(why);
      if (typeof threshold === 'string')
        expect(of(id, { ...beyond, [threshold]: unknown() })).toMatchObject(why);
      if (only === undefined) return;
      expect(of(id, { ...beyond, [only]: unknown() })).toMatchObject(why);
      expect(of(id, { ...beyond, [only]: 0 }).verdict).toBe('clear');
    },
  );

  it('is raised by what an unknown value is at least, and never clear for it', () => {
    const values = (atLeast: number) => ({ ...calm(), touchVoltage: unknown(atLeast) });
    expect(of('touch-voltage', values(60))).toMatchObject({ verdict: 'raised', value: 60, atLeast: true });
    expect(of('touch-voltage', values(40))).toMatchObject({ verdict: 'not judged' });
    expect(of('touch-voltage', values(Number.NaN))).toMatchObject({ verdict: 'not judged' });
  });

  it('tells the other numbers where it is raised', () => {
    const { figures } = of('falls', {
      ...calm(),
      gap: 0.02,
      height: 0.018,
      fallEnergy: 0.5,
      landingSpeed: 0.6,
    });
    expect(figures.map(({ value, unit }) => [value, unit.symbol])).toEqual([
      [0.018, 'mm'],
      [0.5, 'J'],
      [0.6, 'm/s'],
    ]);
  });

  it('raises nothing for a calm rig, and judges nothing of a design without an answer', () => {
    expect(raisedOf(judge(calm()))).toEqual([]);
    expect(unjudgedOf(judge(calm()))).toEqual([]);
    expect(judgeNothing('why').every(({ verdict }) => verdict === 'not judged')).toBe(true);
    expect(unjudgedOf(judgeNothing('why'))).toEqual([{ missing: 'why', topics: ['all cautions'] }]);
    expect(unjudgedOf([])).toEqual([]);
  });
});

describe('what is shown', () => {
  it('leaves out what a graver caution implies, raised or not judged', () => {
    const shown = (volts: number) =>
      raisedOf(judge({ ...calm(), loaded: 0, touchVoltage: volts })).map(({ rule }) => rule.id);
    expect(shown(230)).toEqual(['touch-voltage']);
    expect(shown(30)).toEqual(['bare-live-parts']);
    expect(shown(20)).toEqual(['bare-live-parts-wet']);
    expect(shown(12)).toEqual([]);
  });

  it('groups by hazard, shock first, and what is not judged by what is missing, each topic once', () => {
    const values = { ...calm(), gap: 1, touchVoltage: 60, visitorField: unknown() };
    expect(byHazard(raisedOf(judge(values))).map(({ hazard }) => hazard)).toEqual(['shock', 'motion']);
    expect(unjudgedOf(judge(values))).toEqual([
      { missing: 'no `it` given', topics: ['implants of visitors', 'field at the visitor'] },
    ]);
  });

  it('closes with who decides', () => {
    expect(CAUTIONS_REMINDER).toMatch(/local codes.*licensed/);
    expect(SET).toBe(0.5);
  });
});
