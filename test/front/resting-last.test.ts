import { describe, expect, it } from 'vitest';
import { createRestingLast } from '../../src/front/resting-last.ts';
import { STATUS } from '../../src/model/status.ts';

const { lifts, rests } = STATUS;

function front(status: readonly number[], mass: readonly number[], feasible = mass.map(() => 1)): number[] {
  const archive = createRestingLast(['minimise']);
  mass.forEach((kg, first) => {
    const rows = {
      first,
      feasible: Uint8Array.of(feasible[first]!),
      status: Uint8Array.of(status[first]!),
    };
    archive.add(rows, [Float64Array.of(kg)]);
  });
  return [...archive.front().ids];
}

describe('a front on which designs that rest come last', () => {
  it('takes the lightest that floats, though one that rests is lighter', () => {
    expect(front([rests, lifts, lifts], [1, 3, 2])).toEqual([2]);
    expect(front([lifts, rests], [3, 1])).toEqual([0]);
  });

  it('takes those that rest where none that floats is feasible', () => {
    expect(front([rests, rests], [1, 3])).toEqual([0]);
    expect(front([rests, lifts], [1, 3], [1, 0])).toEqual([0]);
  });

  it('is the same of fronts merged', () => {
    const parts = [rests, lifts].map((status, first) => {
      const part = createRestingLast(['minimise']);
      part.add({ first, feasible: Uint8Array.of(1), status: Uint8Array.of(status) }, [
        Float64Array.of(first),
      ]);
      return part.fronts();
    });
    const whole = createRestingLast(['minimise']);
    for (const part of parts) whole.merge(part);
    expect([...whole.front().ids]).toEqual([1]);
  });
});
