export interface NearestPoint {
  readonly point: Float64Array;
  /** One a row, all >= 0: the point is the sum of the rows times them. */
  readonly multipliers: Float64Array;
}

/** What is left over of a target of length 1, where the inequalities contradict one another, is rounding below this. */
const NOTHING = 1e-13;
/** The same for slopes along columns of length about 1. */
const FLAT = 1e-14;
/** A column whose part across those before it is a smaller share of it than this depends on them. */
const DEPENDENT = 1e-12;

/**
 * The point nearest to the origin that meets linear inequalities: min |z| subject to G z >= h, from the non-negative
 * least squares that are its dual. Source: C. L. Lawson, R. J. Hanson, Solving least squares problems, Prentice-Hall
 * 1974 (SIAM 1995, doi:10.1137/1.9781611971217), chapter 23, algorithms NNLS and LDP (from memory).
 *
 * @param rows of G, n numbers each, none all zeros
 * @param bounds h, one a row
 * @returns null where no point meets them all
 */
export function nearestPoint(
  rows: readonly Float64Array[],
  bounds: ArrayLike<number>,
  n: number,
): NearestPoint | null {
  const lengths = rows.map((row) => Math.sqrt(dot(row, row)));
  const apart = lengths.map((length, j) => bounds[j]! / length);
  const unit = apart.reduce((most, distance) => Math.max(most, distance), 0);
  if (unit === 0) return { point: new Float64Array(n), multipliers: new Float64Array(rows.length) };
  const columns = rows.map((row, j) => {
    const column = new Float64Array(n + 1);
    for (let i = 0; i < n; i++) column[i] = row[i]! / lengths[j]!;
    column[n] = apart[j]! / unit;
    return column;
  });
  const target = new Float64Array(n + 1);
  target[n] = 1;
  const { solution, residual } = nonNegativeLeastSquares(columns, target);
  const left = residual[n]!;
  if (left < NOTHING) return null;
  return {
    point: Float64Array.from({ length: n }, (_, i) => (-residual[i]! / left) * unit),
    multipliers: solution.map((u, j) => (u / left / lengths[j]!) * unit),
  };
}

/** u >= 0 of the least |b - A u|, and b - A u. `columns`: those of A. */
function nonNegativeLeastSquares(columns: readonly Float64Array[], target: Float64Array) {
  const solution = new Float64Array(columns.length);
  const barred = new Set<number>();
  let passive: number[] = [];
  let residual: Float64Array = target.slice();
  // a column enters a few times at most; beyond that rounding goes round in circles
  for (let step = 0; step < 10 * columns.length; step++) {
    const entering = steepest(columns, residual, passive, barred);
    if (entering < 0) break;
    const tried = [...passive, entering];
    const wanted = leastSquares(columns, tried, target);
    if (!(wanted && wanted.at(-1)! > 0)) {
      // by rounding alone it seemed to lead down
      barred.add(entering);
      continue;
    }
    passive = settle(columns, target, solution, tried, wanted);
    residual = remainder(columns, target, solution, passive);
    barred.clear();
  }
  return { solution, residual };
}

/** Goes towards the least squares of the passive columns, dropping those that would become negative; those that stay. */
function settle(
  columns: readonly Float64Array[],
  target: Float64Array,
  solution: Float64Array,
  tried: number[],
  first: Float64Array,
): number[] {
  let passive = tried;
  for (let wanted: Float64Array | null = first; wanted; wanted = leastSquares(columns, passive, target)) {
    let share = 1;
    for (const [k, j] of passive.entries()) {
      if (wanted[k]! <= 0) share = Math.min(share, solution[j]! / (solution[j]! - wanted[k]!));
    }
    for (const [k, j] of passive.entries()) solution[j]! += share * (wanted[k]! - solution[j]!);
    if (share === 1) break;
    const stay = passive.filter((j, k) => wanted![k]! > 0 || solution[j]! > FLAT);
    for (const j of passive) if (!stay.includes(j)) solution[j] = 0;
    passive = stay;
  }
  return passive;
}

/** The column along which the residual falls most steeply; -1 where it falls along none. */
function steepest(
  columns: readonly Float64Array[],
  residual: Float64Array,
  passive: readonly number[],
  barred: ReadonlySet<number>,
): number {
  let [best, most] = [-1, FLAT];
  for (const [j, column] of columns.entries()) {
    if (passive.includes(j) || barred.has(j)) continue;
    const slope = dot(column, residual);
    if (slope > most) [best, most] = [j, slope];
  }
  return best;
}

function remainder(
  columns: readonly Float64Array[],
  target: Float64Array,
  solution: Float64Array,
  passive: readonly number[],
): Float64Array {
  const residual = target.slice();
  for (const j of passive) addTo(residual, -solution[j]!, columns[j]!);
  return residual;
}

/** Least squares over some of the columns, by Gram-Schmidt, each twice; null where one depends on those before it. */
function leastSquares(
  columns: readonly Float64Array[],
  chosen: readonly number[],
  target: Float64Array,
): Float64Array | null {
  const basis: Float64Array[] = [];
  const shares: number[][] = [];
  for (const j of chosen) {
    const across = columns[j]!.slice();
    const share = basis.map(() => 0);
    for (let twice = 0; twice < 2; twice++) {
      for (const [k, along] of basis.entries()) {
        const part = dot(across, along);
        share[k]! += part;
        addTo(across, -part, along);
      }
    }
    const length = Math.sqrt(dot(across, across));
    if (!(length > DEPENDENT * Math.sqrt(dot(columns[j]!, columns[j]!)))) return null;
    basis.push(across.map((x) => x / length));
    shares.push([...share, length]);
  }
  const solution = Float64Array.from(basis, (along) => dot(along, target));
  for (let k = basis.length - 1; k >= 0; k--) {
    for (let later = k + 1; later < basis.length; later++)
      solution[k]! -= shares[later]![k]! * solution[later]!;
    solution[k]! /= shares[k]![k]!;
  }
  return solution;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function addTo(sum: Float64Array, factor: number, vector: Float64Array): void {
  for (let i = 0; i < sum.length; i++) sum[i]! += factor * vector[i]!;
}
