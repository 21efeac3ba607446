import { compress, decompress } from '@bokuweb/zstd-wasm';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { zstd } from '../../src/store/zstd.ts';

/** Bytes as pages hold them: doubles of few and of many values, texts, nothing. */
function pages(): Uint8Array[] {
  const random = createRandom(1);
  const numbers = (values: number) => {
    const levels = Array.from({ length: values }, () => random.unit());
    return new Uint8Array(Float64Array.from({ length: 16_000 }, () => levels[random.below(values)]!).buffer);
  };
  return [
    ...[1, 7, 500, 16_000].map(numbers),
    Buffer.from('rests lifts '.repeat(9000)),
    new Uint8Array(0),
    Uint8Array.of(1),
  ];
}

describe('zstd', () => {
  it('makes bytes that do not depend on what it compressed before, and that read back', () => {
    const all = pages();
    const fresh = all.map((page) => compress(page, 1));
    for (const order of [all.keys(), [...all.keys()].reverse(), all.keys()]) {
      for (const i of order) {
        expect(Buffer.from(zstd(all[i]!)).equals(fresh[i]!)).toBe(true);
      }
    }
    for (const [i, page] of all.entries()) {
      if (page.length > 0) expect(Buffer.from(decompress(fresh[i]!)).equals(page)).toBe(true);
    }
  });
});
