import { describe, expect, it } from 'vitest';
import {
  type Columns,
  createScratch,
  evaluateProgram,
  meets,
} from '../../src/expression/evaluate-program.ts';
import type { Program } from '../../src/model/program.ts';

const { NaN: EMPTY, POSITIVE_INFINITY: INF } = Number;

/** Two quantities, one input, one derived column, of three designs. */
const columns: Columns = {
  count: 3,
  quantity: (index) => [Float64Array.of(1, 4, EMPTY), Float64Array.of(2, 0, 5)][index]!,
  input: () => Float64Array.of(INF, 7, 8),
  derived: () => Float64Array.of(-1, -2, -3),
};

function evaluate(program: Program): number[] {
  const out = new Float64Array(3);
  evaluateProgram(program, columns, out, createScratch());
  return [...out];
}

const a = { op: 'quantity', index: 0 } as const;
const b = { op: 'quantity', index: 1 } as const;
const input = { op: 'input', slot: 3 } as const;
const derived = { op: 'derived', index: 0 } as const;

describe('evaluateProgram', () => {
  it('computes each operation over the column', () => {
    const two = { op: 'constant', value: 2 } as const;
    expect(evaluate([b, two, { op: 'add' }])).toEqual([4, 2, 7]);
    expect(evaluate([b, two, { op: 'subtract' }])).toEqual([0, -2, 3]);
    expect(evaluate([b, two, { op: 'multiply' }])).toEqual([4, 0, 10]);
    expect(evaluate([b, two, { op: 'divide' }])).toEqual([1, 0, 2.5]);
    expect(evaluate([b, two, { op: 'power' }])).toEqual([4, 0, 25]);
    expect(evaluate([b, two, { op: 'min' }])).toEqual([2, 0, 2]);
    expect(evaluate([b, two, { op: 'max' }])).toEqual([2, 2, 5]);
    expect(evaluate([derived, { op: 'negate' }])).toEqual([1, 2, 3]);
    expect(evaluate([derived, { op: 'abs' }])).toEqual([1, 2, 3]);
    expect(evaluate([{ op: 'constant', value: 16 }, { op: 'sqrt' }])).toEqual([4, 4, 4]);
    expect(evaluate([{ op: 'constant', value: 0 }, { op: 'exp' }])).toEqual([1, 1, 1]);
    expect(evaluate([{ op: 'constant', value: 1 }, { op: 'log' }])).toEqual([0, 0, 0]);
    expect(evaluate([{ op: 'constant', value: 100 }, { op: 'log10' }])).toEqual([2, 2, 2]);
  });

  it('keeps an empty cell empty, whatever is done with it', () => {
    const zero = { op: 'constant', value: 0 } as const;
    expect(evaluate([a, zero, { op: 'power' }])[2]).toBeNaN();
    expect(evaluate([a, zero, { op: 'multiply' }])[2]).toBeNaN();
    expect(evaluate([a, zero, { op: 'min' }])[2]).toBeNaN();
  });

  it('empties a computed result that is not finite, and copies a bare name as it is', () => {
    expect(evaluate([a, b, { op: 'divide' }])).toEqual([0.5, EMPTY, EMPTY]);
    expect(evaluate([derived, { op: 'sqrt' }])).toEqual([EMPTY, EMPTY, EMPTY]);
    expect(evaluate([input])).toEqual([INF, 7, 8]);
    expect(evaluate([input, { op: 'constant', value: 10 }, { op: 'min' }])).toEqual([10, 7, 8]);
  });

  it('works on the first `count` rows of longer columns and leaves the rest of the output alone', () => {
    const out = Float64Array.of(9, 9, 9, 9);
    evaluateProgram([derived, { op: 'abs' }], { ...columns, count: 2 }, out, createScratch());
    expect([...out]).toEqual([1, 2, 9, 9]);
  });

  it('gives the same with a scratch that a longer or shorter batch used before', () => {
    const scratch = createScratch();
    const out = new Float64Array(3);
    const program: Program = [a, b, { op: 'add' }, derived, { op: 'multiply' }];
    evaluateProgram(program, { ...columns, count: 1 }, out, scratch);
    evaluateProgram(program, columns, out, scratch);
    expect([...out]).toEqual([-3, -8, EMPTY]);
    const before = [...scratch.stack];
    evaluateProgram(program, columns, out, scratch);
    expect(scratch.stack.every((column, i) => column === before[i])).toBe(true);
  });

  it('may write into a column that it reads', () => {
    const column = Float64Array.of(1, 2, 3);
    evaluateProgram(
      [derived, derived, { op: 'multiply' }],
      { ...columns, derived: () => column },
      column,
      createScratch(),
    );
    expect([...column]).toEqual([1, 4, 9]);
  });
});

describe('meets', () => {
  it('compares as written', () => {
    expect([meets('<', 1, 2), meets('<', 2, 2), meets('<=', 2, 2), meets('<=', 3, 2)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
    expect([meets('>', 2, 1), meets('>', 2, 2), meets('>=', 2, 2), meets('>=', 1, 2)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });

  it('takes a value that has come to its bound for met, whichever way its last digits fell', () => {
    for (const bound of [260, -3, 1e-6]) {
      const off = 1e-12 * Math.abs(bound);
      expect([meets('<=', bound + off, bound), meets('>=', bound - off, bound)]).toEqual([true, true]);
      expect([meets('<', bound, bound), meets('>', bound, bound)]).toEqual([false, false]);
      const far = 1e-8 * Math.abs(bound);
      expect([meets('<=', bound + far, bound), meets('>=', bound - far, bound)]).toEqual([false, false]);
    }
    expect([meets('>=', Infinity, Infinity), meets('<=', Infinity, 1), meets('>=', 1, Infinity)]).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('leaves a limit unmet when a side is empty', () => {
    for (const comparison of ['<', '<=', '>', '>='] as const) {
      expect(meets(comparison, EMPTY, 1)).toBe(false);
      expect(meets(comparison, 1, EMPTY)).toBe(false);
    }
  });
});
