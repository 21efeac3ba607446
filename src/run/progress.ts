import { type GenericFormatter, SingleBar } from 'cli-progress';
import { formatDuration } from '../text/duration.ts';
import { grouped } from '../text/grouped.ts';

export interface Progress {
  /** `kept`: the last of them were there already, and do not show how fast it goes. */
  update(done: number, kept?: boolean): void;
  /** Takes the bar off the terminal. */
  stop(): void;
}

/** What is done, and how much of it there is. */
export interface Undertaking {
  readonly total: number;
  /** `designs` */
  readonly noun: string;
  /** What it is a part of. */
  readonly within?: Within | undefined;
}

export interface Within {
  reach(done: number, kept: boolean): void;
  /** How far the whole is. `left`: s that what is to be done here will take; null while nobody knows. */
  words(left: number | null): string;
}

/** Narrower than this a bar shows less than the numbers beside it. */
const NARROWEST_BAR = 10;
const WIDEST_BAR = 40;

/** A log file gets a line this often, ms. */
const LOG_MS = 60_000;

/** Things done a second, counted from the first of this run on: starting the threads shows nothing of the rest. */
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
      undertaking.within?.reach(done, kept);
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
    stream.write(`${time} ${whose}: ${progressTexts(done, undertaking, rate.of(done))[0]}\n`);
  }, LOG_MS);
  return {
    update(count, kept = false) {
      rate.note(count, kept);
      undertaking.within?.reach(count, kept);
      done = count;
    },
    stop: () => clearInterval(timer),
  };
}

/**
 * `25 % · 25,000 of 100,000 designs · 12,500/s · 6 s left`, then without the rate, and without the count; a rate of 0
 * or NaN is not known yet.
 */
function progressTexts(
  done: number,
  { total, noun, within }: Undertaking,
  rate: number,
): [string, ...string[]] {
  const number = (n: number) => grouped(Math.round(n));
  const seconds = rate > 0 ? (total - done) / rate : null;
  const percent = `${Math.floor((100 * done) / total)} %`;
  const count = `${number(done)} of ${number(total)} ${noun}`;
  const speed = seconds === null ? null : `${number(rate)}/s`;
  const left = seconds === null || seconds === 0 ? null : `${formatDuration(seconds)} left`;
  const whole = within?.words(seconds) ?? null;
  const join = (...parts: (string | null)[]) => parts.filter((part) => part !== null).join(' · ');
  return [
    join(percent, count, speed, left, whole),
    join(percent, count, left, whole),
    join(percent, left, whole),
  ];
}

/**
 * One line, so much narrower than `width` that what a terminal writes behind it for Ctrl-C, `^C`, makes no second line: a
 * bar and what it stands for, or as much of that as there is room for. Rate in things a second.
 */
export function progressLine(done: number, undertaking: Undertaking, rate: number, width: number): string {
  const room = Math.max(0, width - 1 - '^C'.length);
  const texts = progressTexts(done, undertaking, rate);
  const bar = Math.min(WIDEST_BAR, room - texts[0].length - 3);
  if (bar < NARROWEST_BAR)
    return (texts.find(({ length }) => length <= room) ?? texts.at(-1)!).slice(0, room);
  const filled = Math.floor((bar * done) / undertaking.total);
  return `[${'='.repeat(filled)}${' '.repeat(bar - filled)}] ${texts[0]}`;
}
