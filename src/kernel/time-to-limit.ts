import { decay as falling } from '../math/decay.ts';
import type { RigHeat } from './rig-heat.ts';

// Past 300 lines: one method, whose steps share the table of nodes.

/**
 * When one winding's hottest place is at a limit, with the current held, from five evaluations of the heat laws. The winding's
 * mean T is the variable instead of time: dt/dT = 1 / r and dTp/dT = rp / r, with r and rp the rates of winding and plate, K/s.
 *
 * The laws are evaluated at four means between start and end, each with the plate where a rough course from the place before
 * puts it. Along that course c(T) rates and slopes are cubics of T; off it they are linear in the plate's temperature:
 *   r = r(T, c) + a(T) (Tp - c(T)),   rp = rp(T, c) - b(T) (Tp - c(T)).
 * Both equations then take Runge-Kutta steps of fourth order, equal in s where r falls as e^-s from its value at the start to that
 * at the end. The fifth evaluation, at the end found, corrects it: what the hottest place is short of the limit, over the rate
 * there. Where that rate contradicts the cubics' by CONTRADICTED or the plate lies FAR from the course, another pass begins
 * with the plate's course just found.
 *
 * A winding that comes near a rest before its limit, by such rough courses, is followed in stretches: a shorter one where one was not
 * found, and the rest from where that ends.
 *
 * Domain: one winding, no load on the plate. False: not found, as a rate still falls below LEAST_RATE of its first value after TRIES, or
 * PASSES were not enough. Accuracy against fine steps of the laws: of 2731 designs with plates of 1 to 12 mm that warm by 100 K and
 * more, 0.02 % (median), 0.17 % (nine of ten), 0.65 % (99 of 100), 1.1 % at most; of 770 random rigs 0.001, 0.02, 0.26 and 1 %.
 */
export class TimeToLimit {
  /** s, and the winding's mean then, K. */
  time = 0.5;
  mean = 0.5;
  private plate = 0.5;
  private readonly heat: RigHeat;
  private readonly y = new Float64Array(2);
  private readonly rate: Float64Array;
  private readonly decay: Float64Array;
  /** The mean at the first node, K, and at each node over it. */
  private start = 0.5;
  private readonly places = new Float64Array(NODES);
  /** By COLUMNS: values at the nodes, later coefficients of powers of the place. */
  private readonly table = new Float64Array(NODES * COLUMNS);
  /** At the node last evaluated, the plate where it is taken to be, K and K/s; how the rates fall with the mean, 1/s. */
  private at = 0.5;
  private warming = 0.5;
  private plateWarming = 0.5;
  private steep = 0.5;
  private growth = 0.5;
  /** Plates of the pass before at the nodes, and where its course had been, K. */
  private readonly passed = new Float64Array(NODES);
  private readonly passedOver = new Float64Array(NODES);
  /** How much the winding's rate changed, at most, from the course to where the plate was found, as a part of it. */
  private offset = 0.5;
  /** The winding's rate at the end, K/s, by the cubics, and of its first the part that is left. */
  private r = 0.5;
  private ratio = 0.5;
  /** Why the last stretch was not found: the winding comes near a rest. */
  private slows = false;

  constructor(heat: RigHeat) {
    this.heat = heat;
    this.rate = new Float64Array(heat.windings.length + 1);
    this.decay = new Float64Array(heat.windings.length + 1);
  }

  /**
   * @param from temperatures at the start, K: winding, plate
   * @param limit of the hottest place, K; known to be reached
   */
  find(from: Float64Array, limit: number): boolean {
    let mean = from[0]!;
    let plate = from[1]!;
    let passed = 0;
    let share = 1;
    for (let n = 0; n < TRIES; n++) {
      const found = this.stretch(mean, plate, limit, share);
      if (found && share === 1) {
        this.time += passed;
        return true;
      }
      if (!found) {
        if (!this.slows) return false;
        share *= SHARE;
      } else {
        passed += this.time;
        mean = this.mean;
        plate = this.plate;
        share = 1;
      }
    }
    return false;
  }

  /** From a mean and a plate, K, to where `share` of what the hottest place is short of the limit has gone. */
  private stretch(mean: number, plate: number, limit: number, share: number): boolean {
    const { y, table } = this;
    this.start = mean;
    y[0] = mean;
    y[1] = plate;
    this.places[0] = 0;
    this.offset = 0;
    this.slows = false;
    this.evaluate(0);
    const short = limit - mean - table[RISE]!;
    if (!(short > 0)) {
      this.time = 0;
      this.mean = mean;
      return true;
    }
    const target = limit - (1 - share) * short;
    return table[WARMS]! > 0 && !this.isDrawn() && this.layNodes(target) && this.follow(plate, target);
  }

