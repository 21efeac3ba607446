import { type Candidate, dominates } from './candidate.ts';

/** Candidates that live on, with their ranks: 0 for those that no other dominates, 1 once these are gone, and so on. */
export interface Survivors {
  readonly members: readonly Candidate[];
  readonly ranks: readonly number[];
}

/**
 * The `count` candidates that live on: whole ranks from the best on, and of the rank that does not fit, those that
 * lie least crowded.
 *
 * Ranks: K. Deb, A. Pratap, S. Agarwal, T. Meyarivan, A fast and elitist multiobjective genetic algorithm: NSGA-II,
 * IEEE Trans. Evol. Comput. 6 (2002) 182-197, doi:10.1109/4235.996017. Crowding: instead of its crowding distance,
 * which is measured once and misleads in three objectives, the truncation of E. Zitzler, M. Laumanns, L. Thiele,
 * SPEA2, TIK report 103, ETH Zurich (2001): one at a time goes whoever is nearest to another, of equals whoever is
 * nearer to a second one.
 */
export function selectSurvivors(all: readonly Candidate[], count: number): Survivors {
  const members: Candidate[] = [];
  const ranks: number[] = [];
  for (const [rank, front] of byRank(all).entries()) {
    const room = count - members.length;
    if (room <= 0) break;
    const kept = front.length <= room ? front : thin(front, room);
    members.push(...kept);
    ranks.push(...kept.map(() => rank));
  }
  return { members, ranks };
}

/** Candidates by rank, in each rank in the order they came. */
function byRank(all: readonly Candidate[]): Candidate[][] {
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
  const fronts: Candidate[][] = [];
  let front = [...all.keys()].filter((i) => dominators[i] === 0);
  while (front.length > 0) {
    fronts.push(front.map((i) => all[i]!));
    const next: number[] = [];
    for (const i of front) for (const j of dominated[i]!) if (--dominators[j]! === 0) next.push(j);
    front = next.sort((a, b) => a - b);
  }
  return fronts;
}

/** A front without its most crowded members; distances are in objectives scaled to their range on it. */
function thin(front: readonly Candidate[], room: number): Candidate[] {
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
