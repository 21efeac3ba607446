/**
 * Numbers keys, rows of as many doubles, from 0 on in the order in which they are first seen: open addressing with linear
 * steps (D. E. Knuth, The Art of Computer Programming 3, 6.4). Takes the memory of what it holds, up to twice over.
 */
export class NumberedKeys {
  count = 0;
  private readonly size: number;
  private readonly most: number;
  private keys: Float64Array;
  /** Numbers by hash, each one more; 0: none. */
  private slots = new Int32Array(0);
  /** Where the key last looked for stands, or would. */
  private slot = 0;

  /**
   * @param size numbers of a key
   * @param most keys that are numbered
   */
  constructor(size: number, most: number) {
    this.size = size;
    this.most = most;
    this.keys = new Float64Array(0);
  }

  /** The number of a key; -1 where it has none. `words`: the same memory as integers. */
  find(key: Float64Array, words: Uint32Array): number {
    const { size, keys, slots } = this;
    const mask = slots.length - 1;
    if (mask < 0) return -1;
    for (let slot = hash(words) & mask; ; slot = (slot + 1) & mask) {
      const number = slots[slot]! - 1;
      this.slot = slot;
      if (number < 0) return -1;
      const at = number * size;
      let i = 0;
      while (i < size && keys[at + i] === key[i]) i++;
      if (i === size) return number;
    }
  }

  /** Numbers the key last looked for, which has no number yet; -1 where no more are taken. */
  add(key: Float64Array, words: Uint32Array): number {
    const { size, most, count } = this;
    if (count === most) return -1;
    if (2 * count >= this.slots.length) {
      this.grow();
      this.find(key, words);
    }
    // a call of `set` takes longer
    for (let i = 0; i < size; i++) this.keys[count * size + i] = key[i]!;
    this.count = count + 1;
    this.slots[this.slot] = this.count;
    return count;
  }

  /** The number of a key, new or not; -1 where no more are taken. */
  number(key: Float64Array, words: Uint32Array): number {
    const known = this.find(key, words);
    return known < 0 ? this.add(key, words) : known;
  }

  clear(): void {
    this.count = 0;
    this.slots.fill(0);
  }

  private grow(): void {
    const { size, count } = this;
    const room = Math.max(LEAST, 2 * count);
    const keys = new Float64Array(room * size);
    keys.set(this.keys.subarray(0, count * size));
    this.keys = keys;
    this.slots = new Int32Array(2 * room);
    const mask = this.slots.length - 1;
    const words = new Uint32Array(keys.buffer);
    for (let number = 0; number < count; number++) {
      let slot = hash(words.subarray(2 * number * size, 2 * (number + 1) * size)) & mask;
      while (this.slots[slot]! > 0) slot = (slot + 1) & mask;
      this.slots[slot] = number + 1;
    }
  }
}

/** Products and shifts as in MurmurHash3 (A. Appleby, 2011; from memory). */
function hash(words: Uint32Array): number {
  let hash = 0;
  for (let w = 0; w < words.length; w++) {
    hash = Math.imul(hash ^ words[w]!, 0x85ebca6b);
    hash ^= hash >>> 13;
  }
  hash = Math.imul(hash, 0xc2b2ae35);
  return hash ^ (hash >>> 16);
}

const LEAST = 256;
