import { GRAVITY } from '../kernel/constants.ts';
import { equilibriumGap } from '../kernel/equilibrium.ts';
import type { GapCoupling } from '../kernel/gap-coupling.ts';
import { lagrangeOf, MOST_GAPS, NearCoupling, nodes } from '../kernel/near-coupling.ts';
import { CutExpansion } from '../math/cut-expansion.ts';
import { SLOT } from '../model/inputs.ts';
import type { Coil, Wound } from './coil.ts';
import { CoilOverPlate } from './coil-over-plate.ts';
import {
  createFieldRig,
  type FieldRig,
  fillFieldRig,
  fitCoil,
  isAlike,
  isFloating,
  isMagnetic,
  massOf,
  pullOf,
} from './field-rig.ts';
import { type Coordinate, coordinatesOf } from './rig-coordinates.ts';
import type { RigState } from './state.ts';

// Past 300 lines: points, fit and check of one interpolation share its axes and its working arrays.

/** What is known of the design that the rigs are near. */
export interface DrawnPoint {
  /** A. */
  readonly current: number;
  /** What alternating current adds to the winding's resistance, as a share of it: at most so much is the field's. */
  readonly addedShare: number;
}

/**
 * Coil and plate of many rigs that differ little from one design, from few of them: dL, the free inductance and the field
 * inside the winding are interpolated over whatever differs of section, plate and frequency (CutExpansion) and over the gap
 * (NearCoupling). All else is left to the laws, so that lift-off, limits and steps stay where they are.
 *
 * `begin`, `include` each rig, `settle`; then `at` each rig in hand. What `settle` accepts has been compared with exact
 * values at two of the rigs. It refuses plates that attract, and rigs that differ in kind or too much.
 */
export class NearRigs {
  readonly coupling = new NearCoupling();
  freeInductance = 0;
  private readonly drawn: FieldRig;
  private readonly other: FieldRig;
  private readonly overPlate: CoilOverPlate;
  private readonly expansion = new CutExpansion();
  private readonly coordinates: readonly Coordinate[];
  /** Of each coordinate, over all rigs included, and those of the rigs, one after the other. */
  private readonly least: Float64Array;
  private readonly most: Float64Array;
  private rigs = new Float64Array(0);
  private count = 0;
  private readonly axes: Axis[] = [];
  private alike = false;
  private leastStandoff = 0;
  private mostStandoff = 0;
  /** Of the design, and the least of all rigs: what must be carried over the square of what carries it. */
  private drawnPull = 0;
  private leastPull = 0;
  private readonly u = new Float64Array(MOST_AXES);
  private readonly values = new Float64Array(MOST_FUNCTIONS);
  private pointValues = new Float64Array(0);
  private fieldStart = 0;
  private fieldRule = FIELD_RULES[0]!;
  private turnsSquare = 1;
  private fieldLimit = 0;

  constructor(plateLayers: number, windingCount: number) {
    this.drawn = createFieldRig(plateLayers, windingCount);
    this.other = createFieldRig(plateLayers, windingCount);
    this.overPlate = new CoilOverPlate(this.drawn.state, this.drawn.geometry);
    this.coordinates = coordinatesOf(this.drawn.state);
    this.least = new Float64Array(this.coordinates.length);
    this.most = new Float64Array(this.coordinates.length);
  }

  /** From here on rigs near this design. */
  begin(slots: Float64Array): void {
    const { drawn, least, most } = this;
    this.alike = fillFieldRig(drawn, slots) && !isMagnetic(drawn.state);
    least.fill(Number.POSITIVE_INFINITY);
    most.fill(Number.NEGATIVE_INFINITY);
    this.count = 0;
    this.leastStandoff = slots[SLOT.standoff]!;
    this.mostStandoff = this.leastStandoff;
    this.drawnPull = pullOf(drawn);
    this.leastPull = this.drawnPull;
  }

