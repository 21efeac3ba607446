import { describe, expect, it } from 'vitest';
import {
  currentAtVoltage,
  FIRST_LIMIT,
  firstLimit,
  type SupplyCircuit,
  type SupplyPoint,
  seriesReactance,
  supplyAt,
} from '../../src/kernel/supply.ts';

const BARE: SupplyCircuit = {
  omega: 2 * Math.PI * 50,
  seriesResistance: 0,
  seriesCapacitance: Number.NaN,
  lineVoltage: 230,
  maxVoltage: 230,
  maxCurrent: 16,
  fuseRating: 16,
  fuseOnLine: true,
};

/** About the contract's rig at 12 A: 2.7 + 0.83 ohm, 23 mH. */
const [R, X] = [3.53, 7.2];

function at(current: number, change: Partial<SupplyCircuit> = {}): SupplyPoint {
  const point = {} as SupplyPoint;
  supplyAt({ ...BARE, ...change }, current, R, X, point);
  return point;
}

describe('supplyAt', () => {
  it('goes round: the current at the supply voltage is the current again', () => {
    for (const seriesCapacitance of [Number.NaN, 300e-6, 470e-6]) {
      const circuit = { ...BARE, seriesResistance: 0.1, seriesCapacitance };
      const { supplyVoltage } = at(12, circuit);
      expect(currentAtVoltage(circuit, supplyVoltage, R, X)).toBeCloseTo(12, 12);
    }
  });

  it('passes the volt-amperes on to the line, and sees the fuse on its own side', () => {
    const onLine = at(12);
    expect(onLine.lineCurrent).toBeCloseTo((onLine.supplyVoltage * 12) / 230, 12);
    expect(onLine.fuseMargin).toBeCloseTo(16 / onLine.lineCurrent, 12);
    const onCoil = at(12, { fuseOnLine: false });
    expect(onCoil.fuseCurrent).toBe(12);
    expect(onCoil.fuseMargin).toBeCloseTo(16 / 12, 12);
  });

  it('needs only the resistive voltage at series resonance, while the capacitor has the reactive one', () => {
    const seriesCapacitance = 1 / (BARE.omega * X);
    const point = at(12, { seriesCapacitance });
    expect(point.supplyVoltage).toBeCloseTo(12 * R, 10);
    expect(point.capacitorVoltage).toBeCloseTo(12 * X, 10);
  });

  it('leaves empty what the study does not say', () => {
    const point = at(12, { lineVoltage: Number.NaN });
    expect(point.lineCurrent).toBeNaN();
    expect(point.fuseMargin).toBeNaN();
    expect(at(12).capacitorVoltage).toBeNaN();
    expect(seriesReactance(BARE)).toBe(0);
  });
});

describe('firstLimit', () => {
  const first = (current: number, change: Partial<SupplyCircuit>) =>
    firstLimit({ ...BARE, ...change }, at(current, change));

  it('names the limit used hardest', () => {
    expect(first(12, {})).toBe(FIRST_LIMIT.current);
    expect(first(12, { maxVoltage: 100 })).toBe(FIRST_LIMIT.voltage);
    expect(first(12, { fuseRating: 10, fuseOnLine: false })).toBe(FIRST_LIMIT.fuse);
  });

  it('has a fuse loaded with its rating, no more and no less, where the drive has come to it', () => {
    for (const off of [-1e-12, 0, 1e-12]) {
      const point = at(12 * (1 + off), { fuseRating: 12, fuseOnLine: false });
      expect([point.fuseCurrent, point.fuseMargin]).toEqual([12, 1]);
    }
    expect(at(12 * (1 + 1e-8), { fuseRating: 12, fuseOnLine: false }).fuseMargin).toBeLessThan(1);
  });

  it('settles ties in the order voltage, current, fuse', () => {
    const { supplyVoltage } = at(12);
    const tied = { maxVoltage: supplyVoltage, maxCurrent: 12, fuseRating: 12, fuseOnLine: false };
    expect(first(12, tied)).toBe(FIRST_LIMIT.voltage);
    expect(first(12, { ...tied, maxVoltage: 300 })).toBe(FIRST_LIMIT.current);
  });

  it('is none where no limit is given, and the use is then 0', () => {
    const none = { maxVoltage: Number.NaN, maxCurrent: Number.NaN, fuseRating: Number.NaN };
    expect(first(12, none)).toBe(FIRST_LIMIT.none);
  });
});
