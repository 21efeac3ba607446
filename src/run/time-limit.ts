/** How long a worker may take before it counts as hanging. Learns from what came back how long designs take. */
export interface TimeLimit {
  /** ms that `count` designs may take. */
  limit(count: number): number;
  /** Notes that designs are handed out; what it returns is called with their number when they are back. */
  start(): (count: number) => void;
}

/** Until the first designs are back: a disc takes milliseconds, a machine may be busy. ms, and ms a design. */
const AT_FIRST = 60_000;
const AT_FIRST_EACH = 250;
/** Then: this much, ms, and this many times what the slowest batch took. */
const ALWAYS = 10_000;
const TIMES = 20;

/** `now` in ms; `expected`: what the slowest designs are expected to take, ms each. */
export function createTimeLimit(now: () => number, expected = 0): TimeLimit {
  let slowest = 0;
  return {
    limit: (count) =>
      slowest === 0
        ? AT_FIRST + Math.max(AT_FIRST_EACH, TIMES * expected) * count
        : ALWAYS + TIMES * Math.max(slowest, expected) * count,
    start() {
      const began = now();
      return (count) => {
        if (count > 0) slowest = Math.max(slowest, (now() - began) / count);
      };
    },
  };
}
