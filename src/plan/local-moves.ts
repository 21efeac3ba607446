import { normalQuantile } from '../math/normal-quantile.ts';
import type { Random } from '../math/random.ts';
import type { Candidate } from './candidate.ts';
import type { Survivors } from './select-survivors.ts';
import { nearlyContinuous, type Space, toPoint } from './space.ts';

/** With fewer feasible survivors on the front there is nothing to go by. */
const FEWEST = 4;
/** Neighbours on the front that a move takes its directions from. */
const NEIGHBOURS = 6;
/** Standard deviations of a move along axes, as shares of them: from the least up, each ratio as likely. */
const STEPS = { least: 1e-3, most: 0.1 };
/** Axes that such a move changes. */
const AXES = 2;
/** What the last of the front in an objective counts as far from the next: as the widest gap, and at least this share of the extent. */
const END = 0.1;
/** In more objectives than this no member has one next to it, and no gap. */
export const OBJECTIVES_OF_MOVES = 2;

/** Children near the front: a design, or null where the place it was to start from has no neighbours. */
export type LocalMoves = () => Float64Array | null;

/**
 * Moves that fit a front of two objectives more finely; null for other numbers of them, and where too little of it is known. Each starts from a feasible survivor that no
 * other dominates, holds its choices and its sizes out of short lists, and changes nothing but what is nearly continuous. Where
 * a move starts is drawn with the distances to the next worse on the front in each objective for weights: moving a point on by a
 * little adds as much hypervolume as the gap beside it is wide, so the ends of pieces come often (the reasoning of N.
 * Beume, B. Naujoks, M. Emmerich, SMS-EMOA, Eur. J. Oper. Res. 181 (2007) 1653-1669, doi:10.1016/j.ejor.2006.08.008).
 *
 * One half of moves is normal with the covariance of the survivor and those next to it on the front that have the same choices: it
 * follows a limit or a valley along which the front runs. Sources: H. Kita, I. Ono, S. Kobayashi, Multi-parental extension of the
 * unimodal normal distribution crossover, CEC 1999, 1581-1588, doi:10.1109/CEC.1999.782672; about a parent, as in K. Deb,
 * A. Anand, D. Joshi, Evol. Comput. 10 (2002) 371-395, doi:10.1162/106365602760972767. The other half changes two axes at a time by
 * steps of any size, every ratio as likely (H. Muehlenbein, D. Schlierkamp-Voosen, Evol. Comput. 1 (1993) 25-49, there one axis at
 * a time): the first steps along a limit that the front has not reached. All from memory.
 */
export function createLocalMoves(space: Space, survivors: Survivors, random: Random): LocalMoves | null {
  const front = survivors.members.filter(
    ({ violation, costs }, i) => violation === 0 && survivors.ranks[i] === 0 && costs.every(Number.isFinite),
  );
  const axes = [...space.axes.keys()].filter((a) => nearlyContinuous(space.axes[a]!));
  if (front.length < FEWEST || axes.length === 0 || front[0]!.costs.length !== OBJECTIVES_OF_MOVES)
    return null;
  return new FrontMoves(space, front, axes, random).draw;
}

class FrontMoves {
  private readonly space: Space;
  private readonly front: readonly Candidate[];
  private readonly axes: readonly number[];
  private readonly random: Random;
  private readonly points: readonly Float64Array[];
  private readonly extents: readonly number[];
  /** Sums of the weights up to each member. */
  private readonly upTo: Float64Array;
  private readonly neighbours = new Map<number, readonly number[]>();

  constructor(space: Space, front: readonly Candidate[], axes: readonly number[], random: Random) {
    this.space = space;
    this.front = front;
    this.axes = axes;
    this.random = random;
    this.points = front.map(({ design }) => toPoint(space, design));
    this.extents = Array.from(front[0]!.costs, (_, o) => extentOf(front, o));
    let sum = 0;
    this.upTo = gapsBeside(front, this.extents).map((gap) => {
      sum += gap;
      return sum;
    });
  }

