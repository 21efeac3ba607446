import { decay } from '../math/decay.ts';
import type { GapCoupling } from './gap-coupling.ts';
import type { PlateCoupling } from './plate-coupling.ts';
import { StationMemory } from './station-memory.ts';

// Past 300 lines: stations, what lies between them and the way back from a slope to its gap share one layout of cells.

/**
 * A winding over a plate between fixed gaps, its stations, at which alone the sums over the spectrum are worked out:
 *   g_j = (standoff + s) RATIO^j - s,  s = a tenth of the section's lesser side.
 * A station depends on coil, plate and standoff, on nothing else: a design has the same numbers to the last bit whether its
 * stations are found or were kept.
 *
 * Between two stations ln(-Re dL), ln(-Im dL) and the logarithms of both slopes are quintics in ln(gap + s) (Hermite: value and two
 * derivatives at either end). Over a non-magnetic plate all four are sums of falling exponentials of one sign, near a power of
 * gap + s, so that quintics hold them well. Where the slope meets a target is then a root of one quintic.
 * What else goes through the sums (field in the winding, layer voltages) is known to 1e-3 and varies as dL does: it is
 * interpolated along Re dL.
 *
 * Accuracy, measured over 2000 rigs (test/kernel/gap-stations.test.ts): dL and slopes 3e-7, curvature 1e-6 relative to the sums
 * themselves; half of the rigs 1e-8 and 5e-8. The gap at which the slope meets a target: 1e-7.
 * Below the standoff, past the last station that was resolved, and over other plates the sums themselves are taken.
 */
export class GapStations implements GapCoupling {
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  jerkRe = 0;
  /** Whether the coil and plate in hand have stations. */
  active = false;
  readonly cells = new Float64Array(MOST_STATIONS * STATION);
  /** The gap in hand stands this share of the way behind this station. */
  station = 0;
  private share = Number.NaN;
  private readonly exact: PlateCoupling;
  private readonly memory = new StationMemory(STATION);
  /** The number under which the coil over its plate is remembered; 0: it is not. */
  private pair = 0;
  private nearest = 0;
  private shift = 0;
  private start = 0;
  /** Stations that are resolved. */
  private count = 0;
  private readonly known = new Uint8Array(MOST_STATIONS);
  /** What `follow` found: the logarithm's value and, by the share, its first and second derivative. */
  private value = Number.NaN;
  private first = Number.NaN;
  private second = Number.NaN;
  private readonly sums = new Float64Array(8);
  private last = Number.NaN;

  constructor(exact: PlateCoupling) {
    this.exact = exact;
  }

  /**
   * Takes another coil or plate in hand.
   * @param side lesser side of the winding's section, m
   * @param pair its number in memory; 0: it has none
   */
  prepare(nearest: number, farthest: number, side: number, pair: number): void {
    this.active = true;
    this.pair = pair;
    this.nearest = nearest;
    this.shift = SHIFT * side;
    this.start = nearest + this.shift;
    const steps = Math.log((farthest + this.shift) / this.start) / STEP;
    this.count = Math.min(MOST_STATIONS, 1 + Math.floor(steps));
    this.known.fill(0);
    this.last = Number.NaN;
  }

  /** Pairs are numbered anew. */
  forget(): void {
    this.memory.clear();
    this.pair = 0;
  }

  /** The coil and plate in hand have none. */
  leave(): void {
    this.active = false;
    this.last = Number.NaN;
  }

  evaluateLift(gap: number): void {
    if (gap === this.last) return;
    if (!this.place(gap)) {
      this.exact.evaluateLift(gap);
      this.slopeRe = this.exact.slopeRe;
      this.curvatureRe = this.exact.curvatureRe;
      this.jerkRe = this.exact.jerkRe;
    } else this.takeLift(gap);
    this.last = Number.NaN;
  }

  evaluate(gap: number): void {
    if (gap === this.last) return;
    this.last = gap;
    if (!this.place(gap)) {
      const { exact } = this;
      exact.evaluate(gap);
      this.inductanceRe = exact.inductanceRe;
      this.inductanceIm = exact.inductanceIm;
      this.slopeRe = exact.slopeRe;
      this.slopeIm = exact.slopeIm;
      this.curvatureRe = exact.curvatureRe;
      this.jerkRe = exact.jerkRe;
      return;
    }
    this.takeLift(gap);
    this.follow(INDUCTANCE_RE);
    this.inductanceRe = -exponential(this.value);
    this.follow(INDUCTANCE_IM);
    this.inductanceIm = -exponential(this.value);
    this.follow(SLOPE_IM);
    this.slopeIm = exponential(this.value);
  }

