import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { checksum, digest } from '../../src/store/part-checksum.ts';

describe('the checksum of a part', () => {
  it('is the tag of AES-GCM', () => {
    // test case 1 of D. A. McGrew and J. Viega, The Galois/Counter Mode of Operation (2005),
    // from memory: nothing under the key of zeros
    expect(checksum(new Uint8Array(0))).toBe('58e2fccefa7e3061367f1d57a4e7455a');
  });

  it('is another for bytes that differ in a bit, in order or in length, and the same in shared memory', () => {
    const random = createRandom(1);
    const bytes = Uint8Array.from({ length: 5000 }, () => random.below(256));
    const shared = new Uint8Array(new SharedArrayBuffer(6000), 0, 5000);
    shared.set(bytes);
    const sum = checksum(bytes);
    expect(checksum(shared)).toBe(sum);
    const flipped = bytes.slice();
    flipped[4321]! ^= 4;
    const swapped = bytes.slice();
    swapped.set(bytes.subarray(16, 32), 0);
    swapped.set(bytes.subarray(0, 16), 16);
    const longer = new Uint8Array(5001);
    longer.set(bytes);
    const sums = [bytes, flipped, swapped, longer, bytes.subarray(1)].map(checksum);
    expect(new Set(sums).size).toBe(5);
    for (const each of sums) expect(each).toMatch(/^[0-9a-f]{32}$/);
  });
});

describe('the digest of a part', () => {
  it('is half a SHA-256', () => {
    // FIPS 180-2, appendix B.1, from memory
    expect(digest(Buffer.from('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223');
  });
});
