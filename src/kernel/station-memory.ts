/**
 * Stations (see GapStations) of coils over plates that came back. Whoever asks numbers coils over plates from 1 on. Each has
 * room for two stations, from its first one on: a drive needs the two about its gap, and where drives follow one another one
 * of these is among the next two. A third takes the place of the one farthest from it.
 */
export class StationMemory {
  private readonly size: number;
  /** Of a coil over a plate: where its stations are, each one more; 0: nowhere. */
  private blocks = new Int32Array(0);
  private count = 0;
  /** Which stations a block holds, each one more; 0: none. */
  private held = new Uint8Array(0);
  private readonly pages: Float64Array[] = [];

  /** @param size numbers of one station */
  constructor(size: number) {
    this.size = size;
  }

  /** Writes a station's numbers to a place of `out`; false where it is not known. */
  read(pair: number, station: number, out: Float64Array, to: number): boolean {
    if (pair >= this.blocks.length) return false;
    const block = this.blocks[pair]! - 1;
    if (block < 0) return false;
    const way = this.find(block, station);
    if (way < 0) return false;
    const { size } = this;
    const page = this.pages[block >>> PAGE_BITS]!;
    const at = ((block & PAGE_MASK) * WAYS + way) * size;
    for (let i = 0; i < size; i++) out[to + i] = page[at + i]!;
    return true;
  }

  write(pair: number, station: number, from: Float64Array, start: number): void {
    const { size, pages } = this;
    const block = this.blockOf(pair);
    let way = this.find(block, station);
    if (way < 0) {
      way = this.choose(block, station);
      this.held[block * WAYS + way] = station + 1;
    }
    const page = pages[block >>> PAGE_BITS]!;
    const at = ((block & PAGE_MASK) * WAYS + way) * size;
    for (let i = 0; i < size; i++) page[at + i] = from[start + i]!;
  }

  /** Forgets all; numbers begin anew. */
  clear(): void {
    this.blocks.fill(0);
    this.count = 0;
  }

  private blockOf(pair: number): number {
    if (pair >= this.blocks.length) {
      const blocks = new Int32Array(Math.max(PAGE, 2 * pair));
      blocks.set(this.blocks);
      this.blocks = blocks;
    }
    const known = this.blocks[pair]!;
    if (known > 0) return known - 1;
    const block = this.count++;
    this.blocks[pair] = this.count;
    if (block >>> PAGE_BITS === this.pages.length) this.addPage();
    this.held.fill(0, block * WAYS, (block + 1) * WAYS);
    return block;
  }

  private addPage(): void {
    this.pages.push(new Float64Array(PAGE * WAYS * this.size));
    if (this.held.length >= this.pages.length * PAGE * WAYS) return;
    const held = new Uint8Array(2 * this.pages.length * PAGE * WAYS);
    held.set(this.held);
    this.held = held;
  }

  /** Where a block holds a station; -1: nowhere. */
  private find(block: number, station: number): number {
    const { held } = this;
    for (let way = 0; way < WAYS; way++) if (held[block * WAYS + way] === station + 1) return way;
    return -1;
  }

  /** The place for a station that a block does not hold. */
  private choose(block: number, station: number): number {
    const { held } = this;
    let farthest = -1;
    let chosen = 0;
    for (let way = 0; way < WAYS; way++) {
      const other = held[block * WAYS + way]! - 1;
      if (other < 0) return way;
      const distance = Math.abs(other - station);
      if (distance <= farthest) continue;
      farthest = distance;
      chosen = way;
    }
    return chosen;
  }
}

const WAYS = 2;
/** Blocks are made so many at a time. */
const PAGE_BITS = 10;
const PAGE = 2 ** PAGE_BITS;
const PAGE_MASK = PAGE - 1;
