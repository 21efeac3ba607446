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
  private readonly previous: Float64Array;
  private readonly slope: Float64Array;
  private readonly coupled: Float64Array;
  private readonly remembered: Float64Array;
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
    this.previous = new Float64Array(size);
    this.slope = new Float64Array(size);
    this.coupled = new Float64Array(windings.length);
    this.remembered = new Float64Array(windings.length);
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
  readonly rates = (y: Float64Array, rate: Float64Array, decay: Float64Array): void => {
    this.evaluate(y);
    rate.fill(0);
    decay.fill(0);
    const { count, windings, net, conductance, plate } = this;
    for (let w = 0; w < count; w++) {
      const capacity = windings[w]!.body.heatCapacity;
      rate[w] = net[w]! / capacity;
      decay[w] = conductance[w]! / capacity;
    }
    const held = this.plateHeld || (y[count]! >= this.plateMost && net[count]! > 0);
    rate[count] = held ? 0 : net[count]! / plate.capacity;
    decay[count] = held ? 0 : conductance[count]! / plate.capacity;
  };

  /** What comes in over what goes out, W, of each body. */
  evaluate(y: Float64Array): void {
    const { count, windings, net, conductance, coupled, plate, room, powered } = this;
    const plateTemperature = y[count]!;
    let given = 0;
    let coupling = 0;
    let area = 0;
    let open = 0;
    let sees = 0;
    for (let w = 0; w < count; w++) {
      const winding = windings[w]!;
      winding.powered = powered;
      winding.evaluate(y[w]!, plateTemperature);
      const { toRoom, toPlate, exchange, plateConductance, body } = winding;
      net[w] = (powered ? winding.loss(y[w]!) : 0) - toRoom - toPlate;
      const own = STEEPER * Math.abs(toRoom / away(y[w]!, room));
      conductance[w] = own + plateConductance;
      coupled[w] = plateConductance;
      given += toPlate;
      coupling += plateConductance;
      const under = winding.face * body.filling.overlap;
      area += under;
      open += under * exchange.plateOpen;
      sees += under * exchange.plateSees;
    }
    if (this.plateHeld) {
      net[count] = 0;
      conductance[count] = 1;
      return;
    }
    const { cover } = plate;
    cover.area = area;
    cover.open = area > 0 ? open / area : 1;
    cover.sees = area > 0 ? sees / area : 1;
    const shed = plate.shed(plateTemperature);
    net[count] = (powered ? plate.loss : 0) + given - shed;
    conductance[count] = STEEPER * Math.abs(shed / away(plateTemperature, room)) + coupling;
  }

  /**
   * Steady temperatures with the current held, written to `y`; false when some winding's loss outruns its cooling before
   * its hottest place is at HOTTEST. Diagonal secant steps, with the coupling through the gap eliminated; where these do not
   * settle (a winding on the brink), brackets.
   */
  steady(y: Float64Array): boolean {
    const { count, windings, net, previous, slope, coupled, conductance, room } = this;
    this.powered = true;
    for (let w = 0; w < count; w++) {
      const winding = windings[w]!;
      winding.powered = true;
      // as though what it sheds a kelvin at a usual rise went for every rise
      const plate = this.plateHeld ? y[count]! : room;
      const perKelvin = winding.shed(room + TRIAL, plate) / TRIAL;
      const rise = (winding.loss(room) / perKelvin) * FIRST_RISE;
      y[w] = room + Math.min(MOST_TRIAL, rise);
    }
    if (!this.plateHeld) y[count] = Math.min(room + TRIAL / 2, this.plateMost);
    for (let iteration = 0; iteration < MAX_ITERATIONS; iteration++) {
      this.evaluate(y);
      if (iteration === DOUBT && this.isHopeless(y)) return false;
      let push = net[count]!;
      let stiffness = conductance[count]!;
      for (let w = 0; w < count; w++) {
        if (iteration === 0) {
          const loss = windings[w]!.loss(y[w]! + 1) - windings[w]!.loss(y[w]!);
          slope[w] = Math.max(conductance[w]! - loss, FLATTEST * conductance[w]!);
        } else {
          // the secant of what this body's own step changed
          const step = y[w]! - previous[w]!;
          const own = this.remembered[w]! + coupled[w]! * (y[count]! - previous[count]!) - net[w]!;
          const secant = own / step;
          if (secant > FLATTEST * conductance[w]! && Math.abs(step) > CLOSE) slope[w] = secant;
        }
        push += (coupled[w]! * net[w]!) / slope[w]!;
        stiffness -= (coupled[w]! * coupled[w]!) / slope[w]!;
      }
      stiffness = Math.max(stiffness, FLATTEST * conductance[count]!);
      let platePush = this.plateHeld ? 0 : push / stiffness;
      if (y[count]! + platePush > this.plateMost) platePush = this.plateMost - y[count]!;
      let largest = Math.abs(platePush);
      previous.set(y.subarray(0, count + 1));
      for (let w = 0; w < count; w++) {
        const step = (net[w]! + coupled[w]! * platePush) / slope[w]!;
        this.remembered[w] = net[w]!;
        y[w] = Math.min(HOTTEST, Math.max(LOWEST, y[w]! + step));
        largest = Math.max(largest, Math.abs(step));
      }
      y[count] = Math.min(HOTTEST_PLATE, Math.max(LOWEST, y[count]! + platePush));
      if (largest < CLOSE) return this.stays(y);
    }
    return this.bracketed(y);
  }

  /** Whether some winding makes more heat than it sheds even at HOTTEST, beside a cold plate. */
  private isHopeless(y: Float64Array): boolean {
    const { count, windings, room } = this;
    const plate = this.plateHeld ? y[count]! : room;
    for (let w = 0; w < count; w++) {
      const winding = windings[w]!;
      if (y[w]! > SUSPECT && winding.loss(HOTTEST) > winding.shed(HOTTEST, plate)) return true;
    }
    return false;
  }

  private stays(y: Float64Array): boolean {
    this.evaluate(y);
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
      if (!(bracket.fHigh > 0)) {
        bracket.fLow = at(room);
        plate = fallingRoot(at, bracket, (room + high) / 2, CLOSE);
      }
      if (Number.isNaN(plate)) return false;
      at(plate);
    } else at(y[count]!);
    for (let w = 0; w < count; w++) if (y[w] === HOTTEST) return false;
    return this.stays(y);
  }
}

/** Free convection and radiation grow faster than the excess: what a body sheds has this times the slope of its chord. */
const STEEPER = 1.25;

/** Below this excess a chord means nothing, K. */
const NEAR = 2;

function away(temperature: number, room: number): number {
  const excess = temperature - room;
  return Math.abs(excess) < NEAR ? NEAR : excess;
}

const TRIAL = 60;
const MOST_TRIAL = 400;
const FIRST_RISE = 1.1;
const CLOSE = 1e-4;
const LOWEST = 100;
const FLATTEST = 0.05;
const MAX_ITERATIONS = 40;

/** Usual rigs settle sooner; a winding that is then hotter than this, K, may never do. */
const DOUBT = 5;
const SUSPECT = 600;
