import { type GenericFormatter, SingleBar } from 'cli-progress';
import { sayDuration } from './duration.ts';

export interface Progress {
  update(done: number): void;
  /** Takes the bar off the terminal. */
  stop(): void;
}

/** Narrower than this a bar says less than the numbers beside it. */
const NARROWEST_BAR = 10;
const WIDEST_BAR = 40;

/**
 * A progress bar on a terminal; on anything else nothing is written. It neither hides the cursor nor changes how the
 * terminal wraps, so that there is nothing to restore however the process ends. `now` in ms.
 */
export function showProgress(stream: NodeJS.WritableStream, total: number, now: () => number): Progress {
  // counted from the first rows on: starting the threads says nothing about how long the rest takes
  let first: { readonly at: number; readonly done: number } | null = null;
  const rate = (done: number) => (first === null ? 0 : (1000 * (done - first.done)) / (now() - first.at));
  const format: GenericFormatter = (_options, { value, maxWidth }) =>
    progressLine(value, total, rate(value), maxWidth);
  const bar = new SingleBar({ stream, format, linewrap: true, clearOnComplete: true, fps: 5 });
  bar.start(total, 0);
  return {
    update(done) {
      first ??= { at: now(), done };
      bar.update(done);
    },
    stop: () => bar.stop(),
  };
}

/**
 * One line at most `width` characters wide: bar, percent, count, rate (designs/s; 0 or NaN: not known yet), time left.
 */
export function progressLine(done: number, total: number, rate: number, width: number): string {
  const count = (n: number) => Math.round(n).toLocaleString('en');
  const parts = [`${Math.floor((100 * done) / total)} %`, `${count(done)} of ${count(total)} designs`];
  if (rate > 0) parts.push(`${count(rate)}/s`, `${sayDuration((total - done) / rate)} left`);
  const text = parts.join(' · ');
  // one column stays free: some terminals wrap as soon as the last one is written
  const room = Math.min(WIDEST_BAR, width - text.length - 4);
  if (room < NARROWEST_BAR) return text.slice(0, Math.max(0, width - 1));
  const filled = Math.floor((room * done) / total);
  return `[${'='.repeat(filled)}${' '.repeat(room - filled)}] ${text}`;
}
