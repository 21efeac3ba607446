import { ExponentialSteps } from '../math/exponential-steps.ts';
import { HeatTable } from './heat-table.ts';
import type { RigHeat } from './rig-heat.ts';
import { TimeToLimit } from './time-to-limit.ts';

/** When a rig that is switched on cold reaches what, s; Infinity: never. */
export interface WarmUpTimes {
  /** The hottest place of some winding at `limit`. */
  limit: number;
  /** The mean temperature of each winding then, K; at the end where it never is. */
  readonly means: Float64Array;
  /** The plate, or its load, at `plateTo`. */
  plate: number;
}

/** What a rig is to reach, K. */
export interface WarmUpGoal {
  limit: number;
  plateTo: number;
  /** False: it is known that this one never is reached. */
  reachesLimit: boolean;
  reachesPlate: boolean;
  /** No winding's mean is hotter on the way, and no plate: where the tables end. */
  hottestMean: number;
  hottestPlate: number;
}

/**
 * A rig that warms with the current held until the hottest place of a winding is at a limit and, where that is requested, until the
 * plate is at a temperature. One winding without a load: by its mean (time-to-limit), and where that finds nothing by steps of the laws
 * themselves, finer ones where few were enough. Others: steps by tables of the heat flows (heat-table), unless the laws contradict
 * these where a goal is reached.
 * Accuracy: docs/heat.md (test/rig/heat-by-steps.test.ts).
 */
export class WarmUp {
  private readonly steps: ExponentialSteps;

  private readonly heat: RigHeat;

  private readonly table: HeatTable;

  private readonly toLimit: TimeToLimit;

  /** Steps of the last course. */
  private taken = 0;

  /** False: the laws themselves are evaluated, where a plate gets too hot for tables. */
  private tabled = true;

  private readonly rate: Float64Array;
  private readonly tableRate: Float64Array;

  constructor(heat: RigHeat) {
    this.heat = heat;
    this.table = new HeatTable(heat);
    this.toLimit = new TimeToLimit(heat);
    this.rate = new Float64Array(heat.windings.length + 1);
    this.tableRate = new Float64Array(heat.windings.length + 1);
    const { rates } = this.table;
    this.steps = new ExponentialSteps(heat.windings.length + 1, (y, rate, decay) => {
      if (this.tabled) rates(y, rate, decay);
      else heat.rates(y, rate, decay);
    });
  }

  /**
   * @param from temperatures at the start, K: windings, plate
   */
  times(from: Float64Array, goal: WarmUpGoal, out: WarmUpTimes): void {
    const { heat } = this;
    const count = heat.unknowns - 1;
    heat.powered = true;
    out.limit = Number.POSITIVE_INFINITY;
    out.plate = Number.POSITIVE_INFINITY;
    if (!goal.reachesLimit && !goal.reachesPlate) return;
    const { toLimit } = this;
    if (count === 1 && !goal.reachesPlate && heat.plate.vessel === null) {
      if (toLimit.find(from, goal.limit)) {
        out.limit = toLimit.time;
        out.means[0] = toLimit.mean;
        return;
      }
      this.tabled = false;
      this.follow(from, goal, Number.POSITIVE_INFINITY, out, FINE);
      if (this.taken < FEW) this.follow(from, goal, Number.POSITIVE_INFINITY, out, FINEST);
      return;
    }
    const tolerance = toleranceOf(from, goal, count);
    const coldest = from[count]!;
    const most = Math.max(coldest, goal.hottestPlate);
    this.tabled = most - coldest < WIDEST;
    if (this.tabled) {
      this.table.prepare(from[0] ?? 0, goal.hottestMean, coldest, most);
      if (this.follow(from, goal, most + BEYOND, out, tolerance)) return;
      this.tabled = false;
      out.limit = Number.POSITIVE_INFINITY;
      out.plate = Number.POSITIVE_INFINITY;
    }
    this.follow(from, goal, Number.POSITIVE_INFINITY, out, tolerance);
  }

