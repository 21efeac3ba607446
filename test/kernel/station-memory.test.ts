import { describe, expect, it } from 'vitest';
import { StationMemory } from '../../src/kernel/station-memory.ts';

const SIZE = 5;

/** What a station of a coil over a plate would hold. */
const stationOf = (pair: number, station: number) =>
  Float64Array.from({ length: SIZE }, (_, i) => 1000 * pair + 10 * station + i);

function read(memory: StationMemory, pair: number, station: number): number[] | null {
  const out = new Float64Array(SIZE + 1);
  return memory.read(pair, station, out, 1) ? [...out.subarray(1)] : null;
}

describe('StationMemory', () => {
  it('holds two stations of each of many coils over plates', () => {
    const memory = new StationMemory(SIZE);
    const wrong: number[] = [];
    // every third has none
    const pairs = Array.from({ length: 5000 }, (_, p) => p + 1).filter((pair) => pair % 3 !== 0);
    for (const station of [4, 5]) {
      for (const pair of pairs) memory.write(pair, station, stationOf(pair, station), 0);
    }
    for (const pair of pairs) {
      const held = [4, 5].map((station) => read(memory, pair, station)?.join());
      const wanted = [4, 5].map((station) => stationOf(pair, station).join());
      if (held.join() !== wanted.join() || read(memory, pair, 1) !== null) wrong.push(pair);
    }
    expect(wrong).toEqual([]);
    expect(read(memory, 3, 4)).toBeNull();
    expect(read(memory, 1e6, 4)).toBeNull();
  });

  it('gives up the one farthest from a third', () => {
    const memory = new StationMemory(SIZE);
    for (const station of [4, 5, 6]) memory.write(7, station, stationOf(7, station), 0);
    expect(read(memory, 7, 4)).toBeNull();
    for (const station of [5, 6]) expect(read(memory, 7, station)).toEqual([...stationOf(7, station)]);
  });

  it('writes what is added to a station in its place', () => {
    const memory = new StationMemory(SIZE);
    for (const station of [4, 5]) memory.write(7, station, stationOf(7, station), 0);
    memory.write(7, 4, stationOf(8, 4), 0);
    expect(read(memory, 7, 5)).not.toBeNull();
    expect(read(memory, 7, 4)).toEqual([...stationOf(8, 4)]);
  });

  it('knows nothing once cleared, not even of a coil over a plate that gets its room', () => {
    const memory = new StationMemory(SIZE);
    const first = [1, 2, 3];
    for (const pair of first)
      for (const station of [0, 4]) memory.write(pair, station, stationOf(pair, station), 0);
    memory.clear();
    for (const pair of first) expect(read(memory, pair, 4)).toBeNull();
    for (const pair of [4, 5, 6]) {
      memory.write(pair, 5, stationOf(pair, 5), 0);
      expect([0, 4].map((station) => read(memory, pair, station))).toEqual([null, null]);
      expect(read(memory, pair, 5)).toEqual([...stationOf(pair, 5)]);
    }
  });
});