  /**
   * Whether a winding at the room's temperature has much of its heat from the plate, or gives it much: its faces then change as
   * the root of time does, and rates are no cubics.
   */
  private isDrawn(): boolean {
    const { toPlate, made, body } = this.heat.windings[0]!;
    return this.start === body.surroundings && Math.abs(toPlate) > MOST_DRAWN * made;
  }

  /** The later nodes one after another, the last about where the hottest place comes to the limit. */
  private layNodes(limit: number): boolean {
    const { places, table } = this;
    const target = limit - this.start;
    places[1] = EARLY * (target - table[RISE]!);
    if (!this.march(1)) return false;
    let end = this.ahead(1, target);
    if (!(end > places[1]! * SPREAD)) return false;
    places[2] = places[1]! + LATE * (end - places[1]!);
    if (!this.march(2)) return false;
    end = this.ahead(2, target);
    if (!(end > places[2]! * SPREAD)) return false;
    places[3] = end;
    return this.march(3);
  }

  /** Along the course through the nodes, pass after pass. */
  private follow(plate: number, limit: number): boolean {
    const { places, table, y, rate, heat } = this;
    const target = limit - this.start;
    this.ratio = this.warming / table[WARMS]!;
    for (let pass = 1; ; pass++) {
      const end = this.ahead(3, target);
      if (!(Math.abs(end - places[3]!) < MOST_SHIFT * end)) return false;
      this.interpolate();
      this.slows = this.ratio < SLOW;
      if (!(this.ratio > LEAST_RATE && this.integrate(plate, end))) return false;
      y[0] = this.start + end;
      y[1] = this.plate;
      heat.rates(y, rate, this.decay);
      const growth = table[RISE + 1]! + end * (2 * table[RISE + 2]! + end * 3 * table[RISE + 3]!);
      const more = (limit - heat.windings[0]!.hottest) / Math.max(LEAST_GROWTH, 1 + growth);
      const isFar = !(Math.abs(more) < MOST_SHIFT * end);
      if (!isFar && this.offset < FAR && Math.abs(this.r / rate[0]! - 1) < CONTRADICTED) {
        // halfway along the last stretch's fall of the rate
        const fall = (value(table, WARMS, end) - value(table, WARMS, end - more)) / 2;
        this.time += more / (rate[0]! + fall);
        this.mean = y[0]! + more;
        this.plate += (more * rate[1]!) / rate[0]!;
        return this.time > 0;
      }
      if (isFar || pass === PASSES) return false;
      this.refine(plate, end);
      this.ratio = table[WARMS + 3]! / table[WARMS]!;
    }
  }

  /** The later nodes once more, each with the plate where the rates so far put it, the last at `end`. */
  private refine(plate: number, end: number): void {
    const { places, table, passed, passedOver, y, ratio } = this;
    this.offset = 0;
    passed[NODES - 1] = this.plate;
    passedOver[NODES - 1] = value(table, COURSE, end);
    for (let n = 1; n < NODES - 1; n++) {
      const place = places[n]!;
      passedOver[n] = value(table, COURSE, place);
      this.ratio = 1 - ((1 - ratio) * place) / end;
      passed[n] = this.integrate(plate, place) ? this.plate : passedOver[n]!;
    }
    places[NODES - 1] = end;
    // the first node's values are the first coefficients
    for (let n = 1; n < NODES; n++) {
      y[0] = this.start + places[n]!;
      y[1] = passed[n]!;
      this.evaluate(n);
      const moved = (table[HELP + n]! * (passed[n]! - passedOver[n]!)) / table[WARMS + n]!;
      this.offset = Math.max(this.offset, Math.abs(moved));
    }
  }

  /** The laws at the temperatures in `y`, K, to the table's node `n`. */
  private evaluate(n: number): void {
    const { heat, y, rate, decay, table } = this;
    const winding = heat.windings[0]!;
    heat.rates(y, rate, decay);
    const perCapacity = 1 / winding.body.heatCapacity;
    const warming = rate[0]!;
    const plateWarming = rate[1]!;
    table[COURSE + n] = y[1]!;
    table[WARMS + n] = warming;
    table[HELP + n] = heat.plateHeld ? 0 : winding.plateHelp * perCapacity;
    table[PLATE_WARMS + n] = plateWarming;
    table[PLATE_DECAY + n] = decay[1]!;
    table[RISE + n] = winding.hottest - y[0]!;
    this.steep = decay[0]! - winding.madeSlope * perCapacity;
    this.growth = heat.plateHeld ? 0 : winding.plateGrowth / heat.plate.capacity;
    this.at = y[1]!;
    this.warming = warming;
    this.plateWarming = plateWarming;
  }

