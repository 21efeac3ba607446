/** Probability, repeatable: the same keys give the same numbers on every machine. The one source of it in the program. */
export interface Random {
  /** A whole number from 0 to 2^32 - 1. */
  uint32(): number;
  /** A number from 0 up to, not including, 1, in steps of 2^-53. */
  unit(): number;
  /** A whole number from 0 to n - 1, for n up to 2^32. Biased by less than n 2^-53. */
  below(n: number): number;
}

const MASK = (1n << 64n) - 1n;
const GOLDEN_GAMMA = 0x9e3779b97f4a7c15n;

/** The output function of splitmix64: a bijection of 64-bit numbers whose every output bit hangs on every input bit. */
function mix(z: bigint): bigint {
  let x = z;
  x = ((x ^ (x >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK;
  x = ((x ^ (x >> 27n)) * 0x94d049bb133111ebn) & MASK;
  return x ^ (x >> 31n);
}

/**
 * xoshiro128** with the state set by splitmix64 from a seed and, after it, the numbers of the stream wanted: another
 * purpose, another stream. Keys are whole numbers from 0 to 2^53.
 *
 * Sources: D. Blackman, S. Vigna, Scrambled linear pseudorandom number generators, ACM Trans. Math. Softw. 47 (2021)
 * 36, doi:10.1145/3460772; G. L. Steele, D. Lea, C. H. Flood, Fast splittable pseudorandom number generators, OOPSLA
 * 2014, doi:10.1145/2660193.2660195 (splitmix64).
 */
export function createRandom(...keys: readonly [number, ...number[]]): Random {
  let hash = 0n;
  for (const key of keys) hash = mix((hash + BigInt(key) + GOLDEN_GAMMA) & MASK);
  const words = [1n, 2n].flatMap((i) => {
    const word = mix((hash + i * GOLDEN_GAMMA) & MASK);
    return [Number(word & 0xffffffffn), Number(word >> 32n)];
  });
  return xoshiro128(words as unknown as State);
}

export type State = readonly [number, number, number, number];

/** The generator from a given state, which must not be all zeros (splitmix64 never gives that). */
export function xoshiro128(state: State): Random {
  let [s0, s1, s2, s3] = state;
  const rotated = (x: number, by: number) => (x << by) | (x >>> (32 - by));
  const uint32 = () => {
    const result = Math.imul(rotated(Math.imul(s1, 5), 7), 9) >>> 0;
    const shifted = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= shifted;
    s3 = rotated(s3, 11);
    return result;
  };
  const unit = () => ((uint32() >>> 5) * 2 ** 26 + (uint32() >>> 6)) * 2 ** -53;
  return { uint32, unit, below: (n) => Math.floor(unit() * n) };
}
