// @ts-expect-error: what makes the class is exported, but not in the types
import { createUnitClass } from 'mathjs';
import { create, parseDependencies } from 'mathjs/number';
import type { Mathjs } from '../src/expression/mathjs.ts';

/**
 * In place of `src/expression/mathjs.ts` in the bundled program: the grammar and the list of units alone, an eighth of the
 * time to load. The units of mathjs compute with whatever types of number there are; here they are only looked up.
 */

function notHere(): never {
  throw new Error('units are looked up, not computed with');
}

const COMPUTATIONS = {
  ...{ addScalar: notHere, subtractScalar: notHere, multiplyScalar: notHere, divideScalar: notHere },
  ...{ pow: notHere, abs: notHere, fix: notHere, round: notHere, equal: notHere, isNumeric: notHere },
  ...{ format: notHere, number: notHere, Complex: notHere, BigNumber: notHere },
};

/** What a degree Fahrenheit is defined by. */
class Fraction {
  readonly #quotient: number;
  constructor(over: number, under: number) {
    this.#quotient = over / under;
  }
  valueOf(): number {
    return this.#quotient;
  }
}

let made: Mathjs | null = null;

export function mathjs(): Mathjs {
  made ??= {
    parse: create(parseDependencies!).parse as Mathjs['parse'],
    Unit: createUnitClass({ config: { number: 'number' }, Fraction, ...COMPUTATIONS }) as Mathjs['Unit'],
  };
  return made;
}
