import { type Candidate, dominates } from './candidate.ts';

/** Candidates that live on, with their ranks in their kind: 0 for those that no other dominates, 1 once these are gone. */
export interface Survivors {
  readonly members: readonly Candidate[];
  readonly ranks: readonly number[];
  /** How far apart the neighbours of each are in its rank, in objectives scaled to their range; the ends are infinite. */
  readonly distances: readonly number[];
}

/** The share of survivors that may break limits. */
const BEYOND = 0.3;
/** Of those that break limits, this many times as many as may stay are looked at: the ones that break them least. */
const NEAR = 2;

/**
 * The `count` candidates that live on: of each kind whole ranks from the best on, and of the rank that does not fit,
 * those that lie least crowded.
 *
 * A share of them breaks limits, though not by much: the best designs mostly lie at a limit, and what is feasible may
 * fall apart into islands that only lead to one another through what is not. Among these the amount by which limits
 * are broken counts as one more objective, so that they keep their variety. As long as too little is feasible they
 * take all the room; what cannot be evaluated comes last. Source: T. Ray, H. K. Singh, A. Isaacs, W. Smith,
 * Infeasibility driven evolutionary algorithm for constrained optimization, in: Constraint-handling in evolutionary
 * optimization, Springer 2009, 145-165 (from memory).
 *
 * Ranks: K. Deb, A. Pratap, S. Agarwal, T. Meyarivan, A fast and elitist multiobjective genetic algorithm: NSGA-II,
 * IEEE Trans. Evol. Comput. 6 (2002) 182-197, doi:10.1109/4235.996017. Who goes is not left to its crowding distance,
 * which is measured once and misleads in three objectives, but to the truncation of E. Zitzler, M. Laumanns, L. Thiele,
 * SPEA2, TIK report 103, ETH Zurich (2001): one at a time goes whoever is nearest to another, of equals whoever is
 * nearer to a second one.
 */
export function selectSurvivors(all: readonly Candidate[], count: number): Survivors {
  const feasible = all.filter(({ violation }) => violation === 0);
  const hopeless = all.filter(({ violation }) => violation === Number.POSITIVE_INFINITY);
  const beyond = all.filter(({ violation }) => violation > 0 && violation < Number.POSITIVE_INFINITY);
  const members: Candidate[] = [];
  const ranks: number[] = [];
  const distances: number[] = [];
  const admit = (chosen: Survivors) => {
    members.push(...chosen.members);
    ranks.push(...chosen.ranks);
    distances.push(...chosen.distances);
  };
  const reserved = Math.min(beyond.length, Math.round(BEYOND * count));
  admit(bestOf(feasible, count - reserved));
  const room = count - members.length;
  admit(bestOf(nearest(beyond, NEAR * room).map(withViolationAsCost), room, (one) => one.broken));
  admit(bestOf(hopeless, count - members.length));
  return { members, ranks, distances };
}

/** A candidate that breaks limits, as one that does not and has the amount for a further cost. */
interface Beyond extends Candidate {
  readonly broken: Candidate;
}

function withViolationAsCost(broken: Candidate): Beyond {
  const { costs, violation } = broken;
  return { ...broken, costs: Float64Array.of(...costs, violation), violation: 0, broken };
}

/** The `count` that break limits least, and those that break them no more; in the order they came. */
function nearest(beyond: readonly Candidate[], count: number): readonly Candidate[] {
  if (beyond.length <= count || count === 0) return beyond;
  const sorted = Float64Array.from(beyond, ({ violation }) => violation).sort();
  return beyond.filter(({ violation }) => violation <= sorted[count - 1]!);
}

function bestOf<One extends Candidate>(
  all: readonly One[],
  count: number,
  as: (one: One) => Candidate = (one) => one,
): Survivors {
  const members: Candidate[] = [];
  const ranks: number[] = [];
  const distances: number[] = [];
  for (const [rank, front] of byRank(all).entries()) {
    const room = count - members.length;
    if (room <= 0) break;
    const kept = front.length <= room ? front : thin(front, room);
    members.push(...kept.map(as));
    ranks.push(...kept.map(() => rank));
    distances.push(...crowdingDistances(kept));
  }
  return { members, ranks, distances };
}

