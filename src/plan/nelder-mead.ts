// As an ES module, version 0.0.4 of the package exports nothing and leaves itself on the global object instead.
import 'fmin';

interface Fmin {
  nelderMead(
    f: (x: readonly number[]) => number,
    start: number[],
    parameters: {
      readonly maxIterations: number;
      readonly minErrorDelta: number;
      readonly nonZeroDelta: number;
      readonly chi: number;
      readonly psi: number;
      readonly sigma: number;
    },
  ): unknown;
}

const { fmin } = globalThis as unknown as { readonly fmin: Fmin };

export interface SimplexSearch {
  readonly start: ArrayLike<number>;
  /** The first simplex is the start and, for each coordinate, the start moved by this much, not 0. */
  readonly steps: ArrayLike<number>;
  /** Ends when best and worst differ by less than `value` and the two best by less than `position` in every coordinate. */
  readonly value: number;
  readonly position: number;
  readonly iterations: number;
}

/**
 * A downhill simplex search: J. A. Nelder, R. Mead, A simplex method for function minimization, Computer Journal 7
 * (1965) 308-313, doi:10.1093/comjnl/7.4.308, with the coefficients that F. Gao, L. Han, Comput. Optim. Appl. 51
 * (2012) 259-277, doi:10.1007/s10589-010-9329-3, fit to the number of coordinates. `merit` must be finite; whoever
 * calls keeps the best point that it evaluates, which is all that comes out of this.
 *
 * It ends, rather than shrink the simplex, where no contraction helps: the package breaks off there (an undeclared
 * variable), and a caller that starts anew from the best point does the same with a simplex that is not worn out.
 * Coordinates are rescaled so that the package, which moves each one by a share of itself, takes the steps wanted;
 * merits, so that its one tolerance serves for both.
 */
export function descendSimplex(merit: (x: Float64Array) => number, search: SimplexSearch): void {
  const { start, steps, value, position, iterations } = search;
  const n = start.length;
  const x = new Float64Array(n);
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, Math.abs(steps[i]!));
  const tolerance = position / largest;
  fmin.nelderMead(
    (y) => {
      for (let i = 0; i < n; i++) x[i] = start[i]! + (y[i]! - 1) * steps[i]!;
      return (merit(x) * tolerance) / value;
    },
    new Array<number>(n).fill(1),
    {
      maxIterations: iterations,
      minErrorDelta: tolerance,
      nonZeroDelta: 2,
      chi: 1 + 2 / Math.max(2, n),
      psi: -(0.75 - 0.5 / Math.max(2, n)),
      sigma: 1,
    },
  );
}
