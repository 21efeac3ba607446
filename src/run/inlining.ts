import { setFlagsFromString } from 'node:v8';

/**
 * For runs of many designs: lets the compiler carry more small functions into the one that calls them. A design is some fifty
 * laws, each a short function of numbers, and where a call remains its numbers become objects. V8 stops at 920 bytecodes by
 * default; with 3000 a design takes 5 to 15 % less time, with 6000 no less than that. Compiling takes each thread 0.6 s of
 * processor time more, which fewer designs do not win back. V8 looks at it whenever it compiles, so it may be set at any time.
 */
export function inlineForMany(designs: number, threads: number): void {
  if (designs / threads >= MANY) setFlagsFromString('--max-inlined-bytecode-size-cumulative=3000');
}

/** Designs of a thread: 2 to 3 us less for each. */
const MANY = 300_000;
