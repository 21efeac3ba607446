/** The largest number of columns that `hypervolume` takes. */
export const MOST_COSTS = 3;

/**
 * The measure of what a set of points dominates up to a reference point: the length, area or volume of all that is no
 * better than some point in every column and no worse than the reference. Less is better in each column; a point that
 * is not better than the reference everywhere adds nothing, dominated points add nothing either. Exact up to rounding.
 *
 * One column is a subtraction, two a walk along the staircase; three sweep the third column and keep the staircase of
 * the first two, whose area changes by one notch a point: O(n log n) comparisons, with a shift of the staircase each.
 * Source: C. M. Fonseca, L. Paquete, M. López-Ibáñez, An improved dimension-sweep algorithm for the hypervolume
 * indicator, CEC 2006, 1157-1163, doi:10.1109/CEC.2006.1688440 (three columns as the base of its recursion).
 *
 * Throws RangeError for more than three columns, and when the reference has another number of them.
 */
export function hypervolume(columns: readonly ArrayLike<number>[], reference: readonly number[]): number {
  const [first, second, third] = columns;
  if (!first || columns.length > MOST_COSTS || columns.length !== reference.length) {
    throw new RangeError(`a hypervolume takes 1 to ${MOST_COSTS} columns and as many reference values`);
  }
  const rows: number[] = [];
  for (let row = 0; row < first.length; row++) {
    if (columns.every((column, c) => column[row]! < reference[c]!)) rows.push(row);
  }
  const staircase = createStaircase(reference[0]!, second ? reference[1]! : 1);
  const y = (row: number) => (second ? second[row]! : 0);
  if (!third) {
    for (const row of rows) staircase.add(first[row]!, y(row));
    return staircase.area;
  }
  rows.sort((a, b) => third[a]! - third[b]!);
  let volume = 0;
  for (const [i, row] of rows.entries()) {
    staircase.add(first[row]!, y(row));
    const next = i + 1 < rows.length ? third[rows[i + 1]!]! : reference[2]!;
    volume += staircase.area * (next - third[row]!);
  }
  return volume;
}

/** The points of the plane that no other dominates, x ascending and y descending, and the area that they dominate. */
function createStaircase(referenceX: number, referenceY: number) {
  const xs: number[] = [];
  const ys: number[] = [];
  let area = 0;
  return {
    get area() {
      return area;
    },
    add(x: number, y: number): void {
      // the first step that is not left of x; the one before it is all that may dominate (x, y), besides itself
      let at = 0;
      let end = xs.length;
      while (at < end) {
        const middle = (at + end) >> 1;
        if (xs[middle]! < x) at = middle + 1;
        else end = middle;
      }
      const above = at === 0 ? referenceY : ys[at - 1]!;
      if (above <= y || (xs[at] === x && ys[at]! <= y)) return;
      let ceiling = above;
      let left = x;
      let last = at;
      for (; last < xs.length && ys[last]! >= y; last++) {
        area += (xs[last]! - left) * (ceiling - y);
        left = xs[last]!;
        ceiling = ys[last]!;
      }
      area += ((xs[last] ?? referenceX) - left) * (ceiling - y);
      xs.splice(at, last - at, x);
      ys.splice(at, last - at, y);
    },
  };
}
