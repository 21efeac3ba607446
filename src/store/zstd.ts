import { compress, init } from '@bokuweb/zstd-wasm';

/**
 * Zstandard (RFC 8878), level 1: on tables of numbers level 3 takes longer and saves nothing more. Compiled to
 * WebAssembly, so that its bytes are the same everywhere; Node has it of its own only from 22.15 on. Whoever imports
 * this file loads it: threads that make tables.
 */
const LEVEL = 1;

await init();

export function zstd(bytes: Uint8Array): Uint8Array {
  return compress(bytes, LEVEL);
}
