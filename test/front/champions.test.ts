import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createChampions } from '../../src/front/champions.ts';
import { bruteForceFront, frontCases } from './brute-force.ts';

describe('champions', () => {
  it('beat no row that is on the front of the rows they came from and the row, and all that have a NaN', () => {
    fc.assert(
      fc.property(frontCases, fc.nat(), ({ columns, senses }, cut) => {
        const count = columns[0]!.length;
        const half = count === 0 ? 0 : cut % count;
        const champions = createChampions(senses);
        const front = bruteForceFront(
          columns.map((column) => column.subarray(0, half)),
          senses,
        );
        champions.offer(columns, Uint32Array.from(front));
        const onFront = new Set(bruteForceFront(columns, senses));
        for (let row = half; row < count; row++) {
          const beaten = champions.beat(columns, row);
          if (onFront.has(row)) expect(beaten).toBe(false);
          if (columns.some((column) => Number.isNaN(column[row]!))) expect(beaten).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('beat most of what a front leaves behind', () => {
    const count = 10_000;
    const x = Float64Array.from({ length: count }, (_, i) => ((i * 7919) % count) / count);
    const y = Float64Array.from({ length: count }, (_, i) => ((i * 104_729) % count) / count);
    const champions = createChampions(['minimise', 'maximise']);
    const offered = bruteForceFront([x.subarray(0, 500), y.subarray(0, 500)], ['minimise', 'maximise']);
    champions.offer([x, y], Uint32Array.from(offered));
    let beaten = 0;
    for (let row = 500; row < count; row++) if (champions.beat([x, y], row)) beaten++;
    expect(beaten).toBeGreaterThan(0.8 * (count - 500));
  });

  it('keep no more than a few, however many are offered', () => {
    const champions = createChampions(['minimise']);
    for (let value = 100; value > 0; value--) champions.offer([Float64Array.of(value)], Uint32Array.of(0));
    expect(champions.beat([Float64Array.of(2)], 0)).toBe(true);
    expect(champions.beat([Float64Array.of(1)], 0)).toBe(false);
  });
});