  /** To the mean of node `n`: the plate there first along tangents, then from both ends. */
  private march(n: number): boolean {
    const { places, table, y, at, warming, plateWarming } = this;
    const step = places[n]! - places[n - 1]!;
    const lost = table[PLATE_DECAY + n - 1]!;
    const helpBefore = table[HELP + n - 1]!;
    const pushed = plateWarming + (this.growth * step) / 2;
    const along = warming - this.steep * step;
    const least = LEAST_RATE * warming;
    let more = 0;
    for (let i = 0; i < 2; i++) {
      const there = Math.max(least, along + helpBefore * more);
      more = pushed * relaxed(duration(step, warming, there), lost);
    }
    const guess = at + more;
    y[0] = this.start + places[n]!;
    y[1] = guess;
    this.evaluate(n);
    const found = this.warming;
    const help = table[HELP + n]!;
    const decay = table[PLATE_DECAY + n]!;
    const half = (plateWarming + this.plateWarming + decay * more) / 2;
    const meanLoss = (lost + decay) / 2;
    let off = 0;
    for (let i = 0; i < 2; i++) {
      const there = Math.max(least, found + help * off);
      off = at + half * relaxed(duration(step, warming, there), meanLoss) - guess;
    }
    this.offset = Math.max(this.offset, Math.abs((help * off) / found));
    this.at = guess + off;
    this.warming = found + help * off;
    this.plateWarming -= decay * off;
    if (this.warming > 0) return true;
    this.slows = true;
    return false;
  }

  /** Where the hottest place comes to `target` over the start, by the rises of the nodes up to `n`, K over the start. */
  private ahead(n: number, target: number): number {
    const { places, table } = this;
    const rise = table[RISE + n]!;
    const slope = (rise - table[RISE + n - 1]!) / (places[n]! - places[n - 1]!);
    return places[n]! + (target - places[n]! - rise) / Math.max(LEAST_GROWTH, 1 + slope);
  }

  /** Time and plate at `end` over the start, K, and the winding's rate there. */
  private integrate(plate: number, end: number): boolean {
    const c = this.table;
    const w0 = c[WARMS]!;
    const w1 = c[WARMS + 1]!;
    const w2 = c[WARMS + 2]!;
    const w3 = c[WARMS + 3]!;
    const h0 = c[HELP]!;
    const h1 = c[HELP + 1]!;
    const h2 = c[HELP + 2]!;
    const h3 = c[HELP + 3]!;
    const k0 = c[COURSE]!;
    const k1 = c[COURSE + 1]!;
    const k2 = c[COURSE + 2]!;
    const k3 = c[COURSE + 3]!;
    const q0 = c[PLATE_WARMS]!;
    const q1 = c[PLATE_WARMS + 1]!;
    const q2 = c[PLATE_WARMS + 2]!;
    const q3 = c[PLATE_WARMS + 3]!;
    const d0 = c[PLATE_DECAY]!;
    const d1 = c[PLATE_DECAY + 1]!;
    const d2 = c[PLATE_DECAY + 2]!;
    const d3 = c[PLATE_DECAY + 3]!;
    // where the rate hardly falls the steps may be those of one that falls a little
    let ratio = Math.min(this.ratio, STRAIGHT);
    if (this.ratio > 1 / STRAIGHT) ratio = this.ratio;
    const usual = duration(end, w0, w0 * ratio);
    const fastest = Math.max(d0, d0 + end * (d1 + end * (d2 + end * d3)));
    const steps = LEAST_STEPS + Math.ceil(usual * fastest * PER_DECAY);
    if (!(steps <= MOST_STEPS)) return false;
    const log = Math.log(ratio);
    const h = 1 / steps;
    const half = Math.exp((log * h) / 2);
    const scale = end / (1 - ratio);
    const size = -log * scale;
    const sixth = h / 6;
    let left = 1;
    let time = 0;
    let p = plate;
    let warms = w0;
    let help = h0;
    let course = k0;
    let plateWarms = q0;
    let plateDecay = d0;
    for (let n = 0; n < steps; n++) {
      let off = p - course;
      const t1 = (size * left) / (warms + help * off);
      const p1 = t1 * (plateWarms - plateDecay * off);
      left *= half;
      let x = scale * (1 - left);
      warms = w0 + x * (w1 + x * (w2 + x * w3));
      help = h0 + x * (h1 + x * (h2 + x * h3));
      course = k0 + x * (k1 + x * (k2 + x * k3));
      plateWarms = q0 + x * (q1 + x * (q2 + x * q3));
      plateDecay = d0 + x * (d1 + x * (d2 + x * d3));
      off = p + (h / 2) * p1 - course;
      const t2 = (size * left) / (warms + help * off);
      const p2 = t2 * (plateWarms - plateDecay * off);
      off = p + (h / 2) * p2 - course;
      const t3 = (size * left) / (warms + help * off);
      const p3 = t3 * (plateWarms - plateDecay * off);
      left *= half;
      x = scale * (1 - left);
      warms = w0 + x * (w1 + x * (w2 + x * w3));
      help = h0 + x * (h1 + x * (h2 + x * h3));
      course = k0 + x * (k1 + x * (k2 + x * k3));
      plateWarms = q0 + x * (q1 + x * (q2 + x * q3));
      plateDecay = d0 + x * (d1 + x * (d2 + x * d3));
      off = p + h * p3 - course;
      const t4 = (size * left) / (warms + help * off);
      const p4 = t4 * (plateWarms - plateDecay * off);
      if (!(t1 > 0 && t2 > 0 && t3 > 0 && t4 > 0)) return false;
      time += sixth * (t1 + 2 * (t2 + t3) + t4);
      p += sixth * (p1 + 2 * (p2 + p3) + p4);
    }
    this.time = time;
    this.plate = p;
    this.r = warms + help * (p - course);
    return true;
  }

