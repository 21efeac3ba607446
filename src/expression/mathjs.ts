import { createRequire } from 'node:module';
import type { MathNode } from 'mathjs';

/** Of mathjs, this project uses the grammar and the list of units: its own evaluation is never used. */
export interface Mathjs {
  parse(text: string): MathNode;
  Unit: {
    isValuelessUnit(name: string): boolean;
    new (value: null, name: string): MathUnit;
  };
}

interface MathUnit {
  readonly units: readonly {
    readonly unit: { readonly value: number; readonly offset: number };
    readonly prefix: { readonly name: string; readonly value: number };
  }[];
  /** Mass, length, time, current, temperature, luminous intensity, amount of substance, angle, bit. */
  readonly dimensions: readonly number[];
}

let loaded: Mathjs | null = null;

/**
 * Loaded at the first expression or unit, as one file: the package's root is over a thousand modules and
 * takes about a second to load, this takes about a tenth of that.
 */
export function mathjs(): Mathjs {
  loaded ??= createRequire(import.meta.url)('mathjs/lib/browser/math.js') as Mathjs;
  return loaded;
}
