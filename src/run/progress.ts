import { type GenericFormatter, SingleBar } from 'cli-progress';
import { sayDuration } from './duration.ts';

export interface Progress {
  /** `kept`: the last of them were there already, and say nothing about how fast it goes. */
  update(done: number, kept?: boolean): void;
  /** Takes the bar off the terminal. */
  stop(): void;
}

/** What is done, and how much of it there is. */
export interface Undertaking {
  readonly total: number;
  /** `designs` */
  readonly noun: string;
}

/** Narrower than this a bar says less than the numbers beside it. */
const NARROWEST_BAR = 10;
const WIDEST_BAR = 40;

/** A log file gets a line this often, ms. */
const LOG_MS = 60_000;

/** Things done a second, counted from the first of this run on: starting the threads says nothing about the rest. */
function createRate(now: () => number): {
  note(done: number, kept: boolean): void;
  of(done: number): number;
} {
  let first: { readonly at: number; readonly done: number } | null = null;
  return {
    note(done, kept) {
      if (first === null || kept) first = { at: now(), done };
    },
    of: (done) => (first === null ? 0 : (1000 * (done - first.done)) / (now() - first.at)),
  };
}

/**
 * A progress bar on a terminal; on anything else nothing is written. It neither hides the cursor nor changes how the
 * terminal wraps, so that there is nothing to restore however the process ends. `now` in ms.
 */
export function showProgress(
  stream: NodeJS.WritableStream,
  undertaking: Undertaking,
  now: () => number,
): Progress {
  const rate = createRate(now);
  const format: GenericFormatter = (_options, { value, maxWidth }) =>
    progressLine(value, undertaking, rate.of(value), maxWidth);
  const bar = new SingleBar({ stream, format, linewrap: true, clearOnComplete: true, fps: 5 });
  bar.start(undertaking.total, 0);
  return {
    update(done, kept = false) {
      rate.note(done, kept);
      bar.update(done);
    },
    stop: () => bar.stop(),
  };
}

/** One line a minute, fit for a log file: time, whose progress it is, done, rate, left. `now` in ms since 1970. */
export function logProgress(
  stream: NodeJS.WritableStream,
  whose: string,
  undertaking: Undertaking,
  now: () => number,
): Progress {
  const rate = createRate(now);
  let done = 0;
  const timer = setInterval(() => {
    const time = new Date(now()).toISOString().replace(/\.\d+Z$/, 'Z');
    stream.write(`${time} ${whose}: ${progressText(done, undertaking, rate.of(done))}\n`);
  }, LOG_MS);
  return {
    update(count, kept = false) {
      rate.note(count, kept);
      done = count;
    },
    stop: () => clearInterval(timer),
  };
}

/** `25 % · 25,000 of 100,000 designs · 12,500/s · 6 s left`; a rate of 0 or NaN is not known yet. */
function progressText(done: number, { total, noun }: Undertaking, rate: number): string {
  const count = (n: number) => Math.round(n).toLocaleString('en');
  const parts = [`${Math.floor((100 * done) / total)} %`, `${count(done)} of ${count(total)} ${noun}`];
  if (rate > 0) parts.push(`${count(rate)}/s`, `${sayDuration((total - done) / rate)} left`);
  return parts.join(' · ');
}

/** One line at most `width` characters wide: a bar and what it stands for. Rate in things a second. */
export function progressLine(done: number, undertaking: Undertaking, rate: number, width: number): string {
  const text = progressText(done, undertaking, rate);
  // one column stays free: some terminals wrap as soon as the last one is written
  const room = Math.min(WIDEST_BAR, width - text.length - 4);
  if (room < NARROWEST_BAR) return text.slice(0, Math.max(0, width - 1));
  const filled = Math.floor((room * done) / undertaking.total);
  return `[${'='.repeat(filled)}${' '.repeat(room - filled)}] ${text}`;
}
