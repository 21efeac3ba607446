import { setFlagsFromString } from 'node:v8';

/**
 * For commands that are over in a second: the optimising compiler takes functions that have run nine times as long as it
 * otherwise waits for. It works on threads of its own, beside which few of these functions run long enough to win back what
 * compiling them took: the card of a design took 9 to 11 % less processor time, a run of one design 12 % or more, a report of
 * 160 designs on the front 23 %. V8 looks at it whenever a function has used up what it was given, so it may be set at any time.
 * @returns sets it to what it was before
 */
export function compileLate(): () => void {
  const before = isLate;
  set(true);
  return () => set(before);
}

/** For what may take longer, in a process that was told otherwise. */
export function compileAsUsual(): void {
  set(false);
}

let isLate = false;

/** Bytes of bytecode; V8's own is 66 kB. */
const USUAL = 66 * 1024;
const LATE = 600_000;
/** The V8 of Node 20, in which it was measured; later ones count otherwise. */
const MEASURED = /^11\./;

function set(late: boolean): void {
  isLate = late;
  if (MEASURED.test(process.versions.v8)) setFlagsFromString(`--interrupt-budget=${late ? LATE : USUAL}`);
}
