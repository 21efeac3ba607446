import type { Random } from './random.ts';
import { DIRECTIONS } from './sobol-directions.ts';

/** Dimensions that there are direction numbers for. */
export const SOBOL_DIMENSIONS = DIRECTIONS.length + 1;

const BITS = 32;

export interface Sobol {
  /** Writes the next point, each coordinate from 0 up to, not including, 1, to the front of `into`. */
  next(into: Float64Array): void;
}

/**
 * Sobol' points, at most 2^32 of them: any aligned block of 2^k points has one point in each of the 2^k equal slices
 * of every axis. In Gray code order (I. A. Antonov, V. M. Saleev, USSR Comput. Math. Math. Phys. 19 (1979) 252-256);
 * the first is the origin.
 *
 * With `scramble`, each axis is Owen-scrambled, which keeps the slices and takes the points off their lattice: nested
 * uniform scrambling by a hash, B. Burley, Practical hash-based Owen scrambling, J. Comput. Graph. Tech. 9 (4) (2020)
 * 1-20, with the hash of S. Laine and T. Karras that it gives; one seed an axis is drawn from `scramble`.
 *
 * Throws RangeError for fewer than 1 or more than SOBOL_DIMENSIONS dimensions.
 */
export function createSobol(dimensions: number, scramble: Random | null): Sobol {
  if (!(dimensions >= 1 && dimensions <= SOBOL_DIMENSIONS)) {
    throw new RangeError(`Sobol' points have 1 to ${SOBOL_DIMENSIONS} dimensions, not ${dimensions}`);
  }
  const directions = Array.from({ length: dimensions }, (_, d) => directionNumbers(d));
  const seeds = directions.map(() => scramble?.uint32() ?? 0);
  const point = new Uint32Array(dimensions);
  let index = 0;
  return {
    next(into) {
      for (let d = 0; d < dimensions; d++) {
        const bits = scramble ? nestedUniform(point[d]!, seeds[d]!) : point[d]!;
        into[d] = bits * 2 ** -BITS;
      }
      const zero = BITS - 1 - Math.clz32(~index & (index + 1));
      for (let d = 0; d < dimensions; d++) point[d]! ^= directions[d]![zero]!;
      index++;
    },
  };
}

/** Direction numbers of dimension `d`, from 0, as 32-bit binary fractions. */
function directionNumbers(d: number): Uint32Array {
  const v = new Uint32Array(BITS);
  if (d === 0) return v.map((_, i) => 2 ** (BITS - 1 - i));
  const [s, a, m] = DIRECTIONS[d - 1]!;
  for (let i = 0; i < BITS; i++) {
    if (i < s) {
      v[i] = m[i]! * 2 ** (BITS - 1 - i);
    } else {
      let bits = v[i - s]! ^ (v[i - s]! >>> s);
      for (let k = 1; k < s; k++) if ((a >> (s - 1 - k)) & 1) bits ^= v[i - k]!;
      v[i] = bits;
    }
  }
  return v;
}

/** Each bit is flipped or not by a hash of the bits above it. */
function nestedUniform(bits: number, seed: number): number {
  let x = (reversed(bits) + seed) | 0;
  x ^= Math.imul(x, 0x6c50b47c);
  x ^= Math.imul(x, 0xb82f1e52);
  x ^= Math.imul(x, 0xc7afe638);
  x ^= Math.imul(x, 0x8d22f6e6);
  return reversed(x);
}

/** The 32 bits in the opposite order, as an unsigned number. */
function reversed(bits: number): number {
  let x = bits;
  x = ((x >>> 1) & 0x55555555) | ((x & 0x55555555) << 1);
  x = ((x >>> 2) & 0x33333333) | ((x & 0x33333333) << 2);
  x = ((x >>> 4) & 0x0f0f0f0f) | ((x & 0x0f0f0f0f) << 4);
  x = ((x >>> 8) & 0x00ff00ff) | ((x & 0x00ff00ff) << 8);
  return ((x >>> 16) | (x << 16)) >>> 0;
}
