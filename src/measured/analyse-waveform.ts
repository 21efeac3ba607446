import { fitSine } from '../math/sine-fit.ts';

/** Samples of voltage and current at the same instants. SI. */
export interface Waveform {
  readonly times: Float64Array;
  readonly voltage: Float64Array;
  readonly current: Float64Array;
}

/** Standard uncertainties of the instruments; 0 where not stated. */
export interface InstrumentErrors {
  /** Of the gain, as shares. */
  readonly voltage: number;
  readonly current: number;
  /** Of one channel against the other, s. */
  readonly delay: number;
}

export interface Estimated {
  readonly value: number;
  /** Standard uncertainty, 0 where none is known. */
  readonly uncertainty: number;
}

/** What a meter would read. SI. */
export interface WaveformSummary {
  readonly periods: number;
  readonly samples: number;
  readonly frequency: Estimated;
  readonly voltage: Estimated;
  readonly current: Estimated;
  readonly power: Estimated;
  readonly powerFactor: Estimated;
  /** Means that were taken off. */
  readonly voltageOffset: number;
  readonly currentOffset: number;
}

/** Periods from which on a raised cosine separates the fundamental from its harmonics. */
const FEWEST_WEIGHTED = 3;
/** A wave that swings by less than this fraction of its offset is a rounding error. */
const LEAST_SWING = 1e-6;
/** Fewer samples a period than this do not show a wave. */
const FEWEST_SAMPLES = 8;

/**
 * Root-mean-square voltage and current, active power, power factor and frequency over whole periods.
 *
 * Method: the frequency is that of the sine nearest to the voltage; the means of u2, i2 and u i are taken over the largest
 * whole number of periods by the trapezoidal rule, whose last step ends within an interval of samples; offsets are taken
 * off first. Power factor: active over apparent power, harmonics included (IEEE Std 1459; definition from memory).
 * Uncertainties (JCGM 100): scatter from period to period, the quantisation of both channels, the stated gains and the
 * stated delay between channels, by which the power changes with the reactive power and the power factor with its sine.
 * A gain common to u i and u times i leaves the power factor as it is.
 * Accuracy: 1e-4 of the rms values from 50 samples a period on (tested against closed forms).
 */
export function analyseWaveform(
  { times, voltage, current }: Waveform,
  errors: InstrumentErrors,
): WaveformSummary | { readonly refused: string } {
  const start = frequencyFromCrossings(times, voltage);
  if (start === null) return { refused: 'fewer than two whole swings of the voltage: record a few periods' };
  const sine = fitFundamental(times, voltage, start);
  if (sine === null) return { refused: 'no steady frequency in the voltage' };
  const { frequency } = sine;
  const first = times[0]!;
  const span = times.at(-1)! - first;
  // a whole number of periods to within rounding is one
  const periods = Math.floor(span * frequency + 1e-6);
  if (periods < 1) return { refused: 'less than one period: record a few' };
  const perPeriod = (times.length - 1) / (span * frequency);
  if (perPeriod < FEWEST_SAMPLES) {
    return { refused: `${perPeriod.toPrecision(2)} samples a period: at least ${FEWEST_SAMPLES}` };
  }
  const end = Math.min(times.at(-1)!, first + periods / frequency);
  const voltageOffset = meanProduct(times, voltage, null, first, end);
  const currentOffset = meanProduct(times, current, null, first, end);
  const u = voltage.map((value) => value - voltageOffset);
  const i = current.map((value) => value - currentOffset);
  const over = (from: number, to: number) => {
    const rms = (wave: Float64Array) => Math.sqrt(meanProduct(times, wave, wave, from, to));
    const [volts, amperes, watts] = [rms(u), rms(i), meanProduct(times, u, i, from, to)];
    return { volts, amperes, watts, factor: watts / (volts * amperes) };
  };
  const whole = over(first, end);
  const none = (rms: number, offset: number) => !(rms > LEAST_SWING * Math.abs(offset));
  if (none(whole.volts, voltageOffset) || none(whole.amperes, currentOffset)) {
    return { refused: 'no current or no voltage that alternates' };
  }
  const each = Array.from({ length: periods }, (_, k) =>
    over(first + k / frequency, Math.min(end, first + (k + 1) / frequency)),
  );
  const scatter = (pick: (one: typeof whole) => number) => standardError(each.map(pick));

  const { volts, amperes, watts, factor } = whole;
  // codes repeat from period to period, and so do their errors
  const [uStep, iStep] = [voltage, current].map((wave) => stepOf(wave) / Math.sqrt(12 * perPeriod)) as [
    number,
    number,
  ];
  const reactive = Math.sqrt(Math.max(0, (volts * amperes) ** 2 - watts ** 2));
  const turn = 2 * Math.PI * frequency * errors.delay;
  return {
    periods,
    samples: times.length,
    frequency: { value: frequency, uncertainty: sine.frequencyError },
    voltage: {
      value: volts,
      uncertainty: Math.hypot(
        scatter((one) => one.volts),
        uStep,
        volts * errors.voltage,
      ),
    },
    current: {
      value: amperes,
      uncertainty: Math.hypot(
        scatter((one) => one.amperes),
        iStep,
        amperes * errors.current,
      ),
    },
    power: {
      value: watts,
      uncertainty: Math.hypot(
        scatter((one) => one.watts),
        amperes * uStep,
        volts * iStep,
        watts * errors.voltage,
        watts * errors.current,
        reactive * turn,
      ),
    },
    powerFactor: {
      value: factor,
      uncertainty: Math.hypot(
        scatter((one) => one.factor),
        uStep / volts,
        iStep / amperes,
        (reactive / (volts * amperes)) * turn,
      ),
    },
    voltageOffset,
    currentOffset,
  };
}

