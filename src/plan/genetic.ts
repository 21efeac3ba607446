import { createRandom, type Random } from '../math/random.ts';
import type { DesignBatch } from '../model/rows.ts';
import { mostDesigns } from '../model/search-size.ts';
import type { GeneticPlan } from '../model/study.ts';
import { batchSize } from './batch-size.ts';
import { breed, mutateOne } from './breed.ts';
import { type Candidate, candidates, type Senses } from './candidate.ts';
import { createGrowingFront } from './growing-front.ts';
import { createLocalMoves, type LocalMoves, OBJECTIVES_OF_MOVES } from './local-moves.ts';
import { createOperatorShare } from './operator-share.ts';
import type { BatchPlan, GeneticEnd, SearchOutcome } from './plan.ts';
import { type Survivors, selectSurvivors } from './select-survivors.ts';
import { createSobolPlan, sobolDesigns } from './sobol.ts';
import { designKey, type Space } from './space.ts';

/** The random stream that pairs and mutates. */
const BREEDING = 2;
/** Of the generations this share, but no more than so many of them, is drawn at once before any is bred. */
const SCATTERED = { share: 0.1, most: 10 };
/**
 * A search fits its front finely once the hypervolume grew by less than this share over so many generations. Before, such children
 * take the place of those that find other parts of the front (demo of seven inputs) or the way out of a local front (ZDT4).
 */
const FITTED = { growth: 0.01, over: 20 };
/** Tries to make a child a design that has not been evaluated before it is given up. */
const TRIES = 20;

/**
 * An evolutionary search for the front. The first tenth of its generations (ten at most) is scattered over the space
 * at once, so that a small population does not begin in one corner; each further generation is bred from the
 * survivors of all before it: parents by tournaments of two, children by `breed`, none evaluated that has been before. With two
 * objectives, while the front hardly grows, a share of the children are moves along it (`local-moves.ts`), as large
 * as they prove useful (`operator-share.ts`).
 * Hands out a generation in pieces and receives all of it before it breeds the next, so that neither threads nor
 * timing matter.
 */
export function createGenetic(
  space: Space,
  senses: Senses,
  settings: GeneticPlan,
  largest?: number,
): BatchPlan {
  const { population, generations, seed, patience, tolerance } = settings;
  const width = space.axes.length;
  const size = batchSize(population, largest);
  const random = createRandom(seed, BREEDING);
  const seen = new Set<string>();
  const front = createGrowingFront();
  const share = createOperatorShare();
  let survivors: Survivors = { members: [], ranks: [], distances: [] };
  let newborn: Candidate[] = [];
  let generation = scatteredGenerations(generations);
  let end: GeneticEnd | null = null;
  let brood = scattered();
  let first = 0;
  let handedOut = 0;

  function scattered(): Brood {
    const draw = sobolDesigns(space, seed);
    const count = Math.min(population * generation, space.size);
    const designs = Array.from({ length: count }, () => draw().slice());
    for (const design of designs) seen.add(designKey(design));
    return { designs, moved: new Set() };
  }

  function turn(): void {
    survivors = selectSurvivors([...survivors.members, ...newborn], population);
    for (const [i, candidate] of newborn.entries()) share.record(brood.moved.has(i), front.add(candidate));
    front.mark();
    share.mark();
    newborn = [];
    first += brood.designs.length;
    handedOut = 0;
    if (generation >= generations) end = 'generations';
    else if (front.growth(patience) < tolerance) end = 'settled';
    else {
      const parents = { survivors, moves: localMoves(), share: share.value };
      brood = children(space, parents, population, seen, random);
      if (brood.designs.length === 0) end = 'exhausted';
      else generation++;
    }
  }

  /** Null while the front still grows much. */
  function localMoves(): LocalMoves | null {
    if (senses.length !== OBJECTIVES_OF_MOVES || front.growth(FITTED.over) >= FITTED.growth) return null;
    return createLocalMoves(space, survivors, random);
  }

  return {
    total: null,
    atMost: mostDesigns(settings, senses.length),
    atOnce: Math.ceil(population / size),
    get done() {
      return end !== null;
    },
    get outcome(): SearchOutcome | null {
      return end && { kind: 'genetic', end, generations: generation, growth: front.growth(patience) };
    },
    next() {
      if (end !== null || handedOut === brood.designs.length) return null;
      const batch = toBatch(brood.designs.slice(handedOut, handedOut + size), first + handedOut, width);
      handedOut += batch.count;
      return batch;
    },
    receive(rows) {
      newborn.push(...candidates(rows, senses));
      if (newborn.length === brood.designs.length) turn();
    },
    sample: (count) => createSobolPlan(space, { points: population, seed }).sample(count),
  };
}

/** Designs that are evaluated together. */
interface Brood {
  readonly designs: readonly Float64Array[];
  /** Which of them are moves along the front. */
  readonly moved: ReadonlySet<number>;
}

/** What children are made from. */
interface Parents {
  readonly survivors: Survivors;
  /** Null where nothing can be fitted finely, or not yet. */
  readonly moves: LocalMoves | null;
  /** The share of pairs that are moves. */
  readonly share: number;
}

/** How many generations the scattered designs stand for, at least one. */
function scatteredGenerations(generations: number): number {
  return Math.max(1, Math.min(SCATTERED.most, Math.floor(SCATTERED.share * generations)));
}

function toBatch(designs: readonly Float64Array[], first: number, width: number): DesignBatch {
  const values = new Float64Array(designs.length * width);
  designs.forEach((design, i) => {
    values.set(design, i * width);
  });
  return { first, count: designs.length, values };
}

/** At most `count` designs that are not among those seen, which they join; fewer when few are left to be found. */
function children(
  space: Space,
  { survivors, moves, share }: Parents,
  count: number,
  seen: Set<string>,
  random: Random,
): Brood {
  const designs: Float64Array[] = [];
  const moved = new Set<number>();
  const take = (child: Float64Array) => {
    let design = child;
    for (let tries = 0; tries < TRIES && designs.length < count; tries++) {
      const key = designKey(design);
      if (!seen.has(key)) {
        seen.add(key);
        designs.push(design);
        return true;
      }
      design = mutateOne(space, design, random);
    }
    return false;
  };
  const breedPair = () => {
    const [a, b] = [tournament(survivors, random), tournament(survivors, random)];
    for (const child of breed(space, a, b, random)) take(child);
  };
  const movePair = (draw: LocalMoves) => {
    const pair = [draw(), draw()].filter((child) => child !== null);
    for (const child of pair) if (take(child)) moved.add(designs.length - 1);
    return pair.length > 0;
  };
  // as many pairs as give all children when every one is new, and as many again when some are not
  for (let pairs = 0; pairs < count && designs.length < count; pairs++) {
    const isMove = moves !== null && random.unit() < share && movePair(moves);
    if (!isMove) breedPair();
  }
  return { designs, moved };
}

/** The better of two by rank; of equals the less crowded one (NSGA-II). */
function tournament({ members, ranks, distances }: Survivors, random: Random): Float64Array {
  const a = random.below(members.length);
  const b = random.below(members.length);
  const second = ranks[a] === ranks[b] ? distances[b]! > distances[a]! : ranks[b]! < ranks[a]!;
  return members[second ? b : a]!.design;
}
