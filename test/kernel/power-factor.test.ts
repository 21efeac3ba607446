import { describe, expect, it } from 'vitest';
import { powerFactorCapacitors } from '../../src/kernel/power-factor.ts';

const omega = 2 * Math.PI * 50;

function at(resistance: number, reactance: number, current: number) {
  const out = {
    parallel: 0,
    parallelVoltage: 0,
    series: 0,
    seriesVoltage: 0,
    compensatedCurrent: 0,
    compensatedVoltage: 0,
  };
  powerFactorCapacitors(resistance, reactance, current, omega, out);
  return out;
}

describe('powerFactorCapacitors', () => {
  it('leaves a real admittance in parallel and a real impedance in series', () => {
    const [R, X, I] = [3.5, 9, 12];
    const c = at(R, X, I);
    const square = R * R + X * X;
    // susceptance of the load is -X / |Z|^2
    expect(omega * c.parallel - X / square).toBeCloseTo(0, 15);
    expect(X - 1 / (omega * c.series)).toBeCloseTo(0, 12);
    expect(c.parallelVoltage).toBeCloseTo(I * Math.sqrt(square), 12);
    expect(c.seriesVoltage).toBeCloseTo(I / (omega * c.series), 10);
  });

  it('draws the same active power, now as volt-amperes', () => {
    const c = at(3.5, 9, 12);
    expect(c.parallelVoltage * c.compensatedCurrent).toBeCloseTo(144 * 3.5, 9);
    expect(12 * c.compensatedVoltage).toBeCloseTo(144 * 3.5, 9);
  });

  it('has nothing to correct in a load that is not inductive', () => {
    for (const value of Object.values(at(3.5, -1, 12))) expect(value).toBeNaN();
  });
});