/**
 * The sine of the voltage's fundamental. Over three periods or more the samples are weighted by a raised cosine, by which
 * harmonics leak into the fit a thousand times less than without.
 */
function fitFundamental(times: Float64Array, wave: Float64Array, start: number) {
  const [first, span] = [times[0]!, times.at(-1)! - times[0]!];
  if (span * start < FEWEST_WEIGHTED) return fitSine(times, wave, start);
  return fitSine(
    times,
    wave,
    start,
    times.map((t) => Math.sin((Math.PI * (t - first)) / span) ** 2),
  );
}

/** Mean of a times b (of a alone) between two times, by the trapezoidal rule; both are straight between samples. */
function meanProduct(
  times: Float64Array,
  a: Float64Array,
  b: Float64Array | null,
  from: number,
  to: number,
): number {
  let sum = 0;
  const value = (k: number, t: number): number => {
    const fraction = (t - times[k]!) / (times[k + 1]! - times[k]!);
    const at = (wave: Float64Array) => wave[k]! + fraction * (wave[k + 1]! - wave[k]!);
    return at(a) * (b === null ? 1 : at(b));
  };
  let k = intervalOf(times, from);
  let t = from;
  while (k < times.length - 1 && t < to) {
    const next = Math.min(times[k + 1]!, to);
    sum += ((next - t) * (value(k, t) + value(k, next))) / 2;
    t = next;
    k++;
  }
  return sum / (to - from);
}

/** The interval of samples that holds a time. */
function intervalOf(times: Float64Array, time: number): number {
  let low = 0;
  let high = times.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >>> 1;
    if (times[middle]! <= time) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** From upward crossings of the mean, armed only below a tenth of the swing so that noise counts none twice; null below two. */
function frequencyFromCrossings(times: Float64Array, wave: Float64Array): number | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of wave) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const middle = (low + high) / 2;
  const arm = middle - (high - low) / 10;
  const crossings: number[] = [];
  let armed = false;
  for (let k = 1; k < wave.length; k++) {
    if (wave[k - 1]! < arm) armed = true;
    if (!armed || wave[k - 1]! >= middle || wave[k]! < middle) continue;
    const fraction = (middle - wave[k - 1]!) / (wave[k]! - wave[k - 1]!);
    crossings.push(times[k - 1]! + fraction * (times[k]! - times[k - 1]!));
    armed = false;
  }
  if (crossings.length < 2) return null;
  return (crossings.length - 1) / (crossings.at(-1)! - crossings[0]!);
}

/** Of a mean; 0 for a single value. */
function standardError(values: readonly number[]): number {
  const n = values.length;
  if (n < 2) return 0;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(square / (n - 1) / n);
}

/** The smallest step between two codes of a channel; 0 where values hardly repeat, as a computed wave's do. */
function stepOf(wave: Float64Array): number {
  const codes = [...new Set(wave)].sort((x, y) => x - y);
  if (codes.length < 2 || codes.length > wave.length / 2) return 0;
  let step = Number.POSITIVE_INFINITY;
  for (let k = 1; k < codes.length; k++) step = Math.min(step, codes[k]! - codes[k - 1]!);
  // codes that were printed with few digits differ by rounding alone
  return step;
}
