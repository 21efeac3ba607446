import { describe, expect, it } from 'vitest';
import { evaluateRig, FOYER } from '../support/design.ts';

const TABLE = {
  'supply.transformer.current': 10,
  'supply.transformer.overload.0.current': 12,
  'supply.transformer.overload.0.time': 1800,
  'supply.transformer.overload.1.current': 15,
  'supply.transformer.overload.1.time': 300,
};

const holds = (current: number, table: Record<string, number> = TABLE) =>
  evaluateRig({ ...FOYER, ...table, 'drive.current': current }).transformer_holds;

describe('transformer_holds', () => {
  it('is for ever up to the rated current, that included', () => {
    expect(holds(8)).toBe(Number.POSITIVE_INFINITY);
    expect(holds(10)).toBe(Number.POSITIVE_INFINITY);
  });

  it('is the time of the line that holds the current, never one between two lines', () => {
    expect(holds(10.1)).toBe(1800);
    expect(holds(12)).toBe(1800);
    expect(holds(12.1)).toBe(300);
    expect(holds(15)).toBe(300);
  });

  it('is nothing beyond the last line, or beyond the rated current without a table', () => {
    expect(holds(15.1)).toBe(0);
    expect(holds(10.1, { 'supply.transformer.current': 10 })).toBe(0);
  });

  it('is empty without a rated current', () => {
    expect(holds(12, {})).toBeNaN();
  });
});
