import { compressUsingDict, createCCtx, init } from '@bokuweb/zstd-wasm';

/**
 * Zstandard (RFC 8878), level 1: on tables of numbers level 3 takes longer and saves nothing more. Compiled to
 * WebAssembly, so that its bytes are the same everywhere; Node has it of its own only from 22.15 on. Whoever imports
 * this file loads it: threads that make tables.
 */
const LEVEL = 1;
const NO_DICTIONARY = new Uint8Array(0);

await init();

/** Its memory is used again; what it compressed before does not show in what it makes. */
let context: number | null = null;

export function zstd(bytes: Uint8Array): Uint8Array {
  context ??= createCCtx() as number;
  return compressUsingDict(context, bytes, NO_DICTIONARY, LEVEL);
}
