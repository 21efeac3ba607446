import { type Bracket, fallingRoot } from '../math/falling-root.ts';
import { HOTTEST, type WindingHeat } from './coil-heat.ts';
import { HOTTEST_PLATE, type PlateHeat } from './plate-heat.ts';

/**
 * Windings and plate that warm together: each winding by its loss, the plate by its own and by what the windings give it
 * through the gap. The unknowns are the windings' mean temperatures and, last, the plate's, K.
 * A plate of unknown size is held at a temperature; so is a load of water once it has reached its last.
 */
export class RigHeat {
  powered = true;
  /** The plate is held where it is (its size is not known). */
  plateHeld = false;
  /** The plate gets no hotter, K: the load's last temperature; Infinity: no such bound. */
  plateMost = Number.POSITIVE_INFINITY;
  /** W/K, by unknown: how each gives off heat, near where it was last evaluated. */
  private readonly conductance: Float64Array;
  private readonly net: Float64Array;
  private readonly slope: Float64Array;
  private readonly coupled: Float64Array;
  private readonly given: Float64Array;
  private readonly step: Float64Array;
  private readonly bend: Float64Array;
  private readonly more: Float64Array;
  private readonly bracket: Bracket = { low: 0, high: 0, fLow: 0, fHigh: 0 };
  private count = 0;
  private room = 0;

  readonly windings: readonly WindingHeat[];
  readonly plate: PlateHeat;

  constructor(windings: readonly WindingHeat[], plate: PlateHeat) {
    this.windings = windings;
    this.plate = plate;
    const size = windings.length + 1;
    this.conductance = new Float64Array(size);
    this.net = new Float64Array(size);
    this.slope = new Float64Array(size);
    this.coupled = new Float64Array(windings.length);
    this.given = new Float64Array(windings.length);
    this.step = new Float64Array(size);
    this.bend = new Float64Array(size);
    this.more = new Float64Array(size);
  }

  /** The first `count` windings and the plate, all prepared, are the rig in hand. */
  prepare(count: number, room: number): void {
    this.count = count;
    this.room = room;
    this.powered = true;
    this.plateMost = Number.POSITIVE_INFINITY;
  }

  get unknowns(): number {
    return this.count + 1;
  }

  /** Rates of change, K/s, and estimated decay rates, 1/s; bound, so that it can be handed on. */
  readonly rates = (y: Float64Array, rate: Float64Array, decay: Float64Array | null): void => {
    this.evaluate(y);
    const { count, windings, net, conductance, plate } = this;
    for (let w = 0; w < count; w++) {
      const capacity = windings[w]!.body.heatCapacity;
      rate[w] = net[w]! / capacity;
      if (decay !== null) decay[w] = conductance[w]! / capacity;
    }
    if (this.plateHeld || (y[count]! >= this.plateMost && net[count]! > 0)) {
      rate[count] = 0;
      if (decay !== null) decay[count] = 0;
      return;
    }
    rate[count] = net[count]! / plate.capacity;
    if (decay !== null) decay[count] = conductance[count]! / plate.capacity;
  };

  /** Hottest place of any winding, K. */
  hottestAt(y: Float64Array): number {
    this.evaluate(y);
    let hottest = 0;
    for (let w = 0; w < this.count; w++) hottest = Math.max(hottest, this.windings[w]!.hottest);
    return hottest;
  }

