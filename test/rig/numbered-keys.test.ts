import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { NumberedKeys } from '../../src/rig/numbered-keys.ts';

const key = new Float64Array(2);
const words = new Uint32Array(key.buffer);

function set(a: number, b: number): void {
  key[0] = a;
  key[1] = b;
}

describe('NumberedKeys', () => {
  it('numbers keys in the order in which they are first seen, as a map does', () => {
    const keys = new NumberedKeys(2, 100_000);
    const numbers = new Map<string, number>();
    const random = createRandom(3, 1, 1);
    const wrong: string[] = [];
    for (let i = 0; i < 50_000; i++) {
      // few enough that many come back; whole numbers and fractions
      set(random.below(150), random.below(150) / 7);
      const name = key.join();
      if (!numbers.has(name)) numbers.set(name, numbers.size);
      if (keys.number(key, words) !== numbers.get(name)) wrong.push(name);
    }
    expect(wrong).toEqual([]);
    expect(keys.count).toBe(numbers.size);
    expect(numbers.size).toBeGreaterThan(15_000);
  });

  it('tells keys apart that differ in the last bit of one number', () => {
    const keys = new NumberedKeys(2, 10);
    set(0.1, 1);
    expect(keys.number(key, words)).toBe(0);
    set(0.1, 1 + Number.EPSILON);
    expect(keys.find(key, words)).toBe(-1);
    expect(keys.number(key, words)).toBe(1);
  });

  it('takes no more than it may, and still knows what it has', () => {
    const keys = new NumberedKeys(2, 300);
    for (let i = 0; i < 1000; i++) {
      set(i, -i);
      expect(keys.number(key, words)).toBe(i < 300 ? i : -1);
    }
    set(299, -299);
    expect(keys.find(key, words)).toBe(299);
  });

  it('knows nothing once cleared', () => {
    const keys = new NumberedKeys(2, 300);
    set(1, 2);
    keys.number(key, words);
    keys.clear();
    expect(keys.find(key, words)).toBe(-1);
    set(3, 4);
    expect(keys.number(key, words)).toBe(0);
  });
});
