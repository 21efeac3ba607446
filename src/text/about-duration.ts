import { formatDuration } from './duration.ts';

const MINUTE = 60;
const HOUR = 3600;

/** Times of heat are known to a fifth: `about 40 s`, `about 5 min`, `about 1 h 10 min`. */
export function aboutDuration(seconds: number): string {
  if (!(seconds >= 1)) return formatDuration(seconds);
  return `about ${formatDuration(roundTo(seconds, stepOf(seconds)))}`;
}

function stepOf(seconds: number): number {
  if (seconds < 10) return 1;
  if (seconds < 2 * MINUTE) return 5;
  if (seconds < 4 * MINUTE) return MINUTE / 2;
  if (seconds < 15 * MINUTE) return MINUTE;
  if (seconds < HOUR) return 5 * MINUTE;
  return seconds < 6 * HOUR ? 10 * MINUTE : HOUR;
}

/** A temperature that follows from heat, in degC: to 5 degC, from 200 degC on to 10. */
export function roundTemperature(celsius: number): number {
  return roundTo(celsius, celsius < 200 ? 5 : 10);
}

function roundTo(value: number, step: number): number {
  return Math.round(value / step) * step;
}
