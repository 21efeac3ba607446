import { type Bracket, fallingRoot } from '../math/falling-root.ts';
import { relaxationTime } from '../math/relaxation-time.ts';
import { REFERENCE_TEMPERATURE } from './constants.ts';
import {
  createStillAir,
  freeFaceCoefficient,
  stillAir,
  trappedFaceCoefficient,
  trappedShape,
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
 * finite differences with convection at every place (test/support/winding-section.ts) the mean rise is
 * right to 3 %, the hottest to 6 % for flat, square and tall sections. In time the profile is taken as that of the fluxes of the moment. A
 * winding cold throughout has a flat profile, which takes some h^2/k times its heat capacity a volume to form; until then its
 * faces are hotter than taken here, the hottest place cooler: on-times err to the short side.
 *
 * Resistivity is not followed below a tenth of its value at 20 degC (only a large negative coefficient gets there).
 * What belongs to faces and sides is taken at temperatures that follow from the last evaluation, and along the tangent from
 * there; a body not yet evaluated is evaluated twice. Evaluated again at the same temperatures it comes to 1e-3 of itself
 * after a leap of a hundred kelvin, and to 1e-6 where steps are small, as on the way to a steady state.
 * Accuracy: that of the correlations (see convection): 10 to 20 % of a temperature rise; of a loose winding's conductivity a
 * factor of 1.5 in the rise from face to hottest place. Numerically 1e-3.
 */
export class WindingHeat {
  /** W at the temperatures last evaluated. */
  toRoom = 0;
  toPlate = 0;
  /** How toPlate falls per kelvin of the plate, and rises per kelvin of the mean, W/K. */
  plateConductance = 0;
  plateGrowth = 0;
  /** How both rise per kelvin of the mean, W/K. */
  conductance = 0;
  readonly exchange: GapExchange = {
    toPlate: 0,
    toRoom: 0,
    plateSlope: 0,
    roomSlope: 0,
    plateOpen: 1,
    plateSees: 1,
  };
  /** Area of the annulus, m2. */
  face = 0;
  body: WindingBody = NOBODY;
  /** Whether the current is on. */
  powered = true;
  /** Whether the mean may change; false: it is looked for where it is steady. */
  warming = true;
  /** Mean temperature of the far face, K. */
  far = 0;
  private plate = 0;
  /** Whether `last` is of this body. */
  private hasLast = false;
  private sides = 0;
  private volume = 0;
  /** What radiates to the room from the sides, as a fraction of their area, times its emissivity. */
  private sideRadiating = 0;
  /** Area over perimeter of an annulus, m. */
  private length = 0;
  private trapped = 0;
  /** K m2/W of the section, along the axis and across the radius. */
  private axial = 0;
  private radial = 0;
  private readonly last: LastEvaluation = noEvaluation();
  private mean = 0;
  private first = 0;
  private second = 0;
  private side = 0;
  private bent = 0;
  private bentAcross = 0;
  private readonly bracket: Bracket = { low: 0, high: HOTTEST, fLow: 0, fHigh: 0 };
  private readonly temperatures: GapTemperatures = { face: 0, plate: 0, room: 0 };
  private readonly along: FaceFactors = { own: 0, other: 0 };
  private readonly across: FaceFactors = { own: 0, other: 0 };
  private readonly air = createStillAir();
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
    this.trapped = trappedShape(this.length);
    this.volume = this.face * h;
    this.powered = true;
    this.sideRadiating =
      (emissivity * 2 * Math.PI * r2 * h + boreRadiatingArea(r1, h, emissivity)) / this.sides;
    this.axial = h / body.conductivity;
    this.radial = (r2 - r1) / body.conductivity;
    const { last } = this;
    last.excess = 0;
    last.farGrowth = 0;
    last.nearGrowth = 0;
    last.sideGrowth = 0;
    last.perKelvinGrowth = 0;
    this.hasLast = false;
    this.presume(USUAL);
  }

  /** What an evaluation would find, roughly, if every face had a coefficient of `each`, W/(m2 K). */
  presume(each: number): void {
    const { last, axial, radial, body } = this;
    const { filling, height } = body;
    const contact = filling.overlap / (filling.sheet / filling.sheetConductivity + filling.air / USUAL_AIR);
    const near = each / 2 + contact;
    last.far = 1 / (1 + (each * axial) / 4);
    last.near = 1 / (1 + (near * axial) / 4);
    last.nearByPlate = (contact * axial) / 4 / (1 + (near * axial) / 4);
    last.side = 1 / (1 + (each * radial) / 12);
    last.byPlate = this.face * contact * last.near;
    last.bySides = 2 * height * each * last.side;
    last.perKelvin = this.face * (each * last.far + near * last.near) + this.sides * each * last.side;
  }

  /**
   * Rise over the room, K, at which a winding of this shape sheds its loss and what the plate gives it at a rise of its own,
   * roughly; before any evaluation.
   */
  presumedRise(plateRise: number): number {
    const { last, body } = this;
    const { surroundings } = body;
    const loss = this.loss(surroundings) + last.byPlate * plateRise;
    const slope = this.lossSlope(surroundings);
    // perKelvin (COLD + rise / DOUBLED) rise = loss + slope rise
    const linear = COLD * last.perKelvin - slope;
    const square = last.perKelvin / DOUBLED;
    // the plate may be colder than the room
    let rise = (Math.sqrt(Math.max(0, linear * linear + 4 * square * loss)) - linear) / (2 * square);
    for (let i = 0; i < PRESUMPTIONS; i++) {
      rise = Math.min(rise, MOST_PRESUMED);
      this.presume(USUAL * (COLD + (last.far * Math.abs(rise)) / DOUBLED));
      rise = (this.loss(surroundings + rise) + last.byPlate * plateRise) / last.perKelvin;
    }
    // good enough for a search that evaluates again
    this.hasLast = true;
    return Math.min(rise, MOST_PRESUMED);
  }

  /** What the plate is given per kelvin that the winding is hotter, roughly, W/K; before any evaluation. */
  get presumedCoupling(): number {
    return this.last.byPlate;
  }

  /** Loss at a mean temperature in K, W. */
  loss(temperature: number): number {
    const { dcLoss, acLoss } = this.body;
    const ratio = this.resistivityRatio(temperature);
    return dcLoss * ratio + acLoss / ratio;
  }

  /** How the loss rises with the mean temperature, W/K. */
  lossSlope(temperature: number): number {
    const { dcLoss, acLoss, temperatureCoefficient } = this.body;
    const ratio = this.resistivityRatio(temperature);
    return ratio > LEAST_RESISTIVITY_RATIO ? temperatureCoefficient * (dcLoss - acLoss / (ratio * ratio)) : 0;
  }

  private resistivityRatio(temperature: number): number {
    return Math.max(
      LEAST_RESISTIVITY_RATIO,
      1 + this.body.temperatureCoefficient * (temperature - REFERENCE_TEMPERATURE),
    );
  }

  /**
   * Heat flows and hottest place at a mean temperature of the winding and a temperature of the plate, K. What follows from the
   * temperatures of faces and sides is taken at those that the fractions of the last evaluation give, and along the
   * tangent from there; so errors are of second order in the change of the fractions.
   */
  evaluate(mean: number, plate: number): void {
    if (!this.hasLast) this.approach(mean, plate);
    this.approach(mean, plate);
  }

  /** As `evaluate`, but the first time from usual fractions. */
  approach(mean: number, plate: number): void {
    this.hasLast = true;
    const { surroundings: room, height, conductivity } = this.body;
    const { axial, radial, along, across, last, length, exchange } = this;
    const excess = mean - room;
    const beyond = plate - room;
    const width = 2 * length;
    const perSection = 1 / (height * width);
    // how far from the last excess, as a fraction of the larger one: straight near it, bounded far from it
    const more =
      excess * last.excess > 0
        ? (excess - last.excess) / Math.max(Math.abs(excess), Math.abs(last.excess))
        : 0;
    const farGuess = room + (last.far + last.farGrowth * more) * excess;
    const nearGuess = room + (last.near + last.nearGrowth * more) * excess + last.nearByPlate * beyond;
    const sideGuess = room + (last.side + last.sideGrowth * more) * excess;
    // while it warms as a whole its profile grows with it, which takes heat where it grows
    const shed = (last.perKelvin + last.perKelvinGrowth * more) * excess - last.byPlate * beyond;
    let feedback = this.powered ? this.sourceFeedback() * perSection : 0;
    if (this.warming) {
      const net = (this.powered ? this.loss(mean) : 0) - shed;
      // cold throughout, it warms evenly: infinite
      if (net !== 0) feedback -= net / (excess * this.volume);
    }

    this.evaluateFar(farGuess);
    this.evaluateNear(nearGuess, plate);
    const nearSlope = exchange.plateSlope + exchange.roomSlope;
    const farSlope = this.slope;
    const chords = (this.chord + exchange.toPlate + exchange.toRoom) / (farSlope + nearSlope);
    const bent = Math.max(
      LEAST_BENT,
      ((feedback - last.bySides * perSection) * height * height) / conductivity,
    );
    faceFactors(bent, along);
    // two faces, each with f along its tangent, below the mean by what both fluxes make
    const own = axial * along.own;
    const other = axial * along.other;
    const a11 = 1 + farSlope * own;
    const a12 = -farSlope * other;
    const a22 = 1 + nearSlope * own;
    const a21 = -nearSlope * other;
    const b1 = this.chord * (farGuess - room) + farSlope * (mean - farGuess);
    const b2 =
      exchange.toPlate * (nearGuess - plate) +
      exchange.toRoom * (nearGuess - room) +
      nearSlope * (mean - nearGuess);
    const perDeterminant = 1 / (a11 * a22 - a12 * a21);
    const first = (b1 * a22 - a12 * b2) * perDeterminant;
    const second = (a11 * b2 - a21 * b1) * perDeterminant;
    const far = mean - own * first + other * second;
    const near = mean - own * second + other * first;
    // what they take more of when the mean is hotter, W/(m2 K)
    const faces = (farSlope * (a22 - a12) + nearSlope * (a11 - a21)) * perDeterminant;

    // two like sides
    this.evaluateSide(sideGuess);
    const bentAcross = Math.max(
      LEAST_BENT,
      ((feedback - width * chords * faces * perSection) * width * width) / conductivity,
    );
    faceFactors(bentAcross, across);
    const drop = radial * (across.own - across.other);
    const perDrop = 1 / (1 + this.slope * drop);
    const sideFlux = (this.chord * (sideGuess - room) + this.slope * (mean - sideGuess)) * perDrop;
    const sideConductance = this.slope * perDrop;

    const given = this.face * (first + second) + sideFlux * this.sides;
    this.toPlate =
      this.face * (exchange.toPlate * (nearGuess - plate) + exchange.plateSlope * (near - nearGuess));
    this.toRoom = given - this.toPlate;
    this.plateConductance = (this.face * exchange.toPlate) / a22;
    const firstSlope = (farSlope * a22 - a12 * nearSlope) * perDeterminant;
    const secondSlope = (a11 * nearSlope - a21 * farSlope) * perDeterminant;
    const nearGrowth = 1 - own * secondSlope + other * firstSlope;
    this.plateGrowth = this.face * exchange.plateSlope * nearGrowth;
    this.conductance = this.face * (firstSlope + secondSlope) + this.sides * sideConductance;
    this.far = far;
    this.mean = mean;
    this.first = first;
    this.second = second;
    this.side = sideFlux;
    this.bent = bent;
    this.bentAcross = bentAcross;

    // one place hotter than others does not change the coefficients, which belong to the whole face
    last.bySides = (2 * height * this.chord) / (1 + this.chord * drop);
    last.byPlate = this.plateConductance;
    last.nearByPlate = (exchange.toPlate * own) / a22;
    if (!(Math.abs(excess) > LEAST_EXCESS)) return;
    const perExcess = 1 / excess;
    last.excess = excess;
    last.far = bounded((far - room) * perExcess);
    last.farGrowth = 1 - own * firstSlope + other * secondSlope - last.far;
    last.near = bounded((near - room - last.nearByPlate * beyond) * perExcess);
    last.nearGrowth = nearGrowth - last.near;
    last.side = bounded((mean - drop * sideFlux - room) * perExcess);
    last.sideGrowth = 1 - drop * sideConductance - last.side;
    last.perKelvin = (given + last.byPlate * beyond) * perExcess;
    last.perKelvinGrowth = this.conductance - last.perKelvin;
  }

  /** Flux over excess, and how the flux rises with it, of the face or the sides last evaluated, W/(m2 K). */
  private chord = 0;
  private slope = 0;

  private evaluateFar(far: number): void {
    const { surroundings: room, farFaceUp, emissivity } = this.body;
    const { air, length } = this;
    stillAir(far, room, air);
    const free = farFaceUp === far >= room;
    const convection = free ? freeFaceCoefficient(air, length) : trappedFaceCoefficient(air, this.trapped);
    const black = emissivity * STEFAN_BOLTZMANN;
    this.chord = convection + black * (far + room) * (far * far + room * room);
    this.slope = convection * (free ? FREE : TRAPPED) + 4 * black * far * far * far;
  }

  private evaluateNear(near: number, plate: number): void {
    const { surroundings: room, farFaceUp, filling } = this.body;
    const { air, length, temperatures, exchange } = this;
    stillAir(near, room, air);
    const trapped = farFaceUp === near >= room;
    const open = trapped ? trappedFaceCoefficient(air, this.trapped) : freeFaceCoefficient(air, length);
    stillAir(near, plate, air);
    temperatures.face = near;
    temperatures.plate = plate;
    temperatures.room = room;
    gapExchange(filling, air, open, this.body, temperatures, exchange);
  }

  private evaluateSide(side: number): void {
    const { surroundings: room, height } = this.body;
    const { air } = this;
    stillAir(side, room, air);
    const convection = verticalCoefficient(air, height);
    const black = this.sideRadiating * STEFAN_BOLTZMANN;
    this.chord = convection + black * (side + room) * (side * side + room * room);
    this.slope = convection * VERTICAL + 4 * black * side * side * side;
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

  /** What was last evaluated, a little hotter, K. */
  shift(more: number): void {
    this.mean += more;
    this.far += more;
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

/** Coefficient of a usual face, W/(m2 K), and conductivity of warm air, W/(m K): where a winding is first looked at. */
const USUAL = 11;
/** How it grows with the rise of the face, K, and how often that is looked at. */
const COLD = 0.9;
const DOUBLED = 170;
const PRESUMPTIONS = 2;
const MOST_PRESUMED = 900;
const USUAL_AIR = 0.03;

/** A flux that grows with a power of the excess has this times the slope of its chord: 5/4, 6/5, about 9/7. */
const FREE = 1.25;
const TRAPPED = 1.2;
const VERTICAL = 1.28;

/** Nearer to the room's temperature than this no fractions are computed, K. */
const LEAST_EXCESS = 0.1;

function bounded(value: number): number {
  return Math.min(MOST_FRACTION, Math.max(-MOST_FRACTION, value));
}

/** A face may be hotter than the mean, beside a hot plate. */
const MOST_FRACTION = 3;

/** From the last evaluation: temperatures over the room's as fractions of the mean's, and what was given off. */
interface LastEvaluation {
  /** Of the mean over the room, K. */
  excess: number;
  far: number;
  farGrowth: number;
  near: number;
  nearGrowth: number;
  /** Of the plate's. */
  nearByPlate: number;
  side: number;
  sideGrowth: number;
  /** W/K: given off per kelvin of the mean, and less of it per kelvin of the plate. */
  perKelvin: number;
  perKelvinGrowth: number;
  byPlate: number;
  /** What the sides take more of where it is hotter, W/(m K). */
  bySides: number;
}

function noEvaluation(): LastEvaluation {
  return {
    excess: 0,
    far: 1,
    farGrowth: 0,
    near: 1,
    nearGrowth: 0,
    nearByPlate: 0,
    side: 1,
    sideGrowth: 0,
    perKelvin: 0,
    perKelvinGrowth: 0,
    byPlate: 0,
    bySides: 0,
  };
}

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
