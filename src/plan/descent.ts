import { createRandom, type Random } from '../math/random.ts';
import type { DesignBatch } from '../model/rows.ts';
import { type Candidate, candidates, type JudgedRows, type Senses } from './candidate.ts';
import { descendSimplex } from './nelder-mead.ts';
import type { Descent, DescentReport, Terms } from './plan.ts';
import { designKey, type Space, toDesign, toPoint } from './space.ts';

export interface DescentResult<Rows> {
  /** One row each, in the order of evaluation. */
  readonly rows: readonly Rows[];
  readonly report: DescentReport;
}

/** Rounds in a row that gain nothing before a descent is over; each has a simplex of another size and side. */
const IDLE_ROUNDS = 3;
/** Edges of a round's first simplex, as shares of the axes; they take turns. */
const EDGES = [0.2, 0.05, 0.0125];
/** Weight of broken limits beside a cost in units of its extent. */
const FIRST_WEIGHT = 10;
/** The random stream that picks the sides of simplexes. */
const SIDES = 3;
/** Limits that are broken by less than this less are broken as much as before. */
const NO_LESS = 1e-9;
/** Merit of what no cost can be compared with. Far below the largest number, so that differences stay finite. */
const WALL = 1e200;

/** How a design stands under the terms of a descent: violation 0 is feasible; the cost is in units of the extent. */
interface Standing {
  readonly cost: number;
  readonly violation: number;
}

/** A design that the descent knows, with the index of its row. */
interface Known extends Standing {
  readonly design: Float64Array;
  readonly index: number;
}

/** A cap adds to the violation as a limit does, with the objective's extent for a scale. */
export function standingOf({ costs, violation }: Candidate, { objective, caps, extents }: Terms): Standing {
  let total = violation;
  costs.forEach((cost, o) => {
    const excess = (cost - caps[o]!) / extents[o]!;
    if (excess > 0) total += excess / (1 + excess);
  });
  return { cost: costs[objective]! / extents[objective]!, violation: total };
}

/** The feasibility rules, as `dominates` has them, with one objective. */
export function isBetter(a: Standing, b: Standing): boolean {
  return a.violation === b.violation ? a.cost < b.cost : a.violation < b.violation;
}

/**
 * One start's way down, by rounds from the best design so far until rounds gain nothing any more. A round is
 *
 * 1. while limits are broken, a simplex search for less of that alone;
 * 2. a simplex search over all numbers, whose merit is the cost and, times a weight that grows as long as the lowest
 *    merit breaks limits, how far it does. Whole numbers and lists take part as their axes round them;
 * 3. the same over the continuous numbers alone, the others held, where there are both;
 * 4. a smaller one in which limits are walls, from the best that meets them;
 * 5. every other choice and every next smaller and next larger number of a list or whole one, each alone, again as long
 *    as one is better (the polling of C. Audet, J. E. Dennis, Pattern search algorithms for mixed variable programming,
 *    SIAM J. Optim. 11 (2001) 573-594, doi:10.1137/S1052623499352024).
 *
 * Simplexes take turns in size, and their sides are picked at random. Points beyond a range count as its end (M. A. Luersen, R.
 * Le Riche, Globalized Nelder-Mead method for engineering optimization, Comput. Struct. 82 (2004) 2251-2260,
 * doi:10.1016/j.compstruc.2004.03.072, who restart likewise), so what is evaluated never leaves it. What comes out is
 * the best design evaluated, by the feasibility rules, and whether it is feasible. No design is evaluated twice.
 */
export function runDescent<Rows extends JudgedRows>(
  space: Space,
  senses: Senses,
  descent: Descent,
  evaluate: (batch: DesignBatch) => Rows,
): DescentResult<Rows> {
  return new DescentRun(space, senses, descent, evaluate).run();
}

/** What one descent knows so far. */
class DescentRun<Rows extends JudgedRows> {
  private readonly space: Space;
  private readonly senses: Senses;
  private readonly descent: Descent;
  private readonly evaluate: (batch: DesignBatch) => Rows;
  private readonly random: Random;
  private readonly rows: Rows[] = [];
  private readonly known = new Map<string, Known>();
  /** The design that is evaluated next. */
  private readonly design: Float64Array;
  private best!: Known;
  private weight = FIRST_WEIGHT;

  constructor(space: Space, senses: Senses, descent: Descent, evaluate: (batch: DesignBatch) => Rows) {
    this.space = space;
    this.senses = senses;
    this.descent = descent;
    this.evaluate = evaluate;
    this.random = createRandom(descent.seed, SIDES, descent.start);
    this.design = new Float64Array(space.axes.length);
  }

