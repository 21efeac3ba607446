/**
 * Stations (see GapStations) of coils over plates that came back: a set of places by hash, four to a set, the oldest given up
 * first. A key is a coil over a plate and a station; whoever asks numbers coils over plates, each anew after it was given up.
 */
export class StationMemory {
  private cells = new Float64Array(0);
  private next = new Uint8Array(0);
  private readonly size: number;

  /** @param size numbers of one station */
  constructor(size: number) {
    this.size = size;
  }

  /** Writes a station's numbers to a place of `out`; false where it is not known. */
  read(pair: number, station: number, out: Float64Array, to: number): boolean {
    const { cells, size } = this;
    if (cells.length === 0) return false;
    const at = this.find(pair, station);
    if (at < 0) return false;
    for (let i = 0; i < size; i++) out[to + i] = cells[at + i]!;
    return true;
  }

  write(pair: number, station: number, from: Float64Array, start: number): void {
    const { size } = this;
    if (this.cells.length === 0) {
      this.cells = new Float64Array(SETS * WAYS * (KEY + size));
      this.next = new Uint8Array(SETS);
    }
    const { cells } = this;
    let at = this.find(pair, station);
    if (at < 0) {
      const set = setOf(pair, station);
      const way = this.next[set]!;
      this.next[set] = (way + 1) % WAYS;
      at = (set * WAYS + way) * (KEY + size);
      cells[at++] = pair;
      cells[at++] = station;
    }
    for (let i = 0; i < size; i++) cells[at + i] = from[start + i]!;
  }

  /** Where a station's numbers begin; -1: nowhere. */
  private find(pair: number, station: number): number {
    const { cells } = this;
    const place = KEY + this.size;
    let at = setOf(pair, station) * WAYS * place;
    for (let way = 0; way < WAYS; way++, at += place) {
      if (cells[at] === pair && cells[at + 1] === station) return at + KEY;
    }
    return -1;
  }
}

/** Knuth's multiplicative hash (The Art of Computer Programming 3, 6.4). */
function setOf(pair: number, station: number): number {
  return Math.imul(pair * STATIONS + station, 0x9e3779b1) >>> (32 - SET_BITS);
}

/** A pair's number, which begins at 1, and the station's. */
const KEY = 2;
/** More than a coil over its plate has. */
const STATIONS = 64;
const SET_BITS = 15;
/** 131,072 stations, 21 MB, from the first coil on that comes back. */
const SETS = 2 ** SET_BITS;
const WAYS = 4;
