import { createRandom, type Random } from '../math/random.ts';
import type { DesignBatch } from '../model/rows.ts';
import { candidates, type JudgedRows, type Senses } from './candidate.ts';
import { descendSimplex } from './nelder-mead.ts';
import type { Descent, DescentReport } from './plan.ts';
import { type Spot, stepQuadratically } from './quadratic-steps.ts';
import { designKey, nearlyContinuous, type Space, toDesign, toPoint } from './space.ts';
import { isBetter, type Standing, standingOf } from './standing.ts';

export interface DescentResult<Rows> {
  /** One row each, in the order of evaluation. */
  readonly rows: readonly Rows[];
  readonly report: DescentReport;
}

/** Past 300 lines: the rounds of one descent and what each hands to the next. */

/** Rounds in a row that gain nothing before a descent is over; each has a simplex of another size and side. */
const IDLE_ROUNDS = 2;
/** Edges of a round's first simplex, as shares of the axes; they take turns. */
const EDGES = [0.2, 0.1];
/** A simplex that quadratic steps follow ends this early: its corners, and their merits, are this close together. */
const COARSE = 1e-2;
/** No first quadratic step goes farther than this on any axis. */
const RADIUS = 0.1;
/** Quadratic steps end where one would gain less than this share of the tolerance, or is shorter than this share of the resolution. */
const FINER = { tolerance: 1e-3, resolution: 0.1 };
/** Those from a neighbour only have to show whether it is better. */
const SHOWS = 1e-3;
/** Weight of broken limits beside a cost in units of its extent. */
const FIRST_WEIGHT = 10;
/** The random stream that picks the sides of simplexes. */
const SIDES = 3;
/** Limits that are broken by less than this less are broken as much as before. */
const NO_LESS = 1e-9;
/** Merit of what no cost can be compared with. Far below the largest number, so that differences stay finite. */
const WALL = 1e200;

/** What a descent goes down on. */
export interface Descendable<Rows> {
  /** One design's row. */
  evaluate(batch: DesignBatch): Rows;
  /** Of an evaluated row: `limitGap` of each limit, -Infinity where it does not apply. */
  gaps(row: Rows): Float64Array;
}

/** A design that the descent knows, with the index of its row. */
interface Known extends Standing {
  readonly design: Float64Array;
  readonly index: number;
}

/**
 * One start's way down, by rounds from the best design so far until rounds gain nothing any more. A round is
 *
 * 1. while limits are broken, a simplex search for less of that alone;
 * 2. a simplex search over all numbers, whose merit is the cost and, times a weight that grows as long as the lowest
 *    merit breaks limits, how far it does. Whole numbers and lists take part as their axes round them;
 * 3. quadratic steps (`quadratic-steps.ts`) over the continuous numbers, and before that over these and whole numbers of
 *    fine grain: they end in corners of limits and along curved ones, where a simplex creeps or stops short;
 * 4. where these do not end at a least, because cost or limits have kinks, the simplex search over the continuous numbers
 *    again, to the end, and a smaller one in which limits are walls;
 * 5. every other choice and every next smaller and next larger number of a list or whole one, each alone, and, where none
 *    is better as it stands, each with quadratic steps that fit the other numbers to it; again as long as one is better
 *    (the polling and extended polling of C. Audet, J. E. Dennis, Pattern search algorithms for mixed variable
 *    programming, SIAM J. Optim. 11 (2001) 573-594, doi:10.1137/S1052623499352024).
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
  rig: Descendable<Rows>,
): DescentResult<Rows> {
  return new DescentRun(space, senses, descent, rig).run();
}

/** What one descent knows so far. */
class DescentRun<Rows extends JudgedRows> {
  private readonly space: Space;
  private readonly senses: Senses;
  private readonly descent: Descent;
  private readonly rig: Descendable<Rows>;
  private readonly random: Random;
  private readonly rows: Rows[] = [];
  private readonly known = new Map<string, Known>();
  /** The design that is evaluated next. */
  private readonly design: Float64Array;
  private best!: Known;
  private weight = FIRST_WEIGHT;
  private readonly numbers: readonly number[];
  private readonly continuous: readonly number[];
  /** The continuous axes and those that nearly are. */
  private readonly smooth: readonly number[];

  constructor(space: Space, senses: Senses, descent: Descent, rig: Descendable<Rows>) {
    this.space = space;
    this.senses = senses;
    this.descent = descent;
    this.rig = rig;
    this.random = createRandom(descent.seed, SIDES, descent.start);
    this.design = new Float64Array(space.axes.length);
    this.numbers = this.axesOf(({ kind, count }) => kind !== 'choice' && count > 1);
    this.continuous = this.axesOf(({ kind }) => kind === 'continuous');
    this.smooth = this.axesOf(nearlyContinuous);
  }

  run(): DescentResult<Rows> {
    this.design.set(this.descent.from.design);
    this.evaluateOnce();
    let idle = 0;
    for (let round = 0; idle < IDLE_ROUNDS && !this.isSpent; round++) {
      const before = this.best;
      this.round(EDGES[round % EDGES.length]!);
      idle = this.isGain(before, this.best) ? 0 : idle + 1;
    }
    const end = idle < IDLE_ROUNDS ? 'spent' : 'settled';
    const { index, violation } = this.best;
    return { rows: this.rows, report: { best: index, feasible: violation === 0, end } };
  }