  include(slots: Float64Array): void {
    if (!this.alike) return;
    const { drawn, other, coordinates, least, most } = this;
    // what cannot be built needs no plate
    if (!fillFieldRig(other, slots)) return;
    if (!isAlike(drawn, other)) {
      this.alike = false;
      return;
    }
    const width = coordinates.length;
    const at = this.count++ * width;
    if (this.rigs.length < at + width) {
      const grown = new Float64Array(2 * (at + width));
      grown.set(this.rigs);
      this.rigs = grown;
    }
    for (let c = 0; c < width; c++) {
      const value = coordinates[c]!.read(other.state);
      this.rigs[at + c] = value;
      if (value < least[c]!) least[c] = value;
      if (value > most[c]!) most[c] = value;
    }
    const standoff = slots[SLOT.standoff]!;
    this.leastStandoff = Math.min(this.leastStandoff, standoff);
    this.mostStandoff = Math.max(this.mostStandoff, standoff);
    this.leastPull = Math.min(this.leastPull, pullOf(other));
  }

  /** Whether the rigs included can be interpolated. */
  settle(drawn: DrawnPoint): boolean {
    if (!this.alike || this.count === 0 || !this.layAxes()) return false;
    const { expansion, axes, overPlate } = this;
    const { state } = this.drawn;
    state.slots[SLOT.standoff] = this.leastStandoff;
    this.fieldLimit = Math.min(FIELD_NOISE / drawn.addedShare, MOST_FIELD_ERROR);
    expansion.prepare(axes.map(({ degree }) => degree));
    this.placeAt(expansion.points, 0);
    const middle = overPlate.prepareExact();
    if (middle === null) return false;
    const farthest = this.farthest(middle, drawn.current);
    const ratio = farthest / this.leastStandoff;
    const first = RATIOS.filter((most) => ratio > most).length;
    // where that is not enough, a gap more
    for (let level = first; level <= Math.min(first + 1, RATIOS.length); level++) {
      if (!this.fit(farthest, level)) return false;
      if (this.isTrueOf(this.outermost()) && this.isTrueOf(0)) return true;
    }
    return false;
  }

  /** Evaluates the points of the expansion, at so many gaps as the level says; false where one has no answer. */
  private fit(farthest: number, level: number): boolean {
    const { expansion, axes, overPlate, coupling } = this;
    const { coil } = this.drawn.state;
    coupling.span(this.leastStandoff, farthest, LEAST_GAPS + level);
    this.fieldStart = coupling.size + 1;
    this.fieldRule = FIELD_RULES[this.fieldLimit < ROUGH ? level + 1 : 0]!;
    const functions = this.fieldStart + (coil.count === 1 ? this.fieldRule.at.length : 0);
    const { pointCount, points } = expansion;
    if (this.pointValues.length < pointCount * functions)
      this.pointValues = new Float64Array(pointCount * functions);
    for (let point = 0; point < pointCount; point++) {
      this.placeAt(points, point * axes.length);
      const exact = overPlate.prepareExact();
      if (exact === null || !this.describe(exact, point * functions)) return false;
    }
    expansion.fit(this.pointValues, functions);
    return true;
  }

  /** Takes the rig in hand. */
  at(rig: RigState): void {
    const { axes, u } = this;
    for (let a = 0; a < axes.length; a++) u[a] = placeOn(axes[a]!, axes[a]!.coordinate.read(rig));
    this.evaluate(rig.coil);
  }

  /** Mean square of the flux density in a winding's section for 1 A, as `WidePlate` gives it, T2/A2. */
  meanSquareField(coil: Coil, section: Wound['section'], gap: number): number {
    if (coil.count > 1) return this.overPlate.wide.meanSquareField(coil, section, gap);
    const { values, fieldStart: at } = this;
    const s = this.coupling.place(gap);
    let power = 0;
    for (let k = this.fieldRule.at.length - 1; k >= 0; k--) power = power * s + values[at + k]!;
    return this.turnsSquare * Math.exp(power);
  }

