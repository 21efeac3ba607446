import { describe, expect, it } from 'vitest';
import type { Limit, Program } from '../../src/model/program.ts';
import { Q, QUANTITIES, type QuantityName } from '../../src/model/quantities.ts';
import { limitStandings } from '../../src/words/limit-standing.ts';

const own = (name: QuantityName): Program => [{ op: 'quantity', index: Q[name] }];
const constant = (value: number): Program => [{ op: 'constant', value }];

/** How a design with one quantity of this value stands to a bound. */
function standing(name: QuantityName, value: number, comparison: Limit['comparison'], bound: number) {
  const quantities = new Float64Array(QUANTITIES.length).fill(Number.NaN);
  quantities[Q[name]] = value;
  const limit = { text: 'as written', comparison, left: own(name), right: constant(bound) };
  const row = { count: 1, quantities, derived: new Float64Array(0) };
  return limitStandings({ limits: [limit], derive: [] }, row, new Float64Array(0))[0]!;
}

describe('limitStandings', () => {
  it('says what the design has in the unit it is read in, and what is left of the larger side', () => {
    expect(standing('height', 0.02, '>=', 0.01)).toEqual({
      text: 'as written',
      met: true,
      value: '20 mm',
      margin: 0.5,
      rest: '50 % left',
    });
  });

  it('counts what is missing as less than nothing', () => {
    const { met, margin } = standing('current', 20, '<=', 16);
    expect(met).toBe(false);
    expect(margin).toBeCloseTo(-0.2, 12);
  });

  it('takes shares of temperatures in degrees Celsius', () => {
    // 80 of 100 degC
    expect(standing('coil_temperature', 353.15, '<=', 373.15).margin).toBeCloseTo(0.2, 12);
  });

  it('finds a time without end wholly apart from any other', () => {
    expect(standing('coil_on_time', Number.POSITIVE_INFINITY, '>=', 600)).toMatchObject({
      met: true,
      value: 'unlimited',
      margin: 1,
    });
  });

  it('finds no share of nothing: the value and the limit stand for it', () => {
    const held = standing('sideways_stiffness', 18.9, '>=', 0);
    expect(held).toMatchObject({ met: true, value: '0.0189 N/mm', margin: Number.NaN, rest: 'limit 0 N/mm' });
    expect(standing('sideways_stiffness', -2, '>=', 0)).toMatchObject({ met: false, rest: 'limit 0 N/mm' });
    // 0 degC is not 0 K, and a rig at the bound is at it
    expect(standing('coil_temperature', 300, '>=', 273.15).rest).toBe('limit 0 °C');
    expect(standing('sideways_stiffness', 0, '>=', 0).rest).toBe('0 % left');
  });

  it('has no margin where a cell is empty, and the limit is not met', () => {
    expect(standing('height', Number.NaN, '>=', 0.01)).toMatchObject({
      met: false,
      value: '-',
      margin: Number.NaN,
      rest: 'nothing to compare',
    });
  });
});
