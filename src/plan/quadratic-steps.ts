import { solveQuadratic } from '../math/quadratic-program.ts';

/** What is known at a point. Past 300 lines: the steps of one method, in the order in which they are taken. */
export interface Spot {
  /** The point itself, which may be a rounded one. */
  readonly at: Float64Array;
  readonly cost: number;
  /** How far each limit is on the wrong side of its bound; 0 and below where it is met. Smooth in the point. */
  readonly gaps: Float64Array;
}

/** A smooth problem over the unit cube. */
export interface SmoothProblem {
  /** Null where there is nothing to go by: the design cannot be evaluated, or evaluations are spent. */
  evaluate(point: Float64Array): Spot | null;
  /** How far apart, on each axis, the values about a point are that rounding leaves. */
  cells(point: Float64Array): Float64Array;
}

export interface QuadraticSearch {
  readonly start: Spot;
  /** No first step goes farther than this on any axis. */
  readonly radius: number;
  /** Steps end where one would gain less than `value`, or is shorter than `position` on every axis. */
  readonly value: number;
  readonly position: number;
}

const MOST_STEPS = 60;
/**
 * Differences reach a tenth of the last step, within these. A larger one takes the bend of a curved valley for its slope;
 * a smaller one drowns in the rounding of laws.
 */
const REACH = { share: 0.1, least: 1e-7, most: 1e-6 };
/** Of the gain predicted this share must come true for a step to be taken, and for longer ones to be tried. */
const TAKEN = 0.05;
const LONGER = 0.75;
/** A limit's gap that changes by less than this over a whole axis does not depend on the axes. */
const FLAT = 1e-9;
/** Cost of the whole of the linearised limits being given up, beside the largest slope of the cost. */
const GIVEN_UP = 1e4;
/** The least distance kept from limits, for rounding in what they limit; and how often more is tried at the end. */
const LEAST_KEPT = 1e-12;
const MOST_DOUBLINGS = 6;

/**
 * Sequential quadratic programming from differences: each step goes to the least of a quadratic model of the cost, within limits
 * made linear and a box about the point, and is taken where an exact penalty function falls. Where the curvature of
 * limits forbids that, the step is corrected for it once. For corners of limits and smooth valleys, where a simplex
 * creeps: each step costs one evaluation, and one for each axis.
 *
 * Sources (all from memory): M. J. D. Powell, A fast algorithm for nonlinearly constrained optimization calculations,
 * Lecture Notes in Mathematics 630 (1978) 144-157, doi:10.1007/BFb0067703 (curvature by damped updates, weights of the
 * penalty); R. Fletcher, Practical methods of optimization, Wiley 1987, chapter 14 (penalty, box, correction).
 *
 * Where no more is to be gained, slopes are taken to both sides, which removes the bias of one-sided ones, and steps go on
 * if they lead on; not in a corner, which limits alone fix. Rounding to the values of axes may break a limit that the point itself meets, so steps keep the distance from limits
 * that half a cell on every axis can make. Returns whether steps ended at a least of the model.
 */
export function stepQuadratically(problem: SmoothProblem, search: QuadraticSearch): boolean {
  return new QuadraticSteps(problem, search).run();
}

/** The problem made linear at a point. */
interface Slopes {
  readonly gradient: Float64Array;
  /** One a limit. */
  readonly rows: readonly Float64Array[];
  /** The distance kept from each limit, as its gap. */
  readonly kept: Float64Array;
}

interface Move {
  readonly step: Float64Array;
  /** One a limit. */
  readonly multipliers: Float64Array;
  readonly predicted: number;
  /** Whether limits and bounds alone fix where it ends. */
  readonly isCorner: boolean;
}

class QuadraticSteps {
  private readonly problem: SmoothProblem;
  private readonly search: QuadraticSearch;
  private readonly n: number;
  private readonly hessian: Float64Array;
  private readonly weights: Float64Array;
  private here: Spot;
  private radius: number;
  private reach = REACH.most;
  /** Whether slopes are taken to both sides, which is for the end alone. */
  private central = false;

  constructor(problem: SmoothProblem, search: QuadraticSearch) {
    this.problem = problem;
    this.search = search;
    this.here = search.start;
    this.radius = search.radius;
    this.n = search.start.at.length;
    this.hessian = new Float64Array(this.n * this.n);
    this.weights = new Float64Array(search.start.gaps.length);
  }

