import { describe, expect, it } from 'vitest';
import { type EarthedCircuit, voltageToEarth } from '../../src/kernel/voltage-to-earth.ts';
import { createRandom } from '../../src/math/random.ts';

const PLAIN: EarthedCircuit = {
  current: 5,
  coilResistance: 4,
  coilReactance: 8,
  seriesResistance: 0,
  seriesReactance: 0,
  lineVoltage: 230,
  isolated: false,
};

/** Complex numbers as pairs. */
type Complex = readonly [re: number, im: number];
const plus = (a: Complex, b: Complex): Complex => [a[0] + b[0], a[1] + b[1]];
const minus = (a: Complex, b: Complex): Complex => [a[0] - b[0], a[1] - b[1]];
const times = (a: Complex, b: Complex): Complex => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const over = (a: Complex, b: Complex): Complex => {
  const square = b[0] ** 2 + b[1] ** 2;
  return times(a, [b[0] / square, -b[1] / square]);
};

/**
 * Every end of the coil by walking the loop, line voltage real: plug both ways round, the capacitor in either lead, the series
 * resistance in the lead of the other one.
 */
function walked(circuit: EarthedCircuit): number {
  const coil: Complex = [circuit.coilResistance, circuit.coilReactance];
  const series: Complex = [circuit.seriesResistance, circuit.seriesReactance];
  const whole = plus(coil, series);
  const outlet: Complex = [circuit.current * Math.hypot(...whole), 0];
  const line: Complex = [circuit.lineVoltage, 0];
  const ends: Complex[] = [];
  for (const turned of [false, true]) {
    const common: Complex = turned ? line : [0, 0];
    const slider: Complex = turned ? minus(line, outlet) : outlet;
    const current = over(minus(common, slider), whole);
    for (const inCommonLead of [false, true]) {
      const before = inCommonLead ? circuit.seriesReactance : 0;
      const first = minus(common, times(current, [0, before]));
      const second = minus(first, times(current, coil));
      ends.push(first, second);
    }
  }
  return Math.max(...ends.map((end) => Math.hypot(...end)));
}

describe('voltageToEarth', () => {
  it('is the line voltage at any setting of a variable transformer whose plug may be turned', () => {
    for (const current of [0, 0.01, 5, 20])
      expect(voltageToEarth({ ...PLAIN, current })).toBeCloseTo(230, 12);
  });

  it('is the outlet voltage once that is above the line', () => {
    const current = 260 / Math.hypot(4, 8);
    expect(voltageToEarth({ ...PLAIN, current })).toBeCloseTo(260, 10);
  });

  it('adds the capacitor to the line where the circuit is in resonance, at right angles', () => {
    // 20 V drive 5 A through 4 ohm; 40 V across the capacitor stand at 90 degrees to the line
    const tuned = { ...PLAIN, seriesReactance: -8 };
    expect(voltageToEarth(tuned)).toBeCloseTo(Math.hypot(230, 40), 10);
  });

  it('never lies below any end of the coil that a walk round the loop finds', () => {
    const random = createRandom(1);
    let together = 0;
    for (let trial = 0; trial < 2000; trial++) {
      const circuit = {
        current: 20 * random.unit(),
        coilResistance: 10 * random.unit(),
        coilReactance: 30 * random.unit(),
        seriesResistance: 0,
        seriesReactance: trial % 2 === 0 ? 0 : -40 * random.unit(),
        lineVoltage: 50 + 350 * random.unit(),
        isolated: false,
      };
      const found = voltageToEarth(circuit);
      const ends = walked(circuit);
      // 1e-12: two ways of adding the same phasors
      expect(found).toBeGreaterThanOrEqual(ends * (1 - 1e-12));
      const isInductive = circuit.coilReactance + circuit.seriesReactance >= 0;
      if (isInductive) expect(found).toBeCloseTo(ends, 9);
      // capacitive: too high by the outlet voltage at most
      const whole = Math.hypot(circuit.coilResistance, circuit.coilReactance + circuit.seriesReactance);
      expect(found).toBeLessThanOrEqual(ends + circuit.current * whole + 1e-9);
      if (Math.abs(found - ends) < 1e-9) together++;
    }
    expect(together).toBeGreaterThan(1000);
  });

  it('is not known without the line voltage, unless an isolating transformer stands before it', () => {
    const unknown = { ...PLAIN, lineVoltage: Number.NaN };
    expect(voltageToEarth(unknown)).toBeNaN();
    expect(voltageToEarth({ ...unknown, isolated: true })).toBeCloseTo(5 * Math.hypot(4, 8), 10);
    expect(voltageToEarth({ ...PLAIN, isolated: true })).toBeCloseTo(5 * Math.hypot(4, 8), 10);
  });

  it('behind an isolating transformer counts the capacitor and the coil behind it, one point touching earth', () => {
    const tuned = { ...PLAIN, seriesReactance: -8, isolated: true };
    expect(voltageToEarth(tuned)).toBeCloseTo(5 * Math.hypot(4, 8), 10);
    expect(voltageToEarth({ ...tuned, seriesReactance: -20 })).toBeCloseTo(100, 10);
  });
});