/** Candidates by rank, in each rank in the order they came. */
function byRank<One extends Candidate>(all: readonly One[]): One[][] {
  const dominators = new Uint32Array(all.length);
  const dominated: number[][] = all.map(() => []);
  for (let i = 0; i < all.length; i++) {
    for (let j = i + 1; j < all.length; j++) {
      if (dominates(all[i]!, all[j]!)) {
        dominated[i]!.push(j);
        dominators[j]!++;
      } else if (dominates(all[j]!, all[i]!)) {
        dominated[j]!.push(i);
        dominators[i]!++;
      }
    }
  }
  const fronts: One[][] = [];
  let front = [...all.keys()].filter((i) => dominators[i] === 0);
  while (front.length > 0) {
    fronts.push(front.map((i) => all[i]!));
    const next: number[] = [];
    for (const i of front) for (const j of dominated[i]!) if (--dominators[j]! === 0) next.push(j);
    front = next.sort((a, b) => a - b);
  }
  return fronts;
}

/** The crowding distance of NSGA-II. */
function crowdingDistances(front: readonly Candidate[]): Float64Array {
  const distances = new Float64Array(front.length);
  for (let o = 0; o < (front[0]?.costs.length ?? 0); o++) {
    const cost = (i: number) => front[i]!.costs[o]!;
    const order = [...front.keys()].sort((a, b) => cost(a) - cost(b) || a - b);
    const [lowest, highest] = [order[0]!, order.at(-1)!];
    distances[lowest] = distances[highest] = Number.POSITIVE_INFINITY;
    const extent = cost(highest) - cost(lowest);
    if (!(extent > 0 && Number.isFinite(extent))) continue;
    for (let k = 1; k < order.length - 1; k++) {
      distances[order[k]!]! += (cost(order[k + 1]!) - cost(order[k - 1]!)) / extent;
    }
  }
  return distances;
}

/** A front without its most crowded members; distances are in objectives scaled to their range on it. */
function thin<One extends Candidate>(front: readonly One[], room: number): One[] {
  const apart = createDistances(front);
  const left = new Set(front.keys());
  const neighbours = front.map((_, i) => nearestTwo(i, left, apart));
  while (left.size > room) {
    let crowded = -1;
    for (const i of left) if (crowded < 0 || isMoreCrowded(neighbours[i]!, neighbours[crowded]!)) crowded = i;
    left.delete(crowded);
    for (const i of left) {
      const { first, second } = neighbours[i]!;
      if (first === crowded || second === crowded) neighbours[i] = nearestTwo(i, left, apart);
    }
  }
  return [...left].map((i) => front[i]!);
}

type Distance = (i: number, j: number) => number;

function createDistances(front: readonly Candidate[]): Distance {
  const scaled = Array.from(front[0]!.costs, (_, o) => {
    const costs = front.map((candidate) => candidate.costs[o]!);
    const extent = Math.max(...costs) - Math.min(...costs);
    // infinite costs leave no scale
    return Number.isFinite(extent) && extent > 0 ? costs.map((cost) => cost / extent) : costs.map(() => 0);
  });
  return (i, j) => {
    let square = 0;
    for (const costs of scaled) square += (costs[i]! - costs[j]!) ** 2;
    return square;
  };
}

interface Neighbours {
  readonly first: number;
  readonly second: number;
  readonly toFirst: number;
  readonly toSecond: number;
}

function nearestTwo(i: number, among: ReadonlySet<number>, apart: Distance): Neighbours {
  let [first, second] = [-1, -1];
  let [toFirst, toSecond] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const j of among) {
    if (j === i) continue;
    const distance = apart(i, j);
    if (distance < toFirst) {
      [second, toSecond] = [first, toFirst];
      [first, toFirst] = [j, distance];
    } else if (distance < toSecond) {
      [second, toSecond] = [j, distance];
    }
  }
  return { first, second, toFirst, toSecond };
}

/** Two that are nearest to each other differ in how near the next one is. */
function isMoreCrowded(a: Neighbours, b: Neighbours): boolean {
  return a.toFirst === b.toFirst ? a.toSecond < b.toSecond : a.toFirst < b.toFirst;
}