  run(): boolean {
    let slopes = this.slopesHere();
    if (!slopes) return false;
    this.resetCurvature(Math.sqrt(dot(slopes.gradient, slopes.gradient)) / this.radius || 1);
    for (let step = 0; step < MOST_STEPS; step++) {
      const move = this.move(slopes, this.here.gaps);
      if (!move) return false;
      if (this.isEnd(move) && !this.central && !move.isCorner) {
        this.central = true;
        slopes = this.slopesHere();
        if (!slopes) return false;
        continue;
      }
      if (this.isEnd(move)) return this.isWithin(this.here) || this.stepInside(slopes);
      const taken = this.tryMove(slopes, move);
      if (!taken) {
        if (this.radius < this.search.position) return false;
        continue;
      }
      const before = this.here;
      this.here = taken;
      const step = difference(taken.at, before.at);
      this.reach = Math.max(REACH.least, Math.min(REACH.most, REACH.share * largest(step)));
      const next = this.slopesHere();
      if (!next) return false;
      this.updateCurvature(step, slopes, next, move.multipliers);
      slopes = next;
    }
    return false;
  }

  private isWithin({ gaps }: Spot): boolean {
    return gaps.every((gap) => gap <= 0);
  }

  /** From an end that breaks a limit by its curvature: doubles the distance kept until a step leads to one that does not. */
  private stepInside(slopes: Slopes): boolean {
    let { kept } = slopes;
    for (let doubling = 0; doubling < MOST_DOUBLINGS; doubling++) {
      kept = kept.map((gap) => 2 * gap);
      const move = this.move({ ...slopes, kept }, this.here.gaps);
      const spot = move && this.problem.evaluate(moved(this.here.at, move.step));
      if (spot && this.isWithin(spot)) return true;
    }
    return false;
  }

  private isEnd({ step, predicted }: Move): boolean {
    return predicted < this.search.value || largest(step) < this.search.position;
  }

  /** Slopes by differences, to the inside of the cube; null where a design beside this one cannot be evaluated. */
  private slopesHere(): Slopes | null {
    const { here, n } = this;
    const gradient = new Float64Array(n);
    const rows = Array.from(here.gaps, () => new Float64Array(n));
    const cells = this.problem.cells(here.at);
    for (let i = 0; i < n; i++) {
      const by = Math.max(this.central ? REACH.most : this.reach, 2 * cells[i]!);
      const inward = here.at[i]! + by > 1 ? -1 : 1;
      const after = this.beside(i, inward * by) ?? this.beside(i, -inward * by);
      if (!after) return null;
      const before = (this.central && this.beside(i, here.at[i]! - after.at[i]!)) || here;
      const apart = after.at[i]! - before.at[i]!;
      gradient[i] = (after.cost - before.cost) / apart;
      for (const [j, row] of rows.entries()) row[i] = (after.gaps[j]! - before.gaps[j]!) / apart;
    }
    const kept = Float64Array.from(rows, (row) =>
      row.reduce((sum, slope, i) => sum + Math.abs(slope) * 0.5 * cells[i]!, LEAST_KEPT),
    );
    return { gradient, rows, kept };
  }

  /** Null beyond the cube, or where nothing can be evaluated. */
  private beside(i: number, by: number): Spot | null {
    const point = this.here.at.slice();
    point[i]! += by;
    if (point[i]! < 0 || point[i]! > 1) return null;
    const spot = this.problem.evaluate(point);
    return spot && spot.at[i] !== this.here.at[i] ? spot : null;
  }

  /** The least of the model within the box, for limits that have these gaps at the point. */
  private move(slopes: Slopes, gaps: Float64Array): Move | null {
    const { n, here, radius, hessian } = this;
    const { gradient, rows, kept } = slopes;
    const limits = [...rows.keys()].filter((j) => largest(rows[j]!) > FLAT);
    const inequalities: Float64Array[] = limits.map((j) => rows[j]!.map((slope) => -slope));
    const bounds = limits.map((j) => gaps[j]! + kept[j]!);
    for (let i = 0; i < n; i++) {
      for (const side of [1, -1]) {
        const row = new Float64Array(n);
        row[i] = side;
        inequalities.push(row);
        bounds.push(-Math.min(radius, side > 0 ? here.at[i]! : 1 - here.at[i]!));
      }
    }
    const solved =
      solveQuadratic({ hessian, gradient, rows: inequalities, bounds }) ??
      this.giveWay(gradient, inequalities, bounds);
    if (!solved) return null;
    const { step } = solved;
    const multipliers = new Float64Array(rows.length);
    for (const [k, j] of limits.entries()) multipliers[j] = solved.multipliers[k]!;
    for (const [j, multiplier] of multipliers.entries()) {
      this.weights[j] = Math.max(2 * multiplier, (this.weights[j]! + 2 * multiplier) / 2);
    }
    let predicted = -dot(gradient, step) - 0.5 * this.curvature(step);
    for (const [j, row] of rows.entries()) {
      const gap = gaps[j]! + kept[j]!;
      predicted += this.weights[j]! * (Math.max(0, gap) - Math.max(0, gap + dot(row, step)));
    }
    const isCorner = solved.multipliers.filter((multiplier) => multiplier > 0).length >= n;
    return { step, multipliers, predicted, isCorner };
  }