  readonly draw: LocalMoves = () => {
    const from = this.place();
    const isAlong = this.random.unit() < 0.5;
    const step = isAlong ? this.along(from) : this.acrossTwo();
    if (!step) return null;
    const child = this.front[from]!.design.slice();
    for (const a of this.axes) {
      if (step[a] !== 0) child[a] = this.space.axes[a]!.value(this.points[from]![a]! + step[a]!);
    }
    return child;
  };

  private place(): number {
    const { upTo } = this;
    const drawn = this.random.unit() * upTo.at(-1)!;
    const found = upTo.findIndex((sum) => drawn < sum);
    return found < 0 ? upTo.length - 1 : found;
  }

  /** A step with the covariance of a member and its neighbours. */
  private along(from: number): Float64Array | null {
    const neighbours = this.neighboursOf(from);
    if (neighbours.length < 2) return null;
    const among = [from, ...neighbours];
    const step = new Float64Array(this.space.axes.length);
    const weights = among.map(() => this.normal() / Math.sqrt(among.length));
    for (const a of this.axes) {
      const mean = among.reduce((sum, i) => sum + this.points[i]![a]!, 0) / among.length;
      for (const [k, i] of among.entries()) step[a]! += weights[k]! * (this.points[i]![a]! - mean);
    }
    return step;
  }

  private acrossTwo(): Float64Array {
    const { random } = this;
    const step = new Float64Array(this.space.axes.length);
    const deviation = STEPS.least * (STEPS.most / STEPS.least) ** random.unit();
    const left = [...this.axes];
    for (let k = 0; k < AXES && left.length > 0; k++) {
      const [a] = left.splice(random.below(left.length), 1);
      step[a!] = deviation * this.normal();
    }
    return step;
  }

  /** The nearest in the objectives of those that have the same choices and sizes out of short lists. */
  private neighboursOf(from: number): readonly number[] {
    const known = this.neighbours.get(from);
    if (known) return known;
    const { front } = this;
    const found = [...front.keys()]
      .filter((i) => i !== from && this.sharesChoices(front[i]!, front[from]!))
      .map((i) => ({ i, apart: this.apart(front[i]!, front[from]!) }))
      .sort((a, b) => a.apart - b.apart || a.i - b.i)
      .slice(0, NEIGHBOURS)
      .map(({ i }) => i);
    this.neighbours.set(from, found);
    return found;
  }

  private sharesChoices(one: Candidate, other: Candidate): boolean {
    return one.design.every((value, a) => value === other.design[a] || nearlyContinuous(this.space.axes[a]!));
  }

  private apart(one: Candidate, other: Candidate): number {
    return this.extents.reduce(
      (sum, extent, o) => sum + ((one.costs[o]! - other.costs[o]!) / extent) ** 2,
      0,
    );
  }

  private normal(): number {
    return normalQuantile((this.random.uint32() + 0.5) * 2 ** -32);
  }
}

/** How far each is from the next worse in each objective, in extents, summed over the objectives. */
function gapsBeside(front: readonly Candidate[], extents: readonly number[]): Float64Array {
  const gaps = new Float64Array(front.length);
  for (const [o, extent] of extents.entries()) {
    const cost = (i: number) => front[i]!.costs[o]!;
    const order = [...front.keys()].sort((a, b) => cost(a) - cost(b) || a - b);
    let widest = END;
    for (const [k, i] of order.entries()) {
      const next = order[k + 1];
      const gap = next === undefined ? widest : (cost(next) - cost(i)) / extent;
      widest = Math.max(widest, gap);
      gaps[i]! += gap;
    }
  }
  return gaps;
}

/** 1 where all are alike: then the objective tells nothing. */
function extentOf(front: readonly Candidate[], o: number): number {
  const costs = front.map((one) => one.costs[o]!);
  const extent = Math.max(...costs) - Math.min(...costs);
  return extent > 0 ? extent : 1;
}
