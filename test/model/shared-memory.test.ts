import { describe, expect, it } from 'vitest';
import { createFreeMemory, intoSharedMemory, sharedBytes } from '../../src/model/shared-memory.ts';

describe('intoSharedMemory', () => {
  it('puts pieces one after the other into the memory that it is given', () => {
    const memory = new SharedArrayBuffer(10);
    const pieces = intoSharedMemory([Uint8Array.of(1, 2, 3), new Uint8Array(0), Uint8Array.of(4, 5)], memory);
    expect(pieces.map((piece) => [...piece])).toEqual([[1, 2, 3], [], [4, 5]]);
    expect(pieces.every(({ buffer }) => buffer === memory)).toBe(true);
    expect(pieces[2]!.byteOffset).toBe(3);
  });

  it('takes larger memory where that is too small, with room for a little more', () => {
    const memory = new SharedArrayBuffer(2);
    const [piece] = intoSharedMemory([new Uint8Array(1000).fill(7)], memory);
    expect(piece!.buffer).not.toBe(memory);
    expect(piece!.buffer.byteLength).toBeGreaterThan(1000);
    expect(piece!.every((byte) => byte === 7)).toBe(true);
  });
});

describe('free memory', () => {
  it('gives out what it was given, each once', () => {
    const free = createFreeMemory();
    expect(free.take()).toBeNull();
    const { buffer } = sharedBytes(8, null);
    free.give(buffer);
    expect(free.take()).toBe(buffer);
    expect(free.take()).toBeNull();
  });

  it('does not take memory of one thread alone', () => {
    const free = createFreeMemory();
    free.give(new Uint8Array(8).buffer);
    free.give(undefined);
    free.give(null);
    expect(free.take()).toBeNull();
  });

  it('does not take the same memory twice, for two workers would write to it', () => {
    const free = createFreeMemory();
    const { buffer } = sharedBytes(8, null);
    free.give(buffer);
    expect(() => free.give(buffer)).toThrow('given back twice');
  });

  it('keeps nothing once it is closed', () => {
    const free = createFreeMemory();
    free.give(sharedBytes(8, null).buffer);
    free.close();
    free.give(sharedBytes(8, null).buffer);
    expect(free.take()).toBeNull();
  });
});