  /** The axes along which the rigs differ; false where they are too many or too long. */
  private layAxes(): boolean {
    const { coordinates, least, most, axes } = this;
    axes.length = 0;
    for (let c = 0; c < coordinates.length; c++) {
      const from = least[c]!;
      const to = most[c]!;
      // what scatters by rounding is the same
      if (!(to - from > ROUNDING * Math.abs(to))) continue;
      const isLog = from > 0;
      const low = isLog ? Math.log(from) : from;
      const high = isLog ? Math.log(to) : to;
      const half = (high - low) / 2;
      const length = isLog ? half : half / this.drawn.state.coil.outerRadius;
      if (!(length <= LONGEST) || axes.length === MOST_AXES) return false;
      const degree = length <= SHORT ? 2 : 4;
      axes.push({
        coordinate: coordinates[c]!,
        index: c,
        isLog,
        middle: (low + high) / 2,
        half,
        length,
        degree,
      });
    }
    return true;
  }

  /** The farthest gap that most of the rigs will take, m: what floats beyond it is evaluated exactly. */
  private farthest(middle: GapCoupling, current: number): number {
    const { drawn, mostStandoff, leastStandoff, overPlate } = this;
    const least = Math.max(FLAT * leastStandoff, mostStandoff);
    if (!isFloating(drawn.state)) return least;
    const carried = ((2 * GRAVITY * massOf(drawn)) / current ** 2) * (this.leastPull / this.drawnPull);
    const target = MARGIN * carried;
    middle.evaluateLift(leastStandoff);
    if (!(middle.slopeRe > target)) return least;
    const gap = equilibriumGap(middle, target, leastStandoff, overPlate.usualReach);
    return Math.max(least, Number.isNaN(gap) ? overPlate.usualReach : gap);
  }

  /** Places the drawn rig where these coordinates, -1 to 1, stand. */
  private placeAt(points: Float64Array, at: number): void {
    const { axes, drawn } = this;
    axes.forEach(({ coordinate, isLog, middle, half }, a) => {
      const value = middle + half * points[at + a]!;
      coordinate.write(drawn.state, isLog ? Math.exp(value) : value);
    });
    fitCoil(drawn.state.coil);
  }

  /** Writes what is interpolated of the drawn rig to the values of a point; false where it has no such values. */
  private describe(exact: GapCoupling, at: number): boolean {
    const { coupling, pointValues, drawn, overPlate, fieldStart } = this;
    const { coil, freeInductance } = drawn.state;
    if (!coupling.describe(exact, pointValues, at)) return false;
    pointValues[at + coupling.size] = Math.log(freeInductance);
    if (coil.count > 1) return freeInductance > 0;
    const { section } = coil.windings[0]!;
    const { at: places, matrix } = this.fieldRule;
    const count = places.length;
    pointValues.fill(0, at + fieldStart, at + fieldStart + count);
    for (let g = 0; g < count; g++) {
      const field = Math.log(overPlate.wide.exactMeanSquareField(coil, section, coupling.gapAt(places[g]!)));
      for (let k = 0; k < count; k++) {
        const cell = at + fieldStart + k;
        pointValues[cell] = pointValues[cell]! + matrix[k * count + g]! * field;
      }
    }
    return Number.isFinite(pointValues[at + fieldStart]!);
  }

  private evaluate(coil: Coil): void {
    const { coupling, values, expansion, u } = this;
    expansion.evaluate(u, values);
    const { size, coefficients } = coupling;
    // everything of one winding goes with the square of its turns, exactly
    const turns = coil.count === 1 ? coil.turns / this.drawn.state.coil.turns : 1;
    const shift = 2 * Math.log(turns);
    for (let f = 0; f < size; f++) coefficients[f] = values[f]!;
    coefficients[0] = coefficients[0]! + shift;
    coefficients[size / 2] = coefficients[size / 2]! + shift;
    this.turnsSquare = turns * turns;
    this.freeInductance = this.turnsSquare * Math.exp(values[size]!);
  }

