import { describe, expect, it } from 'vitest';
import { analyseWaveform, type WaveformSummary } from '../../src/measured/analyse-waveform.ts';
import { readWaveform } from '../../src/measured/read-waveform.ts';

const EXACT = { voltage: 0, current: 0, delay: 0 };
const ALONE = { time: null, voltage: null, current: null };

/** Samples at a rate that fits no period, from somewhere in one. */
function sampled(
  u: (t: number) => number,
  i: (t: number) => number,
  { rate = 10_000, seconds = 0.107, from = 0.0013 } = {},
) {
  const times = Float64Array.from({ length: Math.round(rate * seconds) }, (_, k) => from + k / rate);
  return { times, voltage: times.map(u), current: times.map(i) };
}

function summary(...args: Parameters<typeof analyseWaveform>): WaveformSummary {
  const found = analyseWaveform(...args);
  if ('refused' in found) throw new Error(found.refused);
  return found;
}

const OMEGA = 2 * Math.PI * 50.3;

describe('the analysis of a waveform', () => {
  it('gives the closed forms of a sine: U0/sqrt 2, I0/sqrt 2, U I cos phi, with offsets taken off', () => {
    const phi = 1.1;
    const wave = sampled(
      (t) => 3 + 140 * Math.sin(OMEGA * t + 0.4),
      (t) => -0.5 + 17 * Math.sin(OMEGA * t + 0.4 - phi),
    );
    const { periods, frequency, voltage, current, power, powerFactor, voltageOffset } = summary(wave, EXACT);
    expect(periods).toBe(5);
    expect(frequency.value / 50.3).toBeCloseTo(1, 9);
    // the trapezoidal rule on 200 samples a period: (2 pi/200)^2/12 at most
    expect(voltage.value / (140 / Math.SQRT2)).toBeCloseTo(1, 4);
    expect(current.value / (17 / Math.SQRT2)).toBeCloseTo(1, 4);
    expect(power.value / ((140 * 17 * Math.cos(phi)) / 2)).toBeCloseTo(1, 4);
    expect(powerFactor.value / Math.cos(phi)).toBeCloseTo(1, 4);
    expect(voltageOffset).toBeCloseTo(3, 2);
  });

  it('counts harmonics: the rms of a sum is the root of the sum of squares, and only equal orders carry power', () => {
    const wave = sampled(
      (t) => 100 * Math.sin(OMEGA * t) + 20 * Math.sin(3 * OMEGA * t),
      (t) => 10 * Math.sin(OMEGA * t - 1) + 4 * Math.sin(3 * OMEGA * t - 0.2) + 3 * Math.sin(5 * OMEGA * t),
      { rate: 50_000 },
    );
    const { voltage, current, power } = summary(wave, EXACT);
    expect(voltage.value / Math.sqrt((100 ** 2 + 20 ** 2) / 2)).toBeCloseTo(1, 4);
    expect(current.value / Math.sqrt((10 ** 2 + 4 ** 2 + 3 ** 2) / 2)).toBeCloseTo(1, 4);
    expect(power.value / ((100 * 10 * Math.cos(1) + 20 * 4 * Math.cos(0.2)) / 2)).toBeCloseTo(1, 4);
  });

  it('gives a triangle its amplitude over the root of three', () => {
    const triangle = (t: number) => (2 / Math.PI) * Math.asin(Math.sin(OMEGA * t));
    const { voltage, current } = summary(
      sampled(
        (t) => 50 * triangle(t),
        (t) => 2 * triangle(t),
      ),
      EXACT,
    );
    expect(voltage.value / (50 / Math.sqrt(3))).toBeCloseTo(1, 3);
    expect(current.value / (2 / Math.sqrt(3))).toBeCloseTo(1, 3);
  });

  it('carries gain and delay into power and power factor as the derivatives say', () => {
    const phi = 1.2;
    const wave = sampled(
      (t) => 100 * Math.sin(OMEGA * t),
      (t) => 10 * Math.sin(OMEGA * t - phi),
    );
    const plain = summary(wave, EXACT);
    const stated = summary(wave, { voltage: 0.02, current: 0.03, delay: 0 });
    expect(stated.voltage.uncertainty / stated.voltage.value).toBeCloseTo(0.02, 4);
    expect(stated.power.uncertainty / stated.power.value).toBeCloseTo(Math.hypot(0.02, 0.03), 3);
    // gains cancel in the power factor
    expect(stated.powerFactor.uncertainty).toBeCloseTo(plain.powerFactor.uncertainty, 12);
    const late = 20e-6;
    const shifted = summary(
      sampled(
        (t) => 100 * Math.sin(OMEGA * t),
        (t) => 10 * Math.sin(OMEGA * (t - late) - phi),
      ),
      EXACT,
    );
    const delayed = summary(wave, { ...EXACT, delay: late });
    // the change that such a delay really makes, to first order
    expect(delayed.power.uncertainty / Math.abs(shifted.power.value - plain.power.value)).toBeCloseTo(1, 1);
    expect(
      delayed.powerFactor.uncertainty / Math.abs(shifted.powerFactor.value - plain.powerFactor.value),
    ).toBeCloseTo(1, 1);
  });

  it('states an uncertainty that holds the true value, for eight-bit samples with noise', () => {
    let state = 7;
    const random = () => {
      // Park and Miller's generator
      state = (state * 48_271) % 2_147_483_647;
      return state / 2_147_483_647 - 0.5;
    };
    const step = 4;
    const code = (value: number) => step * Math.round((value + 6 * random()) / step);
    let inside = 0;
    for (let trial = 0; trial < 20; trial++) {
      const wave = sampled(
        (t) => code(140 * Math.sin(OMEGA * t + trial)),
        (t) => code(170 * Math.sin(OMEGA * t + trial - 1)) / 10,
        { from: trial / 777 },
      );
      const { voltage, power } = summary(wave, EXACT);
      // noise of 6 peak to peak and quantisation add their variances to the square of the rms
      const truth = Math.sqrt(140 ** 2 / 2 + 3 + step ** 2 / 12);
      if (Math.abs(voltage.value - truth) <= 2 * voltage.uncertainty) inside++;
      expect(power.uncertainty / power.value).toBeLessThan(0.02);
    }
    // two standard uncertainties hold 19 of 20; three may be outside by chance
    expect(inside).toBeGreaterThanOrEqual(17);
  });

  it('refuses what shows no whole period, no alternation, or too few samples', () => {
    const sine = (t: number) => Math.sin(OMEGA * t);
    expect(analyseWaveform(sampled(sine, sine, { seconds: 0.015 }), EXACT)).toHaveProperty('refused');
    expect(
      analyseWaveform(
        sampled(sine, () => 3),
        EXACT,
      ),
    ).toHaveProperty('refused');
    expect(analyseWaveform(sampled(sine, sine, { rate: 250, seconds: 1 }), EXACT)).toHaveProperty('refused');
  });
});