  /** What comes in over what goes out, W, of each body. */
  evaluate(y: Float64Array): void {
    const { count, windings, net, conductance, coupled, plate, powered } = this;
    const plateTemperature = y[count]!;
    let given = 0;
    let coupling = 0;
    for (let w = 0; w < count; w++) {
      const winding = windings[w]!;
      winding.powered = powered;
      winding.mean = y[w]!;
      winding.plate = plateTemperature;
      winding.evaluateHere();
      const { toRoom, toPlate, plateConductance } = winding;
      net[w] = (powered ? winding.made : 0) - toRoom - toPlate;
      conductance[w] = winding.conductance;
      coupled[w] = winding.plateHelp;
      this.given[w] = winding.plateGrowth;
      given += toPlate;
      coupling += plateConductance;
    }
    if (this.plateHeld) {
      net[count] = 0;
      conductance[count] = 1;
      return;
    }
    this.coverPlate();
    plate.temperature = plateTemperature;
    plate.evaluate();
    net[count] = (powered ? plate.loss : 0) + given - plate.power;
    conductance[count] = plate.conductance + coupling;
  }

  /**
   * Steady temperatures with the current held, written to `y`; false when some winding's loss outruns its cooling before
   * its hottest place is at HOTTEST. Chebyshev's method (Newton's with the curvature of each body's own flow), the coupling through
   * the gap eliminated; where it does not settle (a winding on the brink), brackets.
   */
  steady(y: Float64Array): boolean {
    const { count, windings } = this;
    this.powered = true;
    this.guess(y);
    for (let w = 0; w < count; w++) windings[w]!.warming = false;
    const settles = this.newton(y);
    for (let w = 0; w < count; w++) windings[w]!.warming = true;
    return settles;
  }

