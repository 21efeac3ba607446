import type { Dimension } from '../model/dimension.ts';
import type { Instruction } from '../model/program.ts';
import type { Display } from './display.ts';

/**
 * A checked expression: the program that computes it, and what kind of value comes out.
 *
 * A temperature is a point on a scale, not an amount: 20 degC and 20 degC do not make 40 degC. So a value is
 * a point (`coil_temperature`, `105 degC`), or it is not; points are compared, subtracted from each other,
 * and shifted by kelvins, and nothing else.
 */
export interface Typed {
  readonly code: readonly Instruction[];
  readonly dimension: Dimension;
  /** A temperature on a scale; its values are in kelvin. */
  readonly point: boolean;
  /** Value where it does not depend on the design. */
  readonly constant: number | null;
  /** Whole number whose inverse a bare unit is (1000 for mm): dividing by it rounds better. */
  readonly inverse: number | null;
  /** Set on a bare `degC`, which is no value until it has a number before it. */
  readonly scale: { readonly factor: number; readonly offset: number } | null;
  /** How people would read it; null where only SI is left. */
  readonly display: Display | null;
  /** A literal: its unit gives way to that of a name beside it. */
  readonly literal: boolean;
}

/** Thrown inside this folder only; `compile` turns it into an outcome. */
export class Refusal extends Error {
  readonly code: string;
  readonly found: string;
  readonly wanted: string;
  /** A word of the text at which to point. */
  readonly word: string | null;
  constructor(code: string, found: string, wanted: string, word: string | null = null) {
    super(code);
    this.code = code;
    this.found = found;
    this.wanted = wanted;
    this.word = word;
  }
}

export function value(
  code: readonly Instruction[],
  dimension: Dimension,
  display: Display | null,
  rest: Partial<Typed> = {},
): Typed {
  return {
    code,
    dimension,
    point: false,
    constant: null,
    inverse: null,
    scale: null,
    literal: false,
    display,
    ...rest,
  };
}

export function constantOf(
  number: number,
  dimension: Dimension,
  display: Display | null,
  rest: Partial<Typed> = {},
): Typed {
  if (!Number.isFinite(number))
    throw new Refusal('overflow', 'a constant that is not finite', 'finite numbers');
  return value([{ op: 'constant', value: number }], dimension, display, {
    constant: number,
    literal: true,
    ...rest,
  });
}
