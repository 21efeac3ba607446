import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { createParquetLevels } from '../../src/store/parquet-levels.ts';

/** The levels as the format says to read them: runs of one level, or of bits in groups of eight. */
function read(bytes: Uint8Array, count: number): number[] {
  const levels: number[] = [];
  let at = 0;
  while (levels.length < count) {
    let header = 0;
    let shift = 0;
    for (;;) {
      const byte = bytes[at++]!;
      header += (byte & 127) * 2 ** shift;
      shift += 7;
      if (byte < 128) break;
    }
    if (header % 2 === 1) {
      for (let bit = 0; bit < 8 * (header >> 1); bit++)
        levels.push((bytes[at + (bit >> 3)]! >> (bit & 7)) & 1);
      at += header >> 1;
    } else {
      for (let i = 0; i < header >> 1; i++) levels.push(bytes[at]!);
      at++;
    }
  }
  expect(at).toBe(bytes.length);
  // the last group of bits is filled up
  expect(levels.slice(count).every((level) => level === 0)).toBe(true);
  return levels.slice(0, count);
}

describe('createParquetLevels', () => {
  const levels = createParquetLevels();
  const of = (present: Uint8Array) =>
    levels.of(
      present,
      present.reduce((sum, one) => sum + 1 - one, 0),
    );

  it('says which cells are empty, scattered or in stretches, in any number', () => {
    const random = createRandom(7);
    for (const count of [1, 7, 8, 9, 100, 127, 128, 1000, 16_000]) {
      for (const change of [0, 0.001, 0.05, 0.5, 1]) {
        let level = 1;
        const present = Uint8Array.from({ length: count }, () => {
          if (random.unit() < change) level = 1 - level;
          return level;
        });
        expect(read(of(present), count)).toEqual([...present]);
      }
    }
  });

  it('is short where few stretches of empty cells stand, and never longer than a bit a cell', () => {
    const present = new Uint8Array(16_000).fill(1);
    expect(of(present).length).toBe(4);
    present.fill(0, 5000, 6000);
    expect(of(present).length).toBe(3 + 3 + 4);
    for (let i = 0; i < present.length; i += 2) present[i] = 0;
    expect(of(present).length).toBe(2000 + 2);
  });
});