  private newton(y: Float64Array): boolean {
    const { count, windings, net, slope, conductance, step, bend, more } = this;
    let outruns = false;
    for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
      this.evaluate(y);
      const outrunBefore = outruns;
      outruns = this.outruns(y);
      // only the second time its faces are those of this temperature
      if (outruns && outrunBefore) return false;
      for (let w = 0; w < count; w++) {
        slope[w] = Math.max(conductance[w]! - windings[w]!.madeSlope, FLATTEST * conductance[w]!);
      }
      this.solve(net, step);
      if (y[count]! + step[count]! > this.plateMost) this.solveHeld(net, this.plateMost - y[count]!, step);
      let largest = 0;
      for (let i = 0; i <= count; i++) largest = Math.max(largest, Math.abs(step[i]!));
      const isLast = largest < CLOSE;
      if (!isLast) {
        // Chebyshev's method: what the curvature of each body's own flow adds
        for (let w = 0; w < count; w++) bend[w] = (-windings[w]!.curvature * step[w]! * step[w]!) / 2;
        bend[count] = this.plateHeld ? 0 : (-this.plate.curvature * step[count]! * step[count]!) / 2;
        this.solve(bend, more);
        for (let i = 0; i <= count; i++) {
          const most = Math.abs(step[i]!) / 2;
          step[i] = step[i]! + Math.min(most, Math.max(-most, more[i]!));
        }
      }
      for (let w = 0; w < count; w++) {
        const next = Math.min(HOTTEST, Math.max(LOWEST, y[w]! + step[w]!));
        if (isLast) windings[w]!.shift(next - y[w]!);
        y[w] = next;
      }
      if (!this.plateHeld) {
        y[count] = Math.min(HOTTEST_PLATE, this.plateMost, Math.max(LOWEST, y[count]! + step[count]!));
      }
      if (isLast) return this.isBelowHottest();
    }
    return this.bracketed(y);
  }

  /** Steps by which `rest`, W, would vanish along tangents: the coupling through the plate eliminated. */
  private solve(rest: Float64Array, step: Float64Array): void {
    const { count, slope, coupled, given, conductance } = this;
    let push = rest[count]!;
    let stiffness = conductance[count]!;
    for (let w = 0; w < count; w++) {
      push += (given[w]! * rest[w]!) / slope[w]!;
      stiffness -= (given[w]! * coupled[w]!) / slope[w]!;
    }
    this.solveHeld(
      rest,
      this.plateHeld ? 0 : push / Math.max(stiffness, FLATTEST * conductance[count]!),
      step,
    );
  }

  /** The same where the plate's step is known. */
  private solveHeld(rest: Float64Array, plateStep: number, step: Float64Array): void {
    const { count, slope, coupled } = this;
    for (let w = 0; w < count; w++) step[w] = (rest[w]! + coupled[w]! * plateStep) / slope[w]!;
    step[count] = plateStep;
  }

  /** Where the search for steady temperatures begins. */
  private guess(y: Float64Array): void {
    const { count, windings, plate, room } = this;
    const usual = Math.min(MOST_PLATE_TRIAL, plate.loss / plate.usualConductance);
    const plateRise = this.plateHeld ? y[count]! - room : usual;
    let given = 0;
    let coupling = 0;
    for (let w = 0; w < count; w++) {
      const winding = windings[w]!;
      winding.powered = true;
      const rise = winding.presumedRise(plateRise);
      y[w] = room + rise;
      given += winding.presumedToPlate(rise, plateRise);
      coupling += winding.presumedCoupling;
    }
    if (this.plateHeld) return;
    this.coverPlate();
    const shed = plate.shed(room + plateRise);
    const more = (plate.loss + given - shed) / (plate.conductance + coupling / 2);
    y[count] = Math.min(room + Math.min(MOST_PLATE_TRIAL, plateRise + more), this.plateMost);
  }

  /** What the windings, as last evaluated or presumed, leave free of the plate's face. */
  private coverPlate(): void {
    const { cover } = this.plate;
    let area = 0;
    let open = 0;
    let sees = 0;
    for (let w = 0; w < this.count; w++) {
      const { exchange, face, body } = this.windings[w]!;
      const under = face * body.filling.overlap;
      area += under;
      open += under * exchange.plateOpen;
      sees += under * exchange.plateSees;
    }
    cover.area = area;
    cover.open = area > 0 ? open / area : 1;
    cover.sees = area > 0 ? sees / area : 1;
  }

  /** Whether some winding makes more heat than it sheds even at HOTTEST. */
  private outruns(y: Float64Array): boolean {
    for (let w = 0; w < this.count; w++) if (y[w] === HOTTEST && this.net[w]! > 0) return true;
    return false;
  }

  private stays(y: Float64Array): boolean {
    this.evaluate(y);
    return this.isBelowHottest();
  }

  private isBelowHottest(): boolean {
    for (let w = 0; w < this.count; w++) if (this.windings[w]!.hottest > HOTTEST) return false;
    return true;
  }

  /** The plate's temperature by bracket, each winding's by its own for every plate temperature. */
  private bracketed(y: Float64Array): boolean {
    const { count, windings, room } = this;
    const at = (plate: number): number => {
      y[count] = plate;
      for (let w = 0; w < count; w++) {
        const steady = windings[w]!.steadyTemperature(plate);
        y[w] = Number.isNaN(steady) ? HOTTEST : steady;
      }
      this.evaluate(y);
      return this.net[count]!;
    };
    if (!this.plateHeld) {
      const { bracket } = this;
      const high = Math.min(HOTTEST_PLATE, this.plateMost);
      bracket.low = room;
      bracket.high = high;
      bracket.fHigh = at(high);
      let plate = high;
      if (bracket.fHigh > 0 && high === HOTTEST_PLATE) return false;
      if (!(bracket.fHigh > 0)) {
        bracket.fLow = at(room);
        plate = fallingRoot(at, bracket, (room + high) / 2, NARROW);
      }
      if (Number.isNaN(plate)) return false;
      at(plate);
    } else at(y[count]!);
    for (let w = 0; w < count; w++) if (y[w] === HOTTEST) return false;
    return this.stays(y);
  }
}

/** K; only where the search begins. */
const MOST_PLATE_TRIAL = 900;
/** The last step, K, after which a hundredth of it is left or less. */
const CLOSE = 0.03;
/** Brackets, K. */
const NARROW = 1e-4;
/** K: no step leads to absolute zero. */
const LOWEST = 1;
const FLATTEST = 0.05;
const MAX_ITERATIONS = 40;
