import type { RigHeat } from './rig-heat.ts';

/**
 * What windings and plate give off as polynomials of their temperatures, for whoever follows a rig through time and would
 * otherwise evaluate the laws a hundred times: per winding the heat to room and plate and the rise of its hottest place at a few
 * mean temperatures, with the plate at a temperature midway; what the plate's temperature changes of it is taken as
 * linear. The plate's own shedding likewise.
 * Accuracy: 0.5 % of a heat flow between the ends of the table with the plate midway (test); outside it the polynomials go on.
 * Away from the middle the plate's part is not straight: on-times of one winding whose plate warmed by 50 to 150 K came out 2.7 %
 * off (nine of ten) and 38 % in the worst case, so one winding is not followed by tables (time-to-limit).
 */
export class HeatTable {
  private readonly heat: RigHeat;
  private readonly toRoom: Float64Array;
  private readonly toPlate: Float64Array;
  private readonly coupling: Float64Array;
  private readonly rise: Float64Array;
  private readonly shed = new Float64Array(NODES);
  private low = 0;
  private span = 1;
  private plateLow = 0;
  private plateSpan = 1;
  private plateMiddle = 0;

  constructor(heat: RigHeat) {
    this.heat = heat;
    const size = NODES * heat.windings.length;
    this.toRoom = new Float64Array(size);
    this.toPlate = new Float64Array(size);
    this.coupling = new Float64Array(size);
    this.rise = new Float64Array(size);
  }

  /**
   * Windings from `low` to `high`, the plate from `plateLow` to `plateHigh`, K. The rig's own `powered` and losses at this
   * moment shape the profiles in the windings.
   */
  prepare(low: number, high: number, plateLow: number, plateHigh: number): void {
    const { heat, toRoom, toPlate, coupling, rise, shed } = this;
    this.low = low;
    this.span = Math.max(high - low, LEAST);
    this.plateLow = plateLow;
    this.plateSpan = Math.max(plateHigh - plateLow, LEAST);
    this.plateMiddle = (plateLow + plateHigh) / 2;
    const count = heat.unknowns - 1;
    for (let w = 0; w < count; w++) {
      const winding = heat.windings[w]!;
      winding.powered = heat.powered;
      for (let n = 0; n < NODES; n++) {
        const mean = low + this.span * PLACES[n]!;
        winding.evaluate(mean, this.plateMiddle);
        const at = w * NODES + n;
        toRoom[at] = winding.toRoom;
        toPlate[at] = winding.toPlate;
        coupling[at] = winding.plateConductance;
        rise[at] = winding.hottest - mean;
      }
      toPowers(toRoom, w * NODES);
      toPowers(toPlate, w * NODES);
      toPowers(coupling, w * NODES);
      toPowers(rise, w * NODES);
    }
    if (heat.plateHeld) return;
    for (let n = 0; n < NODES; n++) shed[n] = heat.plate.shed(plateLow + this.plateSpan * PLACES[n]!);
    toPowers(shed, 0);
  }

  hottest(y: Float64Array): number {
    const count = this.heat.unknowns - 1;
    let hottest = 0;
    for (let w = 0; w < count; w++) {
      const u = (y[w]! - this.low) / this.span;
      hottest = Math.max(hottest, y[w]! + Math.max(0, horner(this.rise, w * NODES, u)));
    }
    return hottest;
  }

  /** Rates of change, K/s, and estimated decay rates, 1/s, as `RigHeat.rates`. */
  readonly rates = (y: Float64Array, rate: Float64Array, decay: Float64Array | null): void => {
    const { heat } = this;
    const count = heat.unknowns - 1;
    const away = y[count]! - this.plateMiddle;
    rate[count] = 0;
    let given = 0;
    for (let w = 0; w < count; w++) {
      const winding = heat.windings[w]!;
      const at = w * NODES;
      const u = (y[w]! - this.low) / this.span;
      const plate = horner(this.toPlate, at, u) - horner(this.coupling, at, u) * away;
      const room = horner(this.toRoom, at, u);
      const loss = heat.powered ? winding.loss(y[w]!) : 0;
      rate[w] = (loss - room - plate) / winding.body.heatCapacity;
      given += plate;
    }
    if (decay !== null) this.decays(y, decay);
    if (heat.plateHeld) return;
    const u = (y[count]! - this.plateLow) / this.plateSpan;
    const net = (heat.powered ? heat.plate.loss : 0) + given - horner(this.shed, 0, u);
    if (y[count]! >= heat.plateMost && net > 0) {
      if (decay !== null) decay[count] = 0;
    } else rate[count] = net / heat.plate.capacity;
  };

  private decays(y: Float64Array, decay: Float64Array): void {
    const { heat } = this;
    const count = heat.unknowns - 1;
    decay[count] = 0;
    let coupled = 0;
    for (let w = 0; w < count; w++) {
      const at = w * NODES;
      const u = (y[w]! - this.low) / this.span;
      const steep = slope(this.toRoom, at, u) + slope(this.toPlate, at, u);
      decay[w] = Math.max(0, steep / this.span) / heat.windings[w]!.body.heatCapacity;
      coupled += horner(this.coupling, at, u);
    }
    if (heat.plateHeld) return;
    const u = (y[count]! - this.plateLow) / this.plateSpan;
    decay[count] = Math.max(0, slope(this.shed, 0, u) / this.plateSpan + coupled) / heat.plate.capacity;
  }
}

/** Chebyshev's extrema, moved to 0 to 1. */
const NODES = 4;
const PLACES = [0, 0.25, 0.75, 1] as const;
const LEAST = 1;

function horner(c: Float64Array, at: number, u: number): number {
  return c[at]! + u * (c[at + 1]! + u * (c[at + 2]! + u * c[at + 3]!));
}

function slope(c: Float64Array, at: number, u: number): number {
  return c[at + 1]! + u * (2 * c[at + 2]! + u * 3 * c[at + 3]!);
}

/** Values at PLACES to coefficients of powers, in place: divided differences, then Newton's form multiplied out. */
function toPowers(c: Float64Array, at: number): void {
  for (let order = 1; order < NODES; order++) {
    for (let n = NODES - 1; n >= order; n--) {
      c[at + n] = (c[at + n]! - c[at + n - 1]!) / (PLACES[n]! - PLACES[n - order]!);
    }
  }
  for (let first = NODES - 2; first >= 0; first--) {
    for (let n = first; n < NODES - 1; n++) c[at + n] = c[at + n]! - PLACES[first]! * c[at + n + 1]!;
  }
}