  private round(edge: number): void {
    const { numbers, continuous } = this;
    if (this.best.violation > 0) this.simplex(numbers, edge, COARSE, violated);
    this.penalise(numbers, edge, COARSE);
    if (!this.slide()) {
      const isMixed = continuous.length > 0 && continuous.length < numbers.length;
      if (isMixed) this.penalise(continuous, edge, 0);
      if (this.best.violation === 0) this.simplex(isMixed ? continuous : numbers, edge / 4, 0, walled);
    }
    this.poll();
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
    const row = this.rig.evaluate({ first: 0, count: 1, values: design.slice() });
    const [candidate] = candidates(row, this.senses);
    const standing = standingOf(candidate!, this.descent);
    const found = { design: candidate!.design, index: rows.length, ...standing };
    rows.push(row);
    known.set(key, found);
    if (rows.length === 1 || isBetter(found, this.best)) this.best = found;
    return found;
  }

  /** A simplex search in which broken limits cost; more from then on if it ends outside them. */
  private penalise(axes: readonly number[], edge: number, early: number): void {
    const lowest = this.simplex(axes, edge, early, ({ cost, violation }) =>
      bounded(violation < Number.POSITIVE_INFINITY ? cost + this.weight * violation : WALL),
    );
    // the penalty was too small to keep the search inside the limits
    if (lowest.violation > 0) this.weight *= 10;
  }

  /**
   * A simplex search over some axes from the best design on, all others held: the design of the lowest merit. `early`:
   * how close corners and merits are when it ends, if that is sooner than the settings have it.
   */
  private simplex(
    axes: readonly number[],
    edge: number,
    early: number,
    merit: (standing: Standing) => number,
  ): Known {
    const { space, design, best: from } = this;
    const held = toPoint(space, from.design);
    const start = axes.map((a) => held[a]!);
    const steps = axes.map((a, i) => this.stepOf(a, from.design[a]!, start[i]!, edge));
    let lowest = from;
    const { tolerance, resolution, evaluations } = this.descent.settings;
    const search = {
      start,
      steps,
      value: Math.max(early, tolerance),
      position: Math.max(early, resolution),
      iterations: evaluations,
    };
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

  /** Quadratic steps from the best design on: over all that is nearly continuous, then with that held. */
  private slide(): boolean {
    const { smooth, continuous } = this;
    const { tolerance, resolution } = this.descent.settings;
    const [value, position] = [FINER.tolerance * tolerance, FINER.resolution * resolution];
    if (smooth.length > continuous.length) this.step(smooth, this.best, value, position);
    return this.step(continuous, this.best, value, position);
  }

  /** Quadratic steps over some axes from a design on; whether they ended where their model has its least. */
  private step(axes: readonly number[], from: Known, value: number, position: number): boolean {
    const { space, design } = this;
    const start = axes.length > 0 ? this.spotOf(from, axes) : null;
    if (!start) return false;
    const held = toPoint(space, from.design);
    const problem = {
      evaluate: (x: Float64Array) => {
        axes.forEach((a, i) => {
          held[a] = x[i]!;
        });
        toDesign(space, held, design);
        const found = this.evaluateOnce();
        return found && this.spotOf(found, axes);
      },
      cells: (x: Float64Array) => Float64Array.from(axes, (a, i) => space.axes[a]!.cell(x[i]!)),
    };
    return stepQuadratically(problem, { start, radius: RADIUS, value, position });
  }

  /** Null where slopes would mean nothing: of a design that rests, or could not be evaluated. */
  private spotOf({ design, index, cost, violation }: Known, axes: readonly number[]): Spot | null {
    const row = this.rows[index]!;
    const { objective, caps, extents } = this.descent;
    const gaps = [...this.rig.gaps(row)].map((gap) => (gap === Number.NEGATIVE_INFINITY ? -1 : gap));
    candidates(row, this.senses)[0]!.costs.forEach((other, o) => {
      if (o !== objective && caps[o]! < Number.POSITIVE_INFINITY) gaps.push((other - caps[o]!) / extents[o]!);
    });
    const isMet = gaps.every((gap) => gap <= 0);
    if (!(Number.isFinite(cost) && gaps.every(Number.isFinite)) || (isMet && violation > 0)) return null;
    return {
      at: Float64Array.from(axes, (a) => this.space.axes[a]!.unit(design[a]!)),
      cost,
      gaps: Float64Array.from(gaps),
    };
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

  /**
   * Tries the neighbours of the best design on every axis that has cells, and every other choice, until none is better;
   * where none is as it stands, what is nearly continuous is fitted to each.
   */
  private poll(): void {
    for (let from: Known | null = null; from !== this.best && !this.isSpent; ) {
      from = this.best;
      const around = this.around(from);
      if (from !== this.best) continue;
      for (const neighbour of around) this.step(this.smooth, neighbour, SHOWS, SHOWS);
    }
  }

  /** Evaluates the neighbours of a design: those that differ in what is not nearly continuous. */
  private around(from: Known): Known[] {
    const { space, design, smooth } = this;
    const apart: Known[] = [];
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
        const found = this.evaluateOnce();
        if (found && !smooth.includes(a)) apart.push(found);
      }
    }
    return apart;
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