  /** The nodes' values to coefficients of powers, in place: divided differences, then Newton's form multiplied out. */
  private interpolate(): void {
    const { places, table: c } = this;
    const x1 = places[1]!;
    const x2 = places[2]!;
    const x3 = places[3]!;
    const per01 = 1 / x1;
    const per12 = 1 / (x2 - x1);
    const per23 = 1 / (x3 - x2);
    const per02 = 1 / x2;
    const per13 = 1 / (x3 - x1);
    const per03 = 1 / x3;
    for (let i = 0; i < NODES * COLUMNS; i += NODES) {
      const first = (c[i + 1]! - c[i]!) * per01;
      const middle = (c[i + 2]! - c[i + 1]!) * per12;
      const second = (middle - first) * per02;
      const third = (((c[i + 3]! - c[i + 2]!) * per23 - middle) * per13 - second) * per03;
      c[i + 1] = first - x1 * (second - x2 * third);
      c[i + 2] = second - (x1 + x2) * third;
      c[i + 3] = third;
    }
  }
}

/** Of the column from `at` on. */
function value(c: Float64Array, at: number, x: number): number {
  return c[at]! + x * (c[at + 1]! + x * (c[at + 2]! + x * c[at + 3]!));
}

/** Time for a step, K, at a rate that falls linearly, by Simpson's rule, s: with 1/from, 8/(from + to) and 1/to. */
function duration(step: number, from: number, to: number): number {
  const sum = from + to;
  const product = from * to;
  return (step * (sum * sum + 8 * product)) / (6 * sum * product);
}

/** (1 - e^(-lost time)) / lost, s. */
function relaxed(time: number, lost: number): number {
  const z = time * lost;
  return z > SMALL ? (1 - falling(z)) / lost : time * (1 - z / 2);
}

const NODES = 4;
/**
 * Where the table's columns begin: rate of the winding, K/s, and how it rises with the plate, 1/s; the plate's course, K, its rate,
 * K/s, and how that falls with the plate, 1/s; rise of the hottest place over the mean, K.
 */
const WARMS = 0;
const HELP = NODES;
const COURSE = 2 * NODES;
const PLATE_WARMS = 3 * NODES;
const PLATE_DECAY = 4 * NODES;
const RISE = 5 * NODES;
const COLUMNS = 6;
/** The second node, as a part of the whole rise of the hottest place, and the third, of what is left of the mean's. */
const EARLY = 0.25;
const LATE = 2 / 3;
/** Nodes are so far apart at least. */
const SPREAD = 1.15;
/** Of the rate at the start. */
const LEAST_RATE = 0.02;
/** The cubics' rate at the end against the laws', and how far the end may move after that. */
const CONTRADICTED = 0.01;
const FAR = 0.4;
const PASSES = 3;
/** A rate that falls to this part of its first is one that may end before the limit, by rough courses. */
const SLOW = 0.25;
/** Of the heat made, what the plate may give or take at the start. */
const MOST_DRAWN = 0.5;
/** Stretches tried, and how much shorter the next one is where one was not found. */
const TRIES = 5;
const SHARE = 0.7;
/** Of the hottest place per kelvin of the mean. */
const LEAST_GROWTH = 0.5;
const MOST_SHIFT = 0.15;
const LEAST_STEPS = 3;
const MOST_STEPS = 40;
/** A rate that falls less than to this part of itself counts as straight. */
const STRAIGHT = 0.999;
/** Steps for each time constant of the plate. */
const PER_DECAY = 1;
const SMALL = 1e-4;
