import { type Bracket, fallingRoot } from '../math/falling-root.ts';
import { relaxationTime } from '../math/relaxation-time.ts';
import { REFERENCE_TEMPERATURE } from './constants.ts';
import {
  freeFaceCoefficient,
  type StillAir,
  stillAir,
  trappedFaceCoefficient,
  verticalCoefficient,
} from './convection.ts';
import { type GapExchange, type GapFilling, type GapTemperatures, gapExchange } from './gap-exchange.ts';
import { boreRadiatingArea, STEFAN_BOLTZMANN } from './radiation.ts';
import { LEAST_RESISTIVITY_RATIO } from './resistivity.ts';
import { type FaceFactors, faceFactors, hottestAboveMean } from './section-conduction.ts';

// Past 300 lines: one winding's heat, steady, warming and cooling, from the same areas and conductances.

/** Emissivity of varnished or enamelled wire: 0.8 to 0.95 (Incropera, table A.11, from memory). */
export const WINDING_EMISSIVITY = 0.9;

/** No winding is followed hotter than this, K: copper melts at 1358 K, aluminium at 933 K. */
export const HOTTEST = 1500;

/** A winding as a warm body at its mean temperature: lengths m, temperatures K. */
export interface WindingBody {
  innerRadius: number;
  outerRadius: number;
  height: number;
  /** True when the face away from the plate looks up (the coil lies over the plate). */
  farFaceUp: boolean;
  /** Across the section, W/(m K). */
  conductivity: number;
  /** Between its plate-side face and the plate. */
  filling: GapFilling;
  emissivity: number;
  plateEmissivity: number;
  surroundings: number;
  /** Conductor, insulation and whatever else warms with them, J/K. */
  heatCapacity: number;
  /** Loss that rises with resistivity, W, at 20 degC: current squared times dc resistance. */
  dcLoss: number;
  /** Extra ac loss, W, at 20 degC: taken as falling with resistivity, as proximity loss does at low frequency. */
  acLoss: number;
  temperatureCoefficient: number;
}

/**
 * A winding that heats: one mean temperature T, from which the temperatures of its faces and of its hottest place follow
 * by conduction across the section.
 *   C dT/dt = loss(T) - toRoom(T, Tplate) - toPlate(T, Tplate),   loss = dcLoss r + acLoss / r,  r = rho(T) / rho20
 * Natural convection and radiation from the far annulus and both cylinders go to the room; the plate-side annulus exchanges
 * with plate and room through the gap (gap-exchange). The bore radiates through its two mouths.
 *
 * Section: along the axis a slab between two faces whose source rises with temperature, across the radius one between two
 * equal sides; both profiles are added (section-conduction). That is exact for uniform fluxes through each face; against
 * finite differences with convection at every place (test/support/winding-section.ts) mean and hottest rise are right to 3 %
 * for flat, square and tall sections. In time the profile is taken as that of the fluxes of the moment. A
 * winding cold throughout has a flat profile, which takes some h^2/k times its heat capacity a volume to form; until then its
 * faces are hotter than taken here, the hottest place cooler: on-times err to the short side.
 *
 * Resistivity is not followed below a tenth of its value at 20 degC (only a large negative coefficient gets there).
 * Accuracy: that of the correlations (see convection): 10 to 20 % of a temperature rise; of a loose winding's conductivity a
 * factor of 1.5 in the rise from face to hottest place. Numerically 1e-3.
 */
export class WindingHeat {
  /** W at the temperatures last evaluated. */
  toRoom = 0;
  toPlate = 0;
  private readonly temperatures: GapTemperatures = { face: 0, plate: 0, room: 0 };
  private readonly bracket: Bracket = { low: 0, high: HOTTEST, fLow: 0, fHigh: 0 };
  private mean = 0;
  private first = 0;
  private second = 0;
  private side = 0;
  private bent = 0;
  private bentAcross = 0;
  /** How toPlate falls per kelvin of the plate, W/K. */
  plateConductance = 0;
  readonly exchange: GapExchange = { toPlate: 0, toRoom: 0, plateOpen: 1, plateSees: 1 };
  /** Area of the annulus, m2. */
  face = 0;

