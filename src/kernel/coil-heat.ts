import { type Bracket, fallingRoot } from '../math/falling-root.ts';
import { relaxationTime } from '../math/relaxation-time.ts';
import { REFERENCE_TEMPERATURE } from './constants.ts';
import {
  airAtSurface,
  createSurfaces,
  fillSurfaces,
  freeFace,
  trappedFace,
  uprightSide,
} from './convection.ts';
import {
  createGap,
  type Gap,
  type GapConditions,
  type GapExchange,
  type GapFilling,
  gapExchange,
  prepareGap,
} from './gap-exchange.ts';
import { boreRadiatingArea, STEFAN_BOLTZMANN } from './radiation.ts';
import { LEAST_RESISTIVITY_RATIO } from './resistivity.ts';
import { createFaceFactors, faceFactors, hottestAboveMean } from './section-conduction.ts';

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
  /** How much less it gives off per kelvin of the plate, W/K. */
  plateHelp = 0;
  /** Loss at the mean last evaluated, W, and how it rises with the mean, W/K. */
  made = 0;
  madeSlope = 0;
  readonly exchange: GapExchange = {
    toPlate: 0,
    toRoom: 0,
    plateSlope: 0,
    roomSlope: 0,
    plateFall: 0,
    plateOpen: Number.NaN,
    plateSees: Number.NaN,
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
  /** K, where it is evaluated. */
  mean = 0.5;
  plate = 0.5;
  /** Whether `last` is of this body. */
  private hasLast = false;
  /** W/K, from the plate-side face to the plate, before any evaluation. */
  private presumedExchange = 0;
  private sides = 0;
  private width = 0;
  private volume = 0;
  private perSection = 0;
  /** Emissivity times the Stefan-Boltzmann constant: of the faces, and of the sides as far as they see the room. */
  private black = 0;
  private sideBlack = 0;
  /** K m2/W of the section, along the axis and across the radius, and these times height and width. */
  private axial = 0;
  private radial = 0;
  private stretch = 0;
  private stretchAcross = 0;
  /** How the loss rises with temperature, W/(K m3), and that over the loss at 20 degC. */
  private feedback = 0;
  private feedbackShare = 0;
  private readonly last: LastEvaluation = noEvaluation();
  /** W, given off as the last evaluation has it; W/(K m3), what follows from it. */
  private shedding = 0.5;
  private source = 0.5;
  private first = 0;
  private second = 0;
  private side = 0;
  private twoHeights = 0;
  /** Hottest place over the mean, K, and whether it is that of the last evaluation. */
  private peak = 0.5;
  private hasPeak = false;
  private readonly bracket: Bracket = { low: 0, high: HOTTEST, fLow: 0, fHigh: 0 };
  private readonly surfaces = createSurfaces();
  private readonly gap: Gap = createGap();
  private readonly conditions: GapConditions = {
    face: 0.5,
    plate: 0.5,
    room: 0.5,
    open: 0.5,
    openSlope: 0.5,
  };
  private readonly along = createFaceFactors();
  private readonly across = createFaceFactors();
  // bound once: nothing is allocated per design
  private readonly net = (temperature: number) => {
    this.evaluate(temperature, this.plate);
    return this.made - this.toRoom - this.toPlate;
  };
  private readonly cooling = (temperature: number) => {
    this.evaluate(temperature, this.plate);
    return -(this.toRoom + this.toPlate) / this.body.heatCapacity;
  };

  /** The body in hand from now on; its losses and its gap may change afterwards, its shape not. */
  prepare(body: WindingBody): void {
    this.body = body;
    const { innerRadius: r1, outerRadius: r2, height: h, emissivity, conductivity } = body;
    const width = r2 - r1;
    this.width = width;
    this.face = Math.PI * width * (r2 + r1);
    this.sides = 2 * Math.PI * (r2 + r1) * h;
    this.volume = this.face * h;
    this.perSection = 1 / (h * width);
    this.powered = true;
    this.black = emissivity * STEFAN_BOLTZMANN;
    const seen = (emissivity * 2 * Math.PI * r2 * h + boreRadiatingArea(r1, h, emissivity)) / this.sides;
    this.sideBlack = seen * STEFAN_BOLTZMANN;
    this.axial = h / conductivity;
    this.radial = width / conductivity;
    this.twoHeights = 2 * h;
    this.stretch = h * this.axial;
    this.stretchAcross = width * this.radial;
    this.feedbackShare = Math.max(0, body.temperatureCoefficient) / (Math.PI * (r1 + r2) * h * width);
    fillSurfaces(body.surroundings, width / 2, h, this.surfaces);
    prepareGap(body.filling, body, this.gap);
    this.conditions.room = body.surroundings;
    const { last } = this;
    last.excess = 0;
    last.farGrowth = 0;
    last.nearGrowth = 0;
    last.sideGrowth = 0;
    last.perKelvinGrowth = 0;
    this.hasLast = false;
    this.presume(USUAL);
  }

  /** What an evaluation would find, roughly, if an open face had a coefficient of `each`, W/(m2 K), half of it by radiation. */
  presume(each: number): void {
    const { last, exchange, axial, radial, gap } = this;
    const { overlap, under, leaving } = gap;
    const open = each / 2;
    let toPlate = overlap / under;
    let toRoom = (1 - overlap) * each;
    exchange.plateOpen = 0;
    exchange.plateSees = leaving;
    if (gap.air > 0) {
      const conducted = USUAL_AIR / gap.air;
      const cubes = conducted * conducted * conducted;
      const part = cubes / (cubes + open * open * open);
      const joined = Math.max(conducted, open) * (1 + EQUAL * part * (1 - part));
      const direct = part * joined + gap.facing * CUBES;
      toPlate = (overlap * direct) / (1 + direct * under);
      toRoom += overlap * ((1 - part) * joined + leaving * open);
      exchange.plateOpen = 1 - part;
    }
    // parabolas
    const own = axial / 3;
    const other = axial / 6;
    const a11 = 1 + each * own;
    const near = toPlate + toRoom;
    const a22 = 1 + near * own;
    const cross = each * near * other * other;
    const perDeterminant = 1 / (a11 * a22 - cross);
    const first = each * (a22 + near * other) * perDeterminant;
    const second = near * (a11 + each * other) * perDeterminant;
    const pull = toPlate * perDeterminant;
    last.far = 1 - own * first + other * second;
    last.near = 1 - own * second + other * first;
    last.farByPlate = -pull * other;
    last.nearByPlate = pull * (own * a11 - other * each * other);
    last.side = 1 / (1 + (each * radial) / 12);
    last.drop = radial / 12;
    last.byPlate = this.face * pull * (a11 + each * other);
    last.perKelvin = this.face * (first + second) + this.sides * each * last.side;
    this.presumedExchange = this.face * toPlate;
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
    rise = Math.min(rise, MOST_PRESUMED);
    this.presume(USUAL * (COLD + (last.far * Math.abs(rise)) / DOUBLED));
    rise = (this.loss(surroundings + rise) + last.byPlate * plateRise) / last.perKelvin;
    // good enough for a search that evaluates again
    this.hasLast = true;
    return Math.min(rise, MOST_PRESUMED);
  }

  /** What the plate is given at these rises over the room, K, roughly, W; before any evaluation. */
  presumedToPlate(rise: number, plateRise: number): number {
    const { near, nearByPlate } = this.last;
    return this.presumedExchange * (near * rise + (nearByPlate - 1) * plateRise);
  }

  /** How much less the winding gives off per kelvin of the plate, roughly, W/K; before any evaluation. */
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
    this.mean = mean;
    this.plate = plate;
    this.evaluateHere();
  }

  /** The same at `mean` and `plate`. */
  evaluateHere(): void {
    if (!this.hasLast) this.approach();
    this.approach();
  }

  /** As `evaluate`, but the first time from usual fractions. */
  private approach(): void {
    this.hasLast = true;
    const { mean, plate, axial, radial, along, across, last, exchange, surfaces, black, sideBlack } = this;
    const { conditions } = this;
    const { room } = surfaces;
    const { farFaceUp } = this.body;
    const excess = mean - room;
    const beyond = plate - room;
    // how far from the last excess, as a fraction of the larger one: straight near it, bounded far from it
    const more =
      excess * last.excess > 0
        ? (excess - last.excess) / Math.max(Math.abs(excess), Math.abs(last.excess))
        : 0;
    const farGuess = room + (last.far + last.farGrowth * more) * excess + last.farByPlate * beyond;
    const nearGuess = room + (last.near + last.nearGrowth * more) * excess + last.nearByPlate * beyond;
    const sideGuess = room + (last.side + last.sideGrowth * more) * excess;
    this.evaluateLoss();
    this.shedding = (last.perKelvin + last.perKelvinGrowth * more) * excess - last.byPlate * beyond;
    this.evaluateSource();
    const feedback = this.source;
    const cube = room * room;
    surfaces.surface = farGuess;
    airAtSurface(surfaces);
    if (farFaceUp === farGuess >= room) freeFace(surfaces);
    else trappedFace(surfaces);
    const farChord = surfaces.chord + black * (farGuess + room) * (farGuess * farGuess + cube);
    const farSlope = surfaces.slope + 4 * black * farGuess * farGuess * farGuess;
    surfaces.surface = sideGuess;
    airAtSurface(surfaces);
    uprightSide(surfaces);
    const sideChord = surfaces.chord + sideBlack * (sideGuess + room) * (sideGuess * sideGuess + cube);
    const sideSlope = surfaces.slope + 4 * sideBlack * sideGuess * sideGuess * sideGuess;
    conditions.face = nearGuess;
    this.evaluateNear();
    const nearSlope = exchange.plateSlope + exchange.roomSlope;
    const nearFlux = exchange.toPlate * (nearGuess - plate) + exchange.toRoom * (nearGuess - room);

    // what the sides take more of where it is hotter: by chords, as one place does not change the coefficient of the whole side
    const bySides = (this.twoHeights * sideChord) / (1 + sideChord * last.drop);
    along.bent = (feedback - bySides * this.perSection) * this.stretch;
    faceFactors(along);
    // two faces, each with f along its tangent, below the mean by what both fluxes make
    const own = axial * along.own;
    const other = axial * along.other;
    const a11 = 1 + farSlope * own;
    const a12 = -farSlope * other;
    const a22 = 1 + nearSlope * own;
    const a21 = -nearSlope * other;
    const b1 = farChord * (farGuess - room) + farSlope * (mean - farGuess);
    const b2 = nearFlux + nearSlope * (mean - nearGuess);
    const perDeterminant = 1 / (a11 * a22 - a12 * a21);
    const first = (b1 * a22 - a12 * b2) * perDeterminant;
    const second = (a11 * b2 - a21 * b1) * perDeterminant;
    const far = mean - own * first + other * second;
    const near = mean - own * second + other * first;
    const firstSlope = (farSlope * a22 - a12 * nearSlope) * perDeterminant;
    const secondSlope = (a11 * nearSlope - a21 * farSlope) * perDeterminant;

    // two like sides, and what the faces take more of where it is hotter
    const chords = (farChord + exchange.toPlate + exchange.toRoom) / (farSlope + nearSlope);
    const byFaces = this.width * chords * (firstSlope + secondSlope);
    across.bent = (feedback - byFaces * this.perSection) * this.stretchAcross;
    faceFactors(across);
    const drop = radial * (across.own - across.other);
    const perDrop = 1 / (1 + sideSlope * drop);
    const sideFlux = (sideChord * (sideGuess - room) + sideSlope * (mean - sideGuess)) * perDrop;
    const sideConductance = sideSlope * perDrop;

    const { face } = this;
    const given = face * (first + second) + sideFlux * this.sides;
    const nearGrowth = 1 - own * secondSlope + other * firstSlope;
    // what a kelvin of the plate does
    const pull = exchange.plateFall * perDeterminant;
    const nearByPlate = pull * (own * a11 + other * a12);
    this.toPlate = face * (exchange.toPlate * (nearGuess - plate) + exchange.plateSlope * (near - nearGuess));
    this.toRoom = given - this.toPlate;
    this.plateConductance = face * (exchange.plateFall - exchange.plateSlope * nearByPlate);
    this.plateGrowth = face * exchange.plateSlope * nearGrowth;
    this.plateHelp = face * pull * (a11 - a12);
    this.conductance = face * (firstSlope + secondSlope) + this.sides * sideConductance;
    this.far = far;
    this.first = first;
    this.second = second;
    this.side = sideFlux;
    this.hasPeak = false;

    last.drop = drop;
    last.byPlate = this.plateHelp;
    last.farByPlate = -pull * other;
    last.nearByPlate = nearByPlate;
    if (!(Math.abs(excess) > LEAST_EXCESS)) return;
    const perExcess = 1 / excess;
    last.excess = excess;
    last.far = Math.min(MOST, Math.max(-MOST, (far - room - last.farByPlate * beyond) * perExcess));
    last.farGrowth = 1 - own * firstSlope + other * secondSlope - last.far;
    last.near = Math.min(MOST, Math.max(-MOST, (near - room - last.nearByPlate * beyond) * perExcess));
    last.nearGrowth = nearGrowth - last.near;
    last.side = Math.min(MOST, Math.max(-MOST, (mean - drop * sideFlux - room) * perExcess));
    last.sideGrowth = 1 - drop * sideConductance - last.side;
    last.perKelvin = (given + last.byPlate * beyond) * perExcess;
    last.perKelvinGrowth = this.conductance - last.perKelvin;
  }

  /** How much more arises in a place per kelvin that it is hotter than the mean, W/(K m3). */
  private evaluateSource(): void {
    const net = (this.powered ? this.made : 0) - this.shedding;
    this.source = this.powered ? this.feedback : 0;
    if (!this.warming || net === 0) return;
    // while it warms as a whole its profile grows with it, which takes heat where it grows; at the room's temperature
    // throughout, it warms or cools evenly: infinite
    const excess = this.mean - this.surfaces.room;
    this.source -= excess === 0 ? Number.POSITIVE_INFINITY : net / (excess * this.volume);
  }

  /** The plate-side face at the temperature in `conditions`. */
  private evaluateNear(): void {
    const { body, surfaces, conditions, gap } = this;
    const { face, room } = conditions;
    surfaces.surface = face;
    airAtSurface(surfaces);
    if (body.farFaceUp === face >= room) trappedFace(surfaces);
    else freeFace(surfaces);
    conditions.plate = this.plate;
    conditions.open = surfaces.chord;
    conditions.openSlope = surfaces.slope;
    if (gap.air !== body.filling.air) prepareGap(body.filling, body, gap);
    gapExchange(gap, conditions, this.exchange);
  }

  private evaluateLoss(): void {
    const { dcLoss, acLoss, temperatureCoefficient } = this.body;
    const ratio = 1 + temperatureCoefficient * (this.mean - REFERENCE_TEMPERATURE);
    if (ratio > LEAST_RESISTIVITY_RATIO) {
      const ac = acLoss / ratio;
      this.made = dcLoss * ratio + ac;
      this.madeSlope = temperatureCoefficient * (dcLoss - ac / ratio);
    } else {
      this.made = dcLoss * LEAST_RESISTIVITY_RATIO + acLoss / LEAST_RESISTIVITY_RATIO;
      this.madeSlope = 0;
    }
    this.feedback = dcLoss * this.feedbackShare;
  }

  /** Of the winding as last evaluated, K. */
  get hottest(): number {
    if (!this.hasPeak) this.findPeak();
    return this.mean + this.peak;
  }

  private findPeak(): void {
    const { first, second, side, across, along } = this;
    const middle = hottestAboveMean(side, side, this.radial, across);
    const top = hottestAboveMean(first, second, this.axial, along);
    const excess = this.mean - this.surfaces.room;
    // in the middle of the radius everything exceeds the room by as much more as the mean there does
    const more = excess > 0 ? 1 + Math.min(1, middle / excess) : 1;
    this.peak = middle + top * more;
    this.hasPeak = true;
  }

  /** Heat given off to room and plate at a mean temperature, K, W; negative where it takes heat up. */
  shed(temperature: number, plate: number): number {
    this.evaluate(temperature, plate);
    return this.toRoom + this.toPlate;
  }

  /** How the conductance rises with the mean, W/K2: as that of a power of the excess. */
  get curvature(): number {
    const excess = this.mean - this.body.surroundings;
    const { perKelvin, perKelvinGrowth } = this.last;
    return excess * perKelvin > 0 ? (this.conductance * perKelvinGrowth) / (perKelvin * excess) : 0;
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
    const { surroundings } = this.body;
    // faces that a hot or a cold plate made are a bad start: evaluated twice
    if (Math.abs(this.plate - surroundings) > OTHER_PLATE * (from - surroundings)) this.hasLast = false;
    this.plate = surroundings;
    this.powered = false;
    const time = relaxationTime(this.cooling, from, to, surroundings, true);
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

/** Coefficient of a usual face, W/(m2 K), and conductivity of warm air, W/(m K): where a winding is first looked at. */
const USUAL = 11;
/** How it grows with the rise of the face, K. */
const COLD = 0.9;
const DOUBLED = 170;
const MOST_PRESUMED = 900;
const USUAL_AIR = 0.03;
/** Four times the cube of a usual temperature, K3: radiation per kelvin. */
const CUBES = 4 * 400 ** 3;
/** Two equal coefficients joined by third powers are 2^(1/3) times as large: four times what that adds. */
const EQUAL = 4 * (Math.cbrt(2) - 1);

/** Of the winding's rise over the room: a plate so far from the room counts for its faces. */
const OTHER_PLATE = 0.3;

/** Nearer to the room's temperature than this no fractions are computed, K. */
const LEAST_EXCESS = 0.1;

/** A face may be hotter than the mean, beside a hot plate. */
const MOST = 3;

/** From the last evaluation: temperatures over the room's as fractions of the mean's, and what was given off. */
interface LastEvaluation {
  /** Of the mean over the room, K. */
  excess: number;
  far: number;
  farGrowth: number;
  near: number;
  nearGrowth: number;
  /** Of the plate's. */
  farByPlate: number;
  nearByPlate: number;
  side: number;
  sideGrowth: number;
  /** W/K: given off per kelvin of the mean, and less of it per kelvin of the plate. */
  perKelvin: number;
  perKelvinGrowth: number;
  byPlate: number;
  /** K m2/W: how far the sides lie below the mean. */
  drop: number;
}

function noEvaluation(): LastEvaluation {
  return {
    excess: 0,
    far: 1,
    farGrowth: 0,
    near: 1,
    nearGrowth: 0,
    farByPlate: 0,
    nearByPlate: 0,
    side: 1,
    sideGrowth: 0,
    perKelvin: 0,
    perKelvinGrowth: 0,
    byPlate: 0,
    drop: 0,
  };
}

const NOBODY: WindingBody = {
  innerRadius: 0,
  outerRadius: 0,
  height: 0,
  farFaceUp: true,
  conductivity: 1,
  filling: { sheet: 0, sheetConductivity: 1, air: Number.NaN, overlap: 1 },
  emissivity: 0,
  plateEmissivity: 0,
  surroundings: 0,
  heatCapacity: 0,
  dcLoss: 0,
  acLoss: 0,
  temperatureCoefficient: 0,
};