  /** The gap at which the slope falls to a target, H/m; NaN where no stations enclose it. */
  gapOf(target: number): number {
    if (!this.active) return Number.NaN;
    const wanted = Math.log(target);
    let low = 0;
    let high = this.count;
    let at = 0;
    for (;;) {
      if (!this.findSlope(at)) return Number.NaN;
      const { value } = this;
      if (value >= wanted) low = at;
      else high = at;
      if (high - low <= 1) break;
      const ahead = Math.floor(this.guess(at, value - wanted));
      at = ahead > low ? Math.min(ahead, high - 1) : low + 1;
    }
    if (high === this.count || !this.find(low) || !this.find(high)) return Number.NaN;
    return this.meet(low, wanted);
  }

  /**
   * Where the slope has fallen by a factor e^`fall` from a station on, in steps, if it fell as (1 + d / l)^-p: log-convex as a sum
   * of falling exponentials is, with the station's own first and second derivative.
   */
  private guess(station: number, fall: number): number {
    const rate = this.first / STEP;
    const bend = this.second / STEP ** 2 - rate;
    if (!(bend > 0)) return station - fall / this.first;
    // d, l and both derivatives by gap + s, of that
    const ahead = (-rate / bend) * Math.expm1((fall * bend) / (rate * rate));
    return station + Math.log(1 + ahead) / STEP;
  }

  /** The gap of a station, m. */
  gapAt(station: number): number {
    return station === 0 ? this.nearest : this.start * POWERS[station]! - this.shift;
  }

  /**
   * Makes sure of the stations on either side of a gap, and how far it stands behind the first; false where none enclose it.
   */
  place(gap: number): boolean {
    if (!(this.active && gap > this.nearest)) return false;
    const steps = Math.log((gap + this.shift) / this.start) / STEP;
    const station = Math.floor(steps);
    if (station < 0 || station + 1 >= this.count) return false;
    if (!this.find(station) || !this.find(station + 1)) return false;
    this.station = station;
    this.share = steps - station;
    return true;
  }

  /** Another quantity, at this place of either station, at the gap last evaluated, which `place` has found enclosed. */
  between(place: number): number {
    const { cells, station, inductanceRe } = this;
    const at = station * STATION;
    const from = cells[at + DEPTH]!;
    const share = (-inductanceRe - from) / (cells[at + STATION + DEPTH]! - from);
    const value = cells[at + place]!;
    return value + share * (cells[at + STATION + place]! - value);
  }

  /** -Re dL at a station, H. */
  depthAt(station: number): number {
    return this.cells[station * STATION + DEPTH]!;
  }

  /** Remembers what was added to a station. */
  keep(station: number): void {
    if (this.pair > 0) this.memory.write(this.pair, station, this.cells, station * STATION);
  }

  /** Makes sure of a station; false where it has no logarithms. */
  private find(station: number): boolean {
    const { known, pair } = this;
    if (known[station] === UNKNOWN) {
      const isKept = pair > 0 && this.memory.read(pair, station, this.cells, station * STATION);
      if (isKept) known[station] = FOUND;
      else this.work(station);
    }
    return known[station] === FOUND;
  }

  /** The slope's logarithm at a station; at the standoff from what every design knows of it. */
  private findSlope(station: number): boolean {
    if (station > 0) {
      if (!this.find(station)) return false;
      const { cells } = this;
      const at = station * STATION + SLOPE_RE;
      this.value = cells[at]!;
      this.first = cells[at + 1]!;
      this.second = 2 * cells[at + 2]!;
      return true;
    }
    const { exact, start } = this;
    exact.evaluate(this.nearest);
    const { slopeRe: slope } = exact;
    const per = start / slope;
    const rate = exact.curvatureRe * per;
    this.value = Math.log(slope);
    this.first = STEP * rate;
    this.second = STEP * STEP * (exact.jerkRe * per * start - rate * rate + rate);
    return slope > 0;
  }