  body: WindingBody = NOBODY;
  private plate = 0;
  private sides = 0;
  private volume = 0;
  /** Whether the current is on. */
  powered = true;
  /** What radiates to the room from the sides, times its emissivity, m2. */
  private sideRadiating = 0;
  /** Area over perimeter of an annulus, m. */
  private length = 0;
  /** K m2/W of the section, along the axis and across the radius. */
  private axial = 0;
  private radial = 0;
  /** Where the coefficients of the faces are first looked up: excess over the room as a share of the mean's. */
  private farFraction = 1;
  private nearFraction = 1;
  /** Mean temperatures of the far and the plate-side face, K. */
  far = 0;
  near = 0;
  private readonly along: FaceFactors = { own: 0, other: 0 };
  private readonly across: FaceFactors = { own: 0, other: 0 };
  private readonly air: StillAir = { conductivity: 0, rayleighPerCube: 0, vertical: 0 };
  // bound once: nothing is allocated per design
  private readonly net = (temperature: number) => {
    this.evaluate(temperature, this.plate);
    return this.loss(temperature) - this.toRoom - this.toPlate;
  };
  private readonly cooling = (temperature: number) => {
    this.evaluate(temperature, this.plate);
    return -(this.toRoom + this.toPlate) / this.body.heatCapacity;
  };
  /** The body in hand from now on; its losses and its gap may change afterwards, its shape not. */
  prepare(body: WindingBody): void {
    this.body = body;
    const { innerRadius: r1, outerRadius: r2, height: h, emissivity } = body;
    this.face = Math.PI * (r2 - r1) * (r2 + r1);
    this.sides = 2 * Math.PI * (r2 + r1) * h;
    this.length = (r2 - r1) / 2;
    this.volume = this.face * h;
    this.powered = true;
    this.sideRadiating = emissivity * 2 * Math.PI * r2 * h + boreRadiatingArea(r1, h, emissivity);
    this.axial = h / body.conductivity;
    this.radial = (r2 - r1) / body.conductivity;
    this.farFraction = 1;
    this.nearFraction = 1;
    const usual = body.surroundings + TRIAL;
    this.evaluate(usual, body.surroundings, true);
  }

  /** Loss at a mean temperature in K, W. */
  loss(temperature: number): number {
    const { dcLoss, acLoss } = this.body;
    const ratio = this.resistivityRatio(temperature);
    return dcLoss * ratio + acLoss / ratio;
  }

  private resistivityRatio(temperature: number): number {
    return Math.max(
      LEAST_RESISTIVITY_RATIO,
      1 + this.body.temperatureCoefficient * (temperature - REFERENCE_TEMPERATURE),
    );
  }

  /**
   * Heat flows and hottest place at a mean temperature of the winding and a temperature of the plate, K. The faces'
   * coefficients are looked up at temperatures that a usual rise gives, then once more at those that follow.
   */
  evaluate(mean: number, plate: number, learn = false): void {
    const { surroundings: room, height, farFaceUp, conductivity, filling, emissivity } = this.body;
    const { air, axial, radial, exchange, along, across } = this;
    const excess = mean - room;
    const width = 2 * this.length;
    const perSection = 1 / (height * width);
    let feedback = this.powered ? this.sourceFeedback() * perSection : 0;
    const loss = this.powered ? this.loss(mean) : 0;
    let far = room + this.farFraction * excess;
    let near = room + this.nearFraction * excess;
    let side = far;
    let first = 0;
    let second = 0;
    let sideFlux = 0;
    // per metre of circumference, W/(m K): what the faces and the sides take more of where it is hotter
    let byFaces = 0;
    let bySides = 0;
    let bent = 0;
    let bentAcross = 0;
    for (let pass = 0; pass < 2; pass++) {
      stillAir(far, room, air);
      const free = farFaceUp === far >= room;
      const farConvection = free
        ? freeFaceCoefficient(air, this.length)
        : trappedFaceCoefficient(air, this.length);
      const farTotal =
        farConvection + emissivity * STEFAN_BOLTZMANN * (far + room) * (far * far + room * room);
      stillAir(near, room, air);
      const nearConvection =
        farFaceUp === near >= room
          ? trappedFaceCoefficient(air, this.length)
          : freeFaceCoefficient(air, this.length);
      stillAir(near, plate, air);
      const { temperatures } = this;
      temperatures.face = near;
      temperatures.plate = plate;
      temperatures.room = room;
      gapExchange(filling, air, nearConvection, this.body, temperatures, exchange);
      bent = Math.max(LEAST_BENT, ((feedback - bySides * perSection) * height * height) / conductivity);
      faceFactors(bent, along);
      // two faces, each f = H (T - its surroundings), T below the mean by what both fluxes make
      const nearTotal = exchange.toPlate + exchange.toRoom;
      const a11 = 1 + farTotal * axial * along.own;
      const a12 = -farTotal * axial * along.other;
      const a22 = 1 + nearTotal * axial * along.own;
      const a21 = -nearTotal * axial * along.other;
      const b1 = farTotal * excess;
      const b2 = nearTotal * excess - exchange.toPlate * (plate - room);
      const determinant = a11 * a22 - a12 * a21;
      first = (b1 * a22 - a12 * b2) / determinant;
      second = (a11 * b2 - a21 * b1) / determinant;
      far = mean - axial * (along.own * first - along.other * second);
      near = mean - axial * (along.own * second - along.other * first);
      byFaces = (width * (farTotal * (a22 - a12) + nearTotal * (a11 - a21))) / determinant;
      // two like sides
      stillAir(side, room, air);
      const radiation =
        (this.sideRadiating / this.sides) * STEFAN_BOLTZMANN * (side + room) * (side * side + room * room);
      const sideTotal = verticalCoefficient(air, height) + radiation;
      bentAcross = Math.max(LEAST_BENT, ((feedback - byFaces * perSection) * width * width) / conductivity);
      faceFactors(bentAcross, across);
      const sideConductance = sideTotal / (1 + sideTotal * radial * (across.own - across.other));
      sideFlux = sideConductance * excess;
      side = mean - radial * (across.own - across.other) * sideFlux;
      bySides = 2 * height * sideConductance;
      if (pass === 0) {
        // while it warms as a whole its profile grows with it, which takes heat where it grows
        const net = loss - this.face * (first + second) - sideFlux * this.sides;
        const storing = net / (excess * this.volume);
        feedback -= Number.isFinite(storing) ? storing : 0;
      }
    }
    if (learn && excess > 0) {
      this.farFraction = Math.min(1, Math.max(0, (far - room) / excess));
      this.nearFraction = Math.min(1, Math.max(0, (near - room) / excess));
    }
    this.toPlate = this.face * exchange.toPlate * (near - plate);
    this.toRoom = this.face * (first + second) - this.toPlate + sideFlux * this.sides;
    this.plateConductance =
      (this.face * exchange.toPlate) / (1 + (exchange.toPlate + exchange.toRoom) * axial * along.own);
    this.far = far;
    this.near = near;
    this.mean = mean;
    this.first = first;
    this.second = second;
    this.side = sideFlux;
    this.bent = bent;
    this.bentAcross = bentAcross;
  }

