import { formatDuration } from '../text/duration.ts';

/** Watches over work from which nothing comes back: prints so, and finds when that has lasted too long. */
export interface Standstill {
  /** Something came back, or there is nothing to wait for. */
  end(): void;
  /** To be called again and again; true once nothing has come back for as long as the user wants to wait. */
  check(why: () => string): boolean;
  /** How long nothing has come back, ms. */
  readonly waited: number;
}

export interface StandstillOptions {
  /** How long the user wants to wait, ms. */
  readonly timeout: number;
  /** Between two lines, ms. */
  readonly every: number;
  readonly print: (line: string) => void;
  /** ms. */
  readonly now: () => number;
}

export function createStandstill(options: StandstillOptions): Standstill {
  const { timeout, every, print, now } = options;
  let last: number | null = null;
  let waited = 0;
  let printed = 0;
  const words = (ms: number) => formatDuration(ms / 1000);
  return {
    get waited() {
      return waited;
    },
    end() {
      last = null;
      waited = 0;
      printed = 0;
    },
    check(why) {
      const time = now();
      // a machine that slept, or whose clock was set, has not waited all that time
      if (last !== null) waited += Math.min(Math.max(0, time - last), every);
      last = time;
      if (waited >= timeout) {
        waited = timeout;
        return true;
      }
      const lines = Math.floor(waited / every);
      if (lines > printed) {
        printed = lines;
        print(
          `waiting for ${words(lines * every)}: ${why()}; after ${words(timeout)} this machine goes on by itself (--queue-timeout)`,
        );
      }
      return false;
    },
  };
}