describe('the table of an oscilloscope', () => {
  const rows = Array.from(
    { length: 40 },
    (_, k) => [k * 0.5, Math.round(1000 * Math.sin(k / 3)), Math.round(90 * Math.cos(k / 3))] as const,
  );

  it('is found below whatever stands above it, its units in the names or below them', () => {
    const inNames = `Model,Bench 4\nPoints,40\n\nTime (ms),Voltage (mV),Current (A)\n${rows.map((row) => row.join(',')).join('\n')}\n`;
    const below = `"Time","CH1","CH2"\n(ms),(mV),(A)\n${rows.map((row) => row.join(',')).join('\n')}\n`;
    const german = `Zeit [ms];Spannung [mV];Strom [A]\n${rows.map((row) => row.map((cell) => `${cell}`.replace('.', ',')).join(';')).join('\n')}\n`;
    for (const text of [inNames, below, german]) {
      const { times, voltage, current } = readWaveform(text, ALONE);
      expect(times[3]).toBeCloseTo(0.0015, 12);
      expect(voltage[3]).toBeCloseTo(rows[3]![1] / 1000, 12);
      expect(current[3]).toBe(rows[3]![2]);
    }
  });

  it('takes columns by name, times what one of them is', () => {
    const text = `t,CH1,CH2\n${rows.map((row) => row.join(',')).join('\n')}\n`;
    const { voltage, current } = readWaveform(text, { time: 't', voltage: 'CH1*100', current: 'CH2 * 0.1' });
    expect(voltage[5]).toBe(rows[5]![1] * 100);
    expect(current[5]).toBe(rows[5]![2] * 0.1);
    expect(() => readWaveform(text, ALONE)).toThrow(
      "which column is the voltage? There are t, CH1, CH2. Give --voltage 'CH1*100': a column, times what one of it is in V",
    );
    expect(() => readWaveform(text, { ...ALONE, voltage: 'CH3' })).toThrow(
      '--voltage "CH3": wanted one of t, CH1, CH2',
    );
  });

  it('that is none is refused', () => {
    expect(() => readWaveform('current_A,height_mm\n12,20\n', ALONE)).toThrow('no table of 16 rows');
  });
});
