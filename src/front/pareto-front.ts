import { asCosts, type Sense } from './senses.ts';

/**
 * Rows that no other row dominates (no worse in every objective, better in at least one), as ascending row
 * indices. Exact ties all stay; a row with a NaN never does; infinities order as usual and -0 equals 0.
 * O(n log n) for up to three objectives; for more, O(n f) with f rows on the front.
 *
 * Source: H. T. Kung, F. Luccio, F. P. Preparata, On finding the maxima of a set of vectors, J. ACM 22
 * (1975) 469-476, doi:10.1145/321906.321910: visit rows in lexicographic order, so that only an earlier row
 * can dominate, and keep a structure of the remaining objectives that answers in O(log n).
 */
export function paretoFront(columns: readonly Float64Array[], senses: readonly Sense[]): Uint32Array {
  const costs = asCosts(columns, senses);
  const order = lexicographic(costs);
  const isDominated = dominanceTest(costs);
  const front = new Uint32Array(order.length);
  let size = 0;
  for (let start = 0; start < order.length; ) {
    const row = order[start]!;
    let end = start + 1;
    while (end < order.length && sameCosts(costs, row, order[end]!)) end++;
    if (!isDominated(row)) for (let i = start; i < end; i++) front[size++] = order[i]!;
    start = end;
  }
  return front.slice(0, size).sort();
}

/** Rows without a NaN in lexicographic order of their costs. */
function lexicographic(costs: readonly Float64Array[]): Uint32Array {
  const [first, ...rest] = costs as [Float64Array, ...Float64Array[]];
  const rows = new Uint32Array(first.length);
  let count = 0;
  for (let row = 0; row < first.length; row++) {
    if (!costs.some((cost) => Number.isNaN(cost[row]!))) rows[count++] = row;
  }
  return rows.subarray(0, count).sort((a, b) => {
    // Compared, not subtracted: equal infinities would give NaN.
    if (first[a]! !== first[b]!) return first[a]! < first[b]! ? -1 : 1;
    for (const cost of rest) if (cost[a]! !== cost[b]!) return cost[a]! < cost[b]! ? -1 : 1;
    return a - b;
  });
}

function sameCosts(costs: readonly Float64Array[], a: number, b: number): boolean {
  return costs.every((cost) => cost[a] === cost[b]);
}

/**
 * Whether a row is dominated by one offered before; remembers the row if not. Rows come in
 * lexicographic order without repeats, so the first objective needs no further look.
 */
type DominanceTest = (row: number) => boolean;

function dominanceTest(costs: readonly Float64Array[]): DominanceTest {
  if (costs.length === 1) return onlyTheFirst();
  if (costs.length === 2) return lowestSoFar(costs[1]!);
  if (costs.length === 3) return lowestUpTo(costs[1]!, costs[2]!);
  return anyOf(costs);
}

function onlyTheFirst(): DominanceTest {
  let seen = false;
  return () => {
    const dominated = seen;
    seen = true;
    return dominated;
  };
}

function lowestSoFar(cost: Float64Array): DominanceTest {
  let seen = false;
  let lowest = 0;
  return (row) => {
    if (seen && cost[row]! >= lowest) return true;
    seen = true;
    lowest = cost[row]!;
    return false;
  };
}

/**
 * The lowest `third` among rows whose `second` is no larger, in a binary indexed tree over the ranks of
 * `second` (P. M. Fenwick, Software: Practice and Experience 24 (1994) 327-336), where Kung et al. use a
 * balanced tree: same O(log n), nothing to rebalance.
 */
function lowestUpTo(second: Float64Array, third: Float64Array): DominanceTest {
  const ranks = Float64Array.from(second).sort();
  // A rank not yet reached holds NaN, which no comparison below takes for a cost.
  const tree = new Float64Array(second.length + 1).fill(Number.NaN);
  return (row) => {
    const rank = rankOf(ranks, second[row]!);
    const cost = third[row]!;
    for (let i = rank; i > 0; i -= i & -i) if (tree[i]! <= cost) return true;
    for (let i = rank; i < tree.length; i += i & -i) if (!(tree[i]! <= cost)) tree[i] = cost;
    return false;
  };
}

/** 1-based position of the first entry of `sorted` that equals `value`. */
function rankOf(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! >= value || Number.isNaN(sorted[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low + 1;
}

/** Against every front row so far. One that dominates moves ahead: it is likely to dominate the next, too. */
function anyOf(costs: readonly Float64Array[]): DominanceTest {
  const front: number[] = [];
  return (row) => {
    for (let i = 0; i < front.length; i++) {
      const other = front[i]!;
      if (costs.every((cost) => cost[other]! <= cost[row]!)) {
        front[i] = front[i >> 1]!;
        front[i >> 1] = other;
        return true;
      }
    }
    front.push(row);
    return false;
  };
}