  /** False where the plate gets hotter than `most`, K, or the laws contradict the table. */
  private follow(
    from: Float64Array,
    goal: WarmUpGoal,
    most: number,
    out: WarmUpTimes,
    tolerance: number,
  ): boolean {
    const { steps, heat } = this;
    const { limit, plateTo } = goal;
    const count = heat.unknowns - 1;
    let wantsLimit = goal.reachesLimit;
    let wantsPlate = goal.reachesPlate;
    for (let i = 0; i <= count; i++) steps.y[i] = from[i]!;
    steps.start(FIRST, count + 1);
    this.taken = 0;
    const rise = limit - from[0]!;
    let below = wantsLimit ? this.excess(limit, false) : 0;
    if (wantsLimit && below >= 0) {
      if (this.tabled && heat.hottestAt(steps.y) < limit) return false;
      out.limit = 0;
      for (let w = 0; w < count; w++) out.means[w] = from[w]!;
      wantsLimit = false;
    }
    if (wantsPlate && from[count]! >= plateTo) {
      out.plate = 0;
      wantsPlate = false;
    }
    for (let n = 0; n < MOST_STEPS && (wantsLimit || wantsPlate); n++) {
      const plateBelow = steps.y[count]! - plateTo;
      steps.advance(LONGEST, tolerance);
      this.taken++;
      const length = steps.lastLength;
      if (steps.y[count]! > most) return false;
      const excess = wantsLimit ? this.excess(limit, false) : 0;
      const over = wantsLimit && excess >= 0;
      const plateExcess = steps.y[count]! - plateTo;
      const warm = wantsPlate && plateExcess >= 0;
      const before = below;
      below = excess;
      if (!over && !warm) continue;
      if (over) {
        this.locate(length, limit, false, before, excess);
        if (this.tabled && this.contradictsLimit(rise)) return false;
        out.limit = steps.time;
        for (let w = 0; w < count; w++) out.means[w] = steps.y[w]!;
        wantsLimit = false;
      }
      if (warm) {
        this.locate(length, plateTo, true, plateBelow, plateExcess);
        if (this.tabled && this.contradicts(count)) return false;
        out.plate = steps.time;
        wantsPlate = false;
      }
      if (!wantsLimit && !wantsPlate) return true;
      steps.repeat(length);
      if (steps.y[count]! > heat.plateMost) steps.y[count] = heat.plateMost;
    }
    return true;
  }

  /** Whether the hottest place, or how fast its winding warms, is another by the laws than by the table. */
  private contradictsLimit(rise: number): boolean {
    const { heat, table, steps } = this;
    const off = table.hottest(steps.y) - heat.hottestAt(steps.y);
    if (Math.abs(off) > TRUSTED * rise) return true;
    let hottest = 0;
    for (let w = 1; w < heat.unknowns - 1; w++) {
      if (heat.windings[w]!.hottest > heat.windings[hottest]!.hottest) hottest = w;
    }
    return this.contradicts(hottest);
  }

  private contradicts(body: number): boolean {
    const { heat, table, steps, rate, tableRate } = this;
    heat.rates(steps.y, rate, null);
    table.rates(steps.y, tableRate, null);
    return Math.abs(tableRate[body]! - rate[body]!) > TRUSTED_RATE * Math.abs(rate[body]!);
  }

  /** Hottest place, or plate, over `target`, K. */
  private excess(target: number, isPlate: boolean): number {
    const { steps, heat, table } = this;
    const { y } = steps;
    if (isPlate) return y[heat.unknowns - 1]! - target;
    return (this.tabled ? table.hottest(y) : heat.hottestAt(y)) - target;
  }

  /**
   * Repeats the last step with the length at which nothing is left over `target`, by secants within it.
   * @param atStart, @param atEnd what was over it before the step and after
   */
  private locate(length: number, target: number, isPlate: boolean, atStart: number, atEnd: number): void {
    let short = 0;
    let long = length;
    let above = atEnd;
    let below = atStart;
    for (let n = 0; n < 20; n++) {
      const next = short + ((long - short) * below) / (below - above);
      this.steps.repeat(next);
      const here = this.excess(target, isPlate);
      if (Math.abs(here) < CLOSE || long - short < CLOSE * long) return;
      if (here > 0) {
        long = next;
        above = here;
      } else {
        short = next;
        below = here;
      }
    }
  }
}

function toleranceOf(from: Float64Array, goal: WarmUpGoal, count: number): number {
  let gain = Number.POSITIVE_INFINITY;
  if (goal.reachesLimit && goal.limit > from[0]!) gain = goal.limit - from[0]!;
  if (goal.reachesPlate && goal.plateTo > from[count]!) gain = Math.min(gain, goal.plateTo - from[count]!);
  return Math.min(TOLERANCE, PART * gain);
}

/** A plate that warms by more than this is no longer linear for its windings, nor one that leaves its table by more than that, K. */
const WIDEST = 150;
const BEYOND = 30;
/** K. */
const TOLERANCE = 0.5;
/** And no more than this part of what is to be gained. */
const PART = 0.01;
/** Where the mean of one winding does not do; and once more where so few steps were enough, as over a plate much faster than it. */
const FINE = 0.1;
const FEW = 40;
const FINEST = 5e-3;
/** What the table may be off: the hottest place, of what it gains, and a rate. */
const TRUSTED = 5e-3;
const TRUSTED_RATE = 0.02;
const CLOSE = 1e-2;
/** s. */
const FIRST = 40;
const LONGEST = 1e6;
const MOST_STEPS = 20_000;
