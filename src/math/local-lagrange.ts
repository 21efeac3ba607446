/**
 * Interpolation by the polynomial through the few nodes of a table around a place (Lagrange): which nodes, and their
 * weights. Nodes ascend or descend and need not be even; beyond the first and last the nearest of them is taken. An even
 * number of nodes at once: the interpolant is then continuous, since it passes through each node from both sides.
 *
 * Source: any textbook, such as P. J. Davis, Interpolation and Approximation (1963), 2.5.
 */
export class LocalLagrange {
  readonly count: number;
  readonly weight: Float64Array;
  /** Index of the node that the first weight belongs to. */
  first = 0;

  /** @param count nodes at once: 2 linear, 4 cubic */
  constructor(count: number) {
    this.count = count;
    this.weight = new Float64Array(count);
  }

  at(nodes: ArrayLike<number>, place: number): void {
    const { count, weight } = this;
    const last = nodes.length - 1;
    const rises = nodes[last]! > nodes[0]!;
    const low = rises ? nodes[0]! : nodes[last]!;
    const high = rises ? nodes[last]! : nodes[0]!;
    const x = Math.min(Math.max(place, low), high);
    // the interval that holds x
    let i = 0;
    while (i < last - 1 && (rises ? nodes[i + 1]! < x : nodes[i + 1]! > x)) i++;
    const first = Math.min(Math.max(i + 1 - (count >> 1), 0), last + 1 - count);
    this.first = first;
    for (let a = 0; a < count; a++) {
      let product = 1;
      for (let b = 0; b < count; b++) {
        if (b !== a) product *= (x - nodes[first + b]!) / (nodes[first + a]! - nodes[first + b]!);
      }
      weight[a] = product;
    }
  }
}