  /** Limits that contradict one another in the box give way by the same share of what they are broken by. */
  private giveWay(gradient: Float64Array, rows: readonly Float64Array[], bounds: readonly number[]) {
    const { n, hessian } = this;
    const m = n + 1;
    const wider = new Float64Array(m * m);
    for (let i = 0; i < n; i++) wider.set(hessian.subarray(i * n, (i + 1) * n), i * m);
    wider[m * m - 1] = GIVEN_UP * (1 + largest(gradient));
    const solved = solveQuadratic({
      hessian: wider,
      gradient: Float64Array.of(...gradient, 0),
      rows: rows.map((row, j) => Float64Array.of(...row, Math.max(0, bounds[j]!))),
      bounds,
    });
    return solved && { step: solved.step.slice(0, n), multipliers: solved.multipliers };
  }

  /** Evaluates the step, corrected once if it is none: where it led, or null after the box was made smaller. */
  private tryMove(slopes: Slopes, move: Move): Spot | null {
    const { here } = this;
    const before = this.penalty(here, slopes);
    const gain = (spot: Spot | null) =>
      spot ? before - this.penalty(spot, slopes) : Number.NEGATIVE_INFINITY;
    let spot = this.problem.evaluate(moved(here.at, move.step));
    let won = gain(spot);
    if (spot && !(won > TAKEN * move.predicted)) {
      const bent = spot.gaps.map((gap, j) => gap - dot(slopes.rows[j]!, move.step));
      const corrected = this.move(slopes, bent);
      const second = corrected && this.problem.evaluate(moved(here.at, corrected.step));
      if (gain(second) > won) [spot, won] = [second, gain(second)];
    }
    const length = largest(move.step);
    if (!(won > TAKEN * move.predicted)) {
      this.radius = length / (spot ? 2 : 4);
      return null;
    }
    if (won > LONGER * move.predicted && length > 0.9 * this.radius)
      this.radius = Math.min(1, 2 * this.radius);
    return spot;
  }

  private penalty({ cost, gaps }: Spot, { kept }: Slopes): number {
    let sum = cost;
    for (const [j, gap] of gaps.entries()) sum += this.weights[j]! * Math.max(0, gap + kept[j]!);
    return sum;
  }

  private resetCurvature(diagonal: number): void {
    this.hessian.fill(0);
    for (let i = 0; i < this.n; i++) this.hessian[i * this.n + i] = diagonal;
  }

  private curvature(step: Float64Array): number {
    return dot(step, this.times(step));
  }

  private times(step: Float64Array): Float64Array {
    const { n, hessian } = this;
    return Float64Array.from({ length: n }, (_, i) => dot(hessian.subarray(i * n, (i + 1) * n), step));
  }

  /** Powell's damped update, from how the slope of the Lagrangian changed over a step. */
  private updateCurvature(step: Float64Array, from: Slopes, to: Slopes, multipliers: Float64Array): void {
    const { n, hessian } = this;
    const change = difference(to.gradient, from.gradient);
    for (const [j, multiplier] of multipliers.entries()) {
      if (multiplier === 0) continue;
      for (let i = 0; i < n; i++) change[i]! += multiplier * (to.rows[j]![i]! - from.rows[j]![i]!);
    }
    const bent = this.times(step);
    const expected = dot(step, bent);
    const found = dot(step, change);
    if (!(expected > 0)) return;
    const share = found >= 0.2 * expected ? 1 : (0.8 * expected) / (expected - found);
    const damped = change.map((x, i) => share * x + (1 - share) * bent[i]!);
    const length = dot(step, damped);
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < n; k++)
        hessian[i * n + k]! += (damped[i]! * damped[k]!) / length - (bent[i]! * bent[k]!) / expected;
    }
  }
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function difference(a: Float64Array, b: Float64Array): Float64Array {
  return a.map((x, i) => x - b[i]!);
}

function moved(point: Float64Array, step: Float64Array): Float64Array {
  return point.map((x, i) => Math.min(1, Math.max(0, x + step[i]!)));
}

function largest(vector: Float64Array): number {
  let most = 0;
  for (const x of vector) most = Math.max(most, Math.abs(x));
  return most;
}
