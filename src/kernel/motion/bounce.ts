/** What a curve of the gap over time shows of a bounce. SI. */
export interface Bounce {
  /** Turning points, the highest and lowest by turns, in order of time: gaps and times. */
  readonly peaks: readonly number[];
  readonly peakTimes: readonly number[];
  readonly troughs: readonly number[];
  readonly troughTimes: readonly number[];
  /** Hz; NaN with fewer than two like turning points. */
  readonly frequency: number;
  /** 1/s, positive: it grows. NaN with fewer than three swings. */
  readonly growth: number;
}

/** A turn counts when the curve has gone back by so much, m, or by this share of the last swing. */
const LEAST_TURN = 2e-6;
const TURN_SHARE = 0.02;

/**
 * Turning points of a bounce, its frequency and its growth. What pulsates at twice the supply frequency is averaged away
 * first, over half a period of the supply. A swing is the difference of neighbouring turning points, so that no resting
 * place needs to be known; growth is the slope of the swings' logarithms over time, by least squares.
 *
 * @param gaps at even times, m @param step s @param frequency of the supply, Hz
 * @param from first time that counts, s: swings before are left out of frequency and growth
 */
export function readBounce(gaps: ArrayLike<number>, step: number, frequency: number, from = 0): Bounce {
  const width = Math.max(1, Math.round(1 / (2 * frequency * step)));
  const smooth = movingMean(gaps, width);
  const delay = ((width - 1) * step) / 2;
  const peaks: number[] = [];
  const peakTimes: number[] = [];
  const troughs: number[] = [];
  const troughTimes: number[] = [];
  const swings: { readonly time: number; readonly size: number }[] = [];
  let rising = true;
  let extreme = smooth[0] ?? 0;
  let at = 0;
  let last = extreme;
  for (let i = 1; i < smooth.length; i++) {
    const value = smooth[i]!;
    if (rising ? value >= extreme : value <= extreme) {
      extreme = value;
      at = i;
      continue;
    }
    const turn = Math.max(LEAST_TURN, TURN_SHARE * Math.abs(extreme - last));
    if (Math.abs(value - extreme) < turn) continue;
    const time = at * step + delay;
    if (rising) {
      peaks.push(extreme);
      peakTimes.push(time);
    } else {
      troughs.push(extreme);
      troughTimes.push(time);
    }
    if (peaks.length + troughs.length > 1) swings.push({ time, size: Math.abs(extreme - last) });
    last = extreme;
    extreme = value;
    at = i;
    rising = !rising;
  }
  const late = swings.filter(({ time }) => time >= from);
  return {
    peaks,
    peakTimes,
    troughs,
    troughTimes,
    frequency: meanFrequency(
      peakTimes.filter((time) => time >= from),
      troughTimes.filter((time) => time >= from),
    ),
    growth: late.length < 3 ? Number.NaN : slopeOf(late.map(({ time, size }) => [time, Math.log(size)])),
  };
}

/** Means of so many neighbours. */
function movingMean(values: ArrayLike<number>, width: number): Float64Array {
  const count = Math.max(0, values.length - width + 1);
  const means = new Float64Array(count);
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    sum += values[i]!;
    if (i >= width) sum -= values[i - width]!;
    if (i >= width - 1) means[i - width + 1] = sum / width;
  }
  return means;
}

function meanFrequency(...series: readonly (readonly number[])[]): number {
  let periods = 0;
  let time = 0;
  for (const times of series) {
    if (times.length < 2) continue;
    periods += times.length - 1;
    time += times[times.length - 1]! - times[0]!;
  }
  return periods === 0 ? Number.NaN : periods / time;
}

function slopeOf(points: readonly (readonly [number, number])[]): number {
  const n = points.length;
  const meanX = points.reduce((sum, [x]) => sum + x, 0) / n;
  const meanY = points.reduce((sum, [, y]) => sum + y, 0) / n;
  let xx = 0;
  let xy = 0;
  for (const [x, y] of points) {
    xx += (x - meanX) ** 2;
    xy += (x - meanX) * (y - meanY);
  }
  return xy / xx;
}