  private work(station: number): void {
    const { exact, sums, cells, known } = this;
    const gap = this.gapAt(station);
    exact.sumAt(gap, station, sums);
    const at = station * STATION;
    const reach = gap + this.shift;
    let holds = true;
    for (let m = 0; m < LOGARITHMS; m++) {
      // Re dL, Im dL, and their slopes
      const from = 4 * (m & 1) + (m >> 1);
      const value = Math.abs(sums[from]!);
      const rate = (sums[from + 1]! / sums[from]!) * reach;
      const bend = (sums[from + 2]! / sums[from]!) * reach * reach - rate * rate + rate;
      const logarithm = Math.log(value);
      cells[at + 3 * m] = logarithm;
      cells[at + 3 * m + 1] = STEP * rate;
      cells[at + 3 * m + 2] = (STEP * STEP * bend) / 2;
      holds &&= sums[from]! < 0 === m < 2 && Number.isFinite(logarithm) && Number.isFinite(bend);
    }
    cells[at + DEPTH] = -sums[0]!;
    cells[at + STATION_PLACES.field] = Number.NaN;
    cells[at + STATION_PLACES.layers] = Number.NaN;
    known[station] = holds ? FOUND : WITHOUT;
    if (holds) this.keep(station);
  }

  /** The quintic of a logarithm at the gap in hand. */
  private follow(logarithm: number): void {
    const { cells, share: t } = this;
    const from = this.station * STATION + logarithm;
    const to = from + STATION;
    const value = cells[from]!;
    const slope = cells[from + 1]!;
    const bend = cells[from + 2]!;
    const rise = cells[to]! - value - slope - bend;
    const turn = cells[to + 1]! - slope - 2 * bend;
    const twist = cells[to + 2]! - bend;
    const a = 10 * rise - 4 * turn + twist;
    const b = -15 * rise + 7 * turn - 2 * twist;
    const c = 6 * rise - 3 * turn + twist;
    this.value = value + t * (slope + t * (bend + t * (a + t * (b + t * c))));
    this.first = slope + t * (2 * bend + t * (3 * a + t * (4 * b + t * 5 * c)));
    this.second = 2 * bend + t * (6 * a + t * (12 * b + t * 20 * c));
  }

  /** The gap behind a station at which the slope's quintic has a value; it falls from there to the next. */
  private meet(station: number, wanted: number): number {
    this.station = station;
    const from = station * STATION + SLOPE_RE;
    const { cells } = this;
    let share = (cells[from]! - wanted) / (cells[from]! - cells[from + STATION]!);
    for (let i = 0; i < MOST_STEPS; i++) {
      this.share = share;
      this.follow(SLOPE_RE);
      const step = (wanted - this.value) / this.first;
      share = Math.min(1, Math.max(0, share + step));
      if (Math.abs(step) < CLOSE) break;
    }
    const gap = this.start * POWERS[station + 1]! * decay((1 - share) * STEP) - this.shift;
    return Math.max(gap, this.nearest);
  }

  private takeLift(gap: number): void {
    this.follow(SLOPE_RE);
    const { first, second } = this;
    const per = 1 / (STEP * (gap + this.shift));
    const slope = exponential(this.value);
    const rate = first * per;
    this.slopeRe = slope;
    this.curvatureRe = slope * rate;
    // d2/dg2 of the logarithm: (F'' / step^2 - F' / step) / (gap + s)^2
    this.jerkRe = slope * (rate * rate + (second - STEP * first) * per * per);
  }
}

/** e^x, where that is usual from the table of `decay`. */
function exponential(x: number): number {
  return x < MOST && x > MOST - 50 ? decay(MOST - x) * PER_MOST : Math.exp(x);
}

const MOST = 8;
const PER_MOST = Math.exp(MOST);

/** A station's gap, each with `shift` more, over that of the one before. */
const RATIO = 1.3;
const STEP = Math.log(RATIO);
/** Of the section's lesser side. */
const SHIFT = 0.1;
const MOST_STATIONS = 64;
const POWERS = Float64Array.from({ length: MOST_STATIONS + 1 }, (_, j) => RATIO ** j);

/** A station has logarithms, has none since a sum has the wrong sign, or was not asked for yet. */
const UNKNOWN = 0;
const FOUND = 1;
const WITHOUT = 2;

/** Newton's steps are quadratic: after one this small nothing is left to do. */
const CLOSE = 1e-8;
const MOST_STEPS = 20;

/** Places in a station: three of each logarithm (value, first and half the second derivative by the share), then others. */
const INDUCTANCE_RE = 0;
const INDUCTANCE_IM = 3;
const SLOPE_RE = 6;
const SLOPE_IM = 9;
const LOGARITHMS = 4;
const DEPTH = 12;
/** Filled by who asks for them; NaN until then. */
export const STATION_PLACES = Object.freeze({
  /** What the plate adds to the mean square of the field in the winding, over -Re dL; and the square without a plate. */
  field: 13,
  freeField: 14,
  /** The unevenness of the layers' voltages, and what it was found for. */
  unevenness: 15,
  layers: 16,
  resistance: 17,
});
export const STATION = 18;