  /** Which of the rigs stands farthest from the middle. */
  private outermost(): number {
    const { axes, rigs, count, coordinates } = this;
    let outermost = 0;
    let most = 0;
    for (let k = 0; k < count; k++) {
      let square = 0;
      for (const axis of axes) square += placeOn(axis, rigs[k * coordinates.length + axis.index]!) ** 2;
      if (square <= most) continue;
      most = square;
      outermost = k;
    }
    return outermost;
  }

  /** Compares with exact values at one of the rigs. */
  private isTrueOf(k: number): boolean {
    const { axes, rigs, coordinates, u, drawn, overPlate, coupling } = this;
    let length = 0;
    axes.forEach((axis, a) => {
      const value = rigs[k * coordinates.length + axis.index]!;
      axis.coordinate.write(drawn.state, value);
      u[a] = placeOn(axis, value);
      length += axis.length;
    });
    const { coil } = drawn.state;
    fitCoil(coil);
    const exact = overPlate.prepareExact();
    if (exact === null) return false;
    this.evaluate(coil);
    const limit = NOISE + ERROR * length;
    const isClose = (near: number, true_: number, most = limit) => Math.abs(near / true_ - 1) <= most;
    if (!isClose(this.freeInductance, drawn.state.freeInductance)) return false;
    return CHECKED_AT.every((s) => {
      const gap = coupling.gapAt(s);
      exact.evaluate(gap);
      coupling.evaluate(gap);
      const { section } = coil.windings[0]!;
      return (
        isClose(coupling.inductanceRe, exact.inductanceRe) &&
        isClose(coupling.inductanceIm, exact.inductanceIm) &&
        isClose(coupling.slopeRe, exact.slopeRe) &&
        isClose(coupling.curvatureRe, exact.curvatureRe, CURVATURE_ERROR * limit) &&
        isClose(
          this.meanSquareField(coil, section, gap),
          overPlate.wide.exactMeanSquareField(coil, section, gap),
          this.fieldLimit + FIELD_ERROR * length,
        )
      );
    });
  }
}

interface Axis {
  readonly coordinate: Coordinate;
  readonly index: number;
  readonly isLog: boolean;
  readonly middle: number;
  readonly half: number;
  /** Half of it as a share of the coordinate's value, of an offset as one of the coil's radius. */
  readonly length: number;
  readonly degree: number;
}

function placeOn({ isLog, middle, half }: Axis, value: number): number {
  return ((isLog ? Math.log(value) : value) - middle) / half;
}

const MOST_AXES = 6;
const ROUNDING = 1e-9;
/** Half lengths of an axis, as a share of its value: to which degree 2 does, and the longest. */
const SHORT = 0.1;
const LONGEST = 0.5;
const MOST_FIELD_GAPS = 7;
const MOST_FUNCTIONS = 4 * MOST_GAPS + 1 + MOST_FIELD_GAPS;
/** Gaps up to `RATIOS[n]` times the nearest are resolved by 3 + n of them. */
const LEAST_GAPS = 3;
const RATIOS = [2, 10, 40];
/** Gaps at which the field is evaluated: where it hardly counts, and for each of these ranges. */
const FIELD_RULES = [2, 3, 4, 5, MOST_FIELD_GAPS].map((count) => ({
  at: nodes(count),
  matrix: lagrangeOf(nodes(count)),
}));
/** Errors of the field, relative, that its share of the resistance makes as small as `FIELD_NOISE`. */
const ROUGH = 0.03;
const MOST_FIELD_ERROR = 0.2;
/** A range of gaps is at least so wide. */
const FLAT = 1.02;
/** By how much the slope may fall below what the lightest rig needs. */
const MARGIN = 0.7;
/** Where gaps are compared, between those that were evaluated. */
const CHECKED_AT = [-0.55, 0.4];
/** Error allowed: as a share of how far the rigs differ, beside what exact values scatter. */
const ERROR = 2e-3;
const NOISE = 5e-5;
/** In the curvature, which stiffness alone depends on. */
const CURVATURE_ERROR = 4;
/** Of the winding's resistance, and of the field itself by how far the rigs differ. */
const FIELD_NOISE = 5e-4;
const FIELD_ERROR = 1e-2;
