import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ReelCutting } from '../../src/rig/reel-cutting.ts';

type Kind = readonly [length: number, number: number];

function reels(kinds: readonly Kind[], reelLength: number): number {
  const cutting = new ReelCutting();
  cutting.clear();
  for (const [length, number] of kinds) cutting.add(length, number);
  return cutting.reels(reelLength);
}

/** The same rule piece by piece, on a list of reels. */
function pieceByPiece(kinds: readonly Kind[], reelLength: number): number {
  const left: number[] = [];
  for (const [length, number] of [...kinds].sort(([a], [b]) => b - a)) {
    for (let k = 0; k < number; k++) {
      const r = left.findIndex((rest) => rest >= length);
      if (r >= 0) left[r]! -= length;
      else left.push(reelLength - length);
    }
  }
  return left.length;
}

describe('reels that are cut', () => {
  it('give several pieces, and what is left goes to shorter ones', () => {
    expect(reels([[100, 3]], 200)).toBe(2);
    // 130 + 70 on each of two reels
    expect(
      reels(
        [
          [70, 2],
          [130, 2],
        ],
        200,
      ),
    ).toBe(2);
    expect(
      reels(
        [
          [70, 3],
          [130, 2],
        ],
        200,
      ),
    ).toBe(3);
    // a reel that holds just enough
    expect(reels([[0.1 + 0.2, 1]], 0.3)).toBe(1);
  });

  it('are as many as when each piece is cut by itself', () => {
    const kind = fc.tuple(fc.integer({ min: 1, max: 100 }), fc.integer({ min: 1, max: 40 }));
    fc.assert(
      fc.property(
        fc.array(kind, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 100, max: 400 }),
        (kinds, reel) => {
          const found = reels(kinds, reel);
          // reels of one kind are cut together, so that a later kind may meet them in another order
          expect(Math.abs(found - pieceByPiece(kinds, reel))).toBeLessThanOrEqual(1);
          const total = kinds.reduce((sum, [length, number]) => sum + length * number, 0);
          expect(found).toBeGreaterThanOrEqual(total / reel);
        },
      ),
    );
  });
});