  /** Of the winding as last evaluated, K. */
  get hottest(): number {
    const { mean, first, second, side } = this;
    const middle = hottestAboveMean(side, side, this.bentAcross, this.radial, this.across);
    const top = hottestAboveMean(first, second, this.bent, this.axial, this.along);
    const excess = mean - this.body.surroundings;
    // in the middle of the radius everything exceeds the room by as much more as the mean there does
    const more = excess > 0 ? 1 + Math.min(1, middle / excess) : 1;
    return mean + middle + top * more;
  }

  /** How the loss rises with temperature, W/K a metre of circumference at the mean radius. */
  private sourceFeedback(): number {
    const { dcLoss, temperatureCoefficient, innerRadius, outerRadius } = this.body;
    return (dcLoss * Math.max(0, temperatureCoefficient)) / (Math.PI * (innerRadius + outerRadius));
  }

  /** Heat given off to room and plate at a mean temperature, K, W; negative where it takes heat up. */
  shed(temperature: number, plate: number): number {
    this.evaluate(temperature, plate);
    return this.toRoom + this.toPlate;
  }

  /**
   * Steady mean temperature, K, with current and plate held; NaN when there is none up to which the hottest place stays
   * below HOTTEST: the loss outruns the cooling.
   */
  steadyTemperature(plate: number): number {
    this.plate = plate;
    const { bracket } = this;
    bracket.low = Math.min(this.body.surroundings, plate);
    bracket.fHigh = this.net(HOTTEST);
    if (bracket.fHigh > 0) return Number.NaN;
    bracket.fLow = this.net(bracket.low);
    const trial = bracket.low + Math.min(TRIAL, (HOTTEST - bracket.low) / 2);
    const steady = fallingRoot(this.net, bracket, trial, CLOSE);
    this.evaluate(steady, plate);
    return this.hottest > HOTTEST ? Number.NaN : steady;
  }

  /**
   * Time for the mean to cool from one temperature to another, K, s, with the current off and the plate at the
   * surroundings' temperature; Infinity when `to` is not above the surroundings, 0 when there is nothing to cool.
   */
  coolDownTime(from: number, to: number): number {
    if (from <= to) return 0;
    this.plate = this.body.surroundings;
    this.powered = false;
    const time = relaxationTime(this.cooling, from, to, this.body.surroundings);
    this.powered = true;
    return time;
  }
}

/**
 * The search for the steady temperature begins this far above the surroundings, K, and ends with a step no longer than
 * that: an error below 1e-6 K (it is 1e-9 K at usual rises).
 */
const TRIAL = 60;
const CLOSE = 1e-5;

/** A profile no flatter than this: its layers at the faces are then a thirtieth of the section. */
const LEAST_BENT = -1000;

const NOBODY: WindingBody = {
  innerRadius: 0,
  outerRadius: 0,
  height: 0,
  farFaceUp: true,
  conductivity: 1,
  filling: { sheet: 0, sheetConductivity: 1, air: 1, overlap: 1 },
  emissivity: 0,
  plateEmissivity: 0,
  surroundings: 0,
  heatCapacity: 0,
  dcLoss: 0,
  acLoss: 0,
  temperatureCoefficient: 0,
};