  run(): DescentResult<Rows> {
    const numbers = this.axesOf(({ kind, count }) => kind !== 'choice' && count > 1);
    const continuous = this.axesOf(({ kind }) => kind === 'continuous');
    const isMixed = continuous.length > 0 && continuous.length < numbers.length;
    this.design.set(this.descent.from.design);
    this.evaluateOnce();
    let idle = 0;
    for (let round = 0; idle < IDLE_ROUNDS && !this.isSpent; round++) {
      const before = this.best;
      const edge = EDGES[round % EDGES.length]!;
      if (this.best.violation > 0) this.simplex(numbers, edge, violated);
      this.penalise(numbers, edge);
      if (isMixed) this.penalise(continuous, edge);
      if (this.best.violation === 0) this.simplex(isMixed ? continuous : numbers, edge / 4, walled);
      this.poll();
      idle = this.isGain(before, this.best) ? 0 : idle + 1;
    }
    const end = idle < IDLE_ROUNDS ? 'spent' : 'settled';
    const { index, violation } = this.best;
    return { rows: this.rows, report: { best: index, feasible: violation === 0, end } };
  }

  private get isSpent(): boolean {
    return this.rows.length >= this.descent.settings.evaluations;
  }

  private axesOf(wanted: (axis: Space['axes'][number]) => boolean): number[] {
    const { axes } = this.space;
    return [...axes.keys()].filter((a) => wanted(axes[a]!));
  }

  /** The standing of the design in `design`; null when it would take an evaluation and none is left. */
  private evaluateOnce(): Known | null {
    const { design, known, rows } = this;
    const key = designKey(design);
    const before = known.get(key);
    if (before) return before;
    if (this.isSpent) return null;
    const row = this.evaluate({ first: 0, count: 1, values: design.slice() });
    const [candidate] = candidates(row, this.senses);
    const standing = standingOf(candidate!, this.descent);
    const found = { design: candidate!.design, index: rows.length, ...standing };
    rows.push(row);
    known.set(key, found);
    if (rows.length === 1 || isBetter(found, this.best)) this.best = found;
    return found;
  }

  /** A simplex search in which broken limits cost; more from then on if it ends outside them. */
  private penalise(axes: readonly number[], edge: number): void {
    const lowest = this.simplex(axes, edge, ({ cost, violation }) =>
      bounded(violation < Number.POSITIVE_INFINITY ? cost + this.weight * violation : WALL),
    );
    // the penalty was too small to keep the search inside the limits
    if (lowest.violation > 0) this.weight *= 10;
  }

  /** A simplex search over some axes from the best design on, all others held: the design of the lowest merit. */
  private simplex(axes: readonly number[], edge: number, merit: (standing: Standing) => number): Known {
    const { space, design, best: from } = this;
    const held = toPoint(space, from.design);
    const start = axes.map((a) => held[a]!);
    const steps = axes.map((a, i) => this.stepOf(a, from.design[a]!, start[i]!, edge));
    let lowest = from;
    const { tolerance, resolution, evaluations } = this.descent.settings;
    const search = { start, steps, value: tolerance, position: resolution, iterations: evaluations };
    descendSimplex((x) => {
      axes.forEach((a, i) => {
        held[a] = x[i]!;
      });
      toDesign(space, held, design);
      const found = this.evaluateOnce();
      if (!found) return 2 * WALL;
      if (merit(found) < merit(lowest)) lowest = found;
      return merit(found);
    }, search);
    return lowest;
  }

  /** An edge of a simplex: to a side picked at random, unless it would leave the axis; one cell at least. */
  private stepOf(a: number, value: number, u: number, edge: number): number {
    const axis = this.space.axes[a]!;
    const next = axis.neighbour(value, 1) ?? axis.neighbour(value, -1);
    const cell = next === null ? 0 : Math.abs(axis.unit(next) - u);
    const length = Math.max(edge, cell);
    const side = this.random.unit() < 0.5 ? -1 : 1;
    return u + side * length < 0 || u + side * length > 1 ? -side * length : side * length;
  }

  /** Tries the neighbours of the best design on every axis that has cells, and every other choice, until none is better. */
  private poll(): void {
    const { space, design } = this;
    for (let from: Known | null = null; from !== this.best && !this.isSpent; ) {
      from = this.best;
      for (const [a, axis] of space.axes.entries()) {
        const value = from.design[a]!;
        const others =
          axis.kind === 'choice'
            ? Array.from({ length: axis.count }, (_, level) => level)
            : [axis.neighbour(value, -1), axis.neighbour(value, 1)];
        for (const other of others) {
          if (other === null || other === value) continue;
          design.set(from.design);
          design[a] = other;
          this.evaluateOnce();
        }
      }
    }
  }

  private isGain(before: Standing, after: Standing): boolean {
    if (before.violation !== after.violation)
      return before.violation - after.violation > NO_LESS || after.violation === 0;
    return before.cost - after.cost > this.descent.settings.tolerance;
  }
}

function violated({ violation }: Standing): number {
  return bounded(violation);
}

function walled({ cost, violation }: Standing): number {
  return violation > 0 ? WALL : bounded(cost);
}

/** Some quantities may well be infinite; a simplex cannot reckon with that. */
function bounded(merit: number): number {
  return Math.min(WALL, Math.max(-WALL, merit));
}
