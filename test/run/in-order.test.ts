import { describe, expect, it } from 'vitest';
import { inOrder } from '../../src/run/in-order.ts';

describe('inOrder', () => {
  it('yields answers in the order of the requests, although later ones come first', async () => {
    const waiting: (() => void)[] = [];
    const ask = (n: number) =>
      new Promise<number>((resolve) => {
        waiting.push(() => resolve(n));
        // the third request lets all go, the latest first
        if (n >= 2) for (const go of waiting.splice(0).reverse()) go();
      });
    const found: number[] = [];
    for await (const n of inOrder([0, 1, 2, 3, 4], 3, ask)) found.push(n);
    expect(found).toEqual([0, 1, 2, 3, 4]);
  });

  it('asks for no more than so many ahead', async () => {
    let asked = 0;
    let taken = 0;
    const ask = async (n: number) => {
      asked++;
      expect(asked - taken).toBeLessThanOrEqual(4);
      return n;
    };
    for await (const _ of inOrder(Array(20).keys(), 4, ask)) taken++;
    expect(taken).toBe(20);
  });

  it('ends with the first failure', async () => {
    const ask = async (n: number) => {
      if (n === 1) throw new Error('gone');
      return n;
    };
    const found: number[] = [];
    const drain = async () => {
      for await (const n of inOrder([0, 1, 2], 3, ask)) found.push(n);
    };
    await expect(drain()).rejects.toThrow('gone');
    expect(found).toEqual([0]);
  });
});
