/**
 * A winding's heat as docs/heat.md states it, each face iterated until nothing changes: the second method of the heat laws.
 * Past 300 lines: the laws of one winding, of which each needs those above it.
 */

import { type Air, airProperties } from '../../../src/kernel/air.ts';
import type { WindingBody } from '../../../src/kernel/coil-heat.ts';
import { boreRadiatingArea, facingEmissivity, STEFAN_BOLTZMANN } from '../../../src/kernel/radiation.ts';

/** Flux over excess of natural convection, W/(m2 K), by the correlations that kernel/convection.ts states, with powers. */
export function convection(
  kind: 'free' | 'trapped' | 'upright',
  length: number,
  surface: number,
  room: number,
): number {
  const { conductivity, buoyancy, prandtl } = airAt((surface + room) / 2);
  const rayleigh = 9.80665 * buoyancy * Math.abs(surface - room) * length ** 3;
  let nusselt: number;
  if (kind === 'free') nusselt = Math.max(0.54 * rayleigh ** 0.25, 0.15 * Math.cbrt(rayleigh));
  else if (kind === 'trapped') nusselt = 0.52 * rayleigh ** 0.2;
  else {
    const shape = (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27);
    nusselt = (0.825 + (0.387 * rayleigh ** (1 / 6)) / shape) ** 2;
  }
  return (conductivity * nusselt) / length;
}

const air: Air = { conductivity: 0, buoyancy: 0, prandtl: 0 };

/** Properties are known from 100 to 2000 K. */
function airAt(film: number): Air {
  airProperties(Math.min(2000, Math.max(100, film)), air);
  return air;
}

export function radiation(one: number, other: number): number {
  return STEFAN_BOLTZMANN * (one ** 4 - other ** 4);
}

/** What a winding does at a mean temperature and one of the plate, K, W. */
export interface WindingState {
  made: number;
  toRoom: number;
  toPlate: number;
  hottest: number;
  far: number;
  plateOpen: number;
  plateSees: number;
}

/** How a winding is looked at: its current is on; its mean may change. */
export interface WindingMode {
  readonly powered: boolean;
  readonly warming: boolean;
}

/**
 * A winding's heat by the definitions of docs/decisions/heat.md and the doc blocks of kernel/coil-heat, section-conduction,
 * gap-exchange, radiation: temperatures of faces and sides iterated until nothing changes, each for itself, with slopes
 * by differences. Nothing of an earlier evaluation counts, but as a start.
 */
export class WindingByDefinition {
  readonly state: WindingState = {
    made: 0,
    toRoom: 0,
    toPlate: 0,
    hottest: 0,
    far: 0,
    plateOpen: 0,
    plateSees: 0,
  };
  /** Evaluations that did not come to rest. */
  unsettled = 0;
  private readonly body: WindingBody;
  private readonly face: number;
  private readonly sides: number;
  private readonly seen: number;
  private readonly leaving: number;
  private readonly facing: number;
  /** Temperatures, K, and bends: kept as a start. */
  private far = Number.NaN;
  private near = 0;
  private side = 0;
  private along = 0;
  private across = 0;

  constructor(body: WindingBody) {
    this.body = body;
    const { innerRadius: r1, outerRadius: r2, height: h, emissivity, filling } = body;
    this.face = Math.PI * (r2 * r2 - r1 * r1);
    this.sides = 2 * Math.PI * (r1 + r2) * h;
    this.seen = (emissivity * 2 * Math.PI * r2 * h + boreRadiatingArea(r1, h, emissivity)) / this.sides;
    // view factor of equal coaxial discs
    const x = 2 + (filling.air / r2) ** 2;
    this.leaving = filling.air > 0 ? 1 - (x - Math.sqrt(x * x - 4)) / 2 : 0;
    this.facing = facingEmissivity(emissivity, filling.sheet > 0 ? 0.9 : body.plateEmissivity);
  }

  private farFlux(surface: number): number {
    const { body } = this;
    const room = body.surroundings;
    const kind = body.farFaceUp === surface >= room ? 'free' : 'trapped';
    const length = (body.outerRadius - body.innerRadius) / 2;
    return (
      convection(kind, length, surface, room) * (surface - room) + body.emissivity * radiation(surface, room)
    );
  }

  private sideFlux(surface: number): number {
    const { body } = this;
    const room = body.surroundings;
    return (
      convection('upright', body.height, surface, room) * (surface - room) +
      this.seen * radiation(surface, room)
    );
  }

  /** To the plate, and to the room, W/m2. */
  private nearFluxes(
    surface: number,
    plate: number,
    out: { plate: number; room: number; open: number },
  ): void {
    const { body, leaving, facing } = this;
    const room = body.surroundings;
    const { air: gap, sheet, sheetConductivity, overlap } = body.filling;
    const kind = body.farFaceUp === surface >= room ? 'trapped' : 'free';
    const open = convection(kind, (body.outerRadius - body.innerRadius) / 2, surface, room);
    const black = body.emissivity * radiation(surface, room);
    const free = open * (surface - room) + black;
    const under = sheet > 0 ? sheet / sheetConductivity : 0;
    if (!(gap > 0)) {
      out.plate = (overlap / under) * (surface - plate);
      out.room = (1 - overlap) * free;
      out.open = 0;
      return;
    }
    const conducted = airAt((surface + plate) / 2).conductivity / gap;
    const joined = Math.cbrt(conducted ** 3 + open ** 3);
    const part = (conducted / joined) ** 3;
    const mutual = STEFAN_BOLTZMANN * (surface + plate) * (surface ** 2 + plate ** 2);
    const direct = part * joined + (1 - leaving) * facing * mutual;
    out.plate = ((overlap * direct) / (1 + direct * under)) * (surface - plate);
    out.room = overlap * ((1 - part) * joined * (surface - room) + leaving * black) + (1 - overlap) * free;
    out.open = 1 - part;
  }

  evaluate(mean: number, plate: number, mode: WindingMode): WindingState {
    const { body, face, sides, state } = this;
    const { innerRadius, outerRadius, height: h, conductivity, surroundings: room } = body;
    const width = outerRadius - innerRadius;
    const volume = face * h;
    const ratio = Math.max(0.1, 1 + body.temperatureCoefficient * (mean - 293.15));
    const made = mode.powered ? body.dcLoss * ratio + body.acLoss / ratio : 0;
    const feedback = mode.powered ? (body.dcLoss * Math.max(0, body.temperatureCoefficient)) / volume : 0;
    if (!(Math.abs(this.far - room) <= 2000)) {
      this.far = (mean + room) / 2;
      this.near = (mean + plate) / 2;
      this.side = (mean + room) / 2;
    }
    const axial = h / conductivity;
    const radial = width / conductivity;
    let first = 0;
    let second = 0;
    let sideways = 0;
    let bentAlong = 0;
    let bentAcross = 0;
    let converged = false;
    let weight = 1;
    for (let n = 0; n < MOST; n++) {
      if (n === 40) weight = 0.4;
      if (n === 150) weight = 0.1;
      const alongFactors = factors(this.along);
      const acrossFactors = factors(this.across);
      const own = axial * alongFactors.own;
      const other = axial * alongFactors.other;
      const drop = radial * (acrossFactors.own - acrossFactors.other);
      // one step of Newton's method for both faces, one for the sides
      const farSlope = slopeOf((x) => this.farFlux(x), this.far);
      const farBefore = this.farFlux(this.far);
      const nearTotal = (x: number) => {
        this.nearFluxes(x, plate, FLUX);
        return FLUX.plate + FLUX.room;
      };
      const nearSlope = slopeOf(nearTotal, this.near);
      const nearBefore = nearTotal(this.near);
      const r1 = this.far - mean + own * farBefore - other * nearBefore;
      const r2 = this.near - mean + own * nearBefore - other * farBefore;
      const a = 1 + own * farSlope;
      const b = -other * nearSlope;
      const c = -other * farSlope;
      const d = 1 + own * nearSlope;
      const determinant = a * d - b * c;
      const farStep = -(d * r1 - b * r2) / determinant;
      const nearStep = -(a * r2 - c * r1) / determinant;
      const sideSlope = slopeOf((x) => this.sideFlux(x), this.side);
      const sideBefore = this.sideFlux(this.side);
      const sideStep = -(this.side - mean + drop * sideBefore) / (1 + drop * sideSlope);
      this.far += limited(farStep, this.far);
      this.near += limited(nearStep, this.near);
      this.side += limited(sideStep, this.side);
      first = this.farFlux(this.far);
      second = nearTotal(this.near);
      const { plate: nearPlate, room: nearRoom, open } = FLUX;
      sideways = this.sideFlux(this.side);
      const given = face * (first + second) + sides * sideways;
      state.toPlate = face * nearPlate;
      state.toRoom = given - state.toPlate;
      state.plateOpen = open;

      // a place's source over that at the mean, W/(m3 K)
      let source = feedback;
      const net = made - given;
      if (mode.warming && net !== 0) source -= net / ((mean - room) * volume);
      const sideChord = chordOf(sideways, this.side - room, sideSlope);
      const bySides = (2 * h * sideChord) / (1 + drop * sideChord);
      bentAlong = (source - bySides / (h * width)) * h * axial;
      const along = clamped(bentAlong);
      // how both fluxes rise with the mean
      const firstSlope = (farSlope * (d - b)) / determinant;
      const secondSlope = (nearSlope * (a - c)) / determinant;
      const farChord = chordOf(first, this.far - room, farSlope);
      const nearChord =
        chordOf(nearPlate, this.near - plate, nearSlope) + chordOf(nearRoom, this.near - room, 0);
      const chords = (farChord + nearChord) / (farSlope + nearSlope);
      const byFaces = width * chords * (firstSlope + secondSlope);
      bentAcross = (source - byFaces / (h * width)) * width * radial;
      const across = clamped(bentAcross);
      const moved =
        Math.abs(along - this.along) / (1 + Math.abs(along)) +
        Math.abs(across - this.across) / (1 + Math.abs(across));
      this.along += weight * (along - this.along);
      this.across += weight * (across - this.across);
      if (moved < CLOSE && Math.abs(farStep) + Math.abs(nearStep) + Math.abs(sideStep) < CLOSE * (mean + 1)) {
        converged = true;
        break;
      }
    }
    if (!converged) this.unsettled++;
    state.made = made;
    state.far = this.far;
    state.plateSees = body.filling.air > 0 ? this.leaving : 0;
    const middle =
      sideways > 0 ? peak(radial * sideways, radial * sideways, bentAcross) : Math.max(0, this.side - mean);
    const top =
      first > 0 && second > 0
        ? peak(axial * first, axial * second, bentAlong)
        : Math.max(0, this.far - mean, this.near - mean);
    const excess = mean - room;
    state.hottest = mean + middle + top * (excess > 0 ? 1 + Math.min(1, middle / excess) : 1);
    return state;
  }
}

const FLUX = { plate: 0, room: 0, open: 0 };
const MOST = 400;
const CLOSE = 1e-9;

function slopeOf(f: (x: number) => number, x: number): number {
  const d = 1e-3;
  return (f(x + d) - f(x - d)) / (2 * d);
}

function chordOf(flux: number, excess: number, slope: number): number {
  return Math.abs(excess) > 1e-9 ? flux / excess : slope;
}

function limited(step: number, at: number): number {
  const most = Math.max(0.5 * at, 1);
  return Math.abs(step) < most ? step : Math.sign(step) * most;
}

/** The domain that kernel/section-conduction.ts states. */
function clamped(bent: number): number {
  return Math.min(2.4, Math.max(-1000, bent));
}

/** c1 and c2 of kernel/section-conduction.ts by their formulas. */
function factors(s: number): { own: number; other: number } {
  if (Math.abs(s) < 1e-3)
    return { own: 1 / 3 + s / 45 + (2 * s * s) / 945, other: 1 / 6 + (7 * s) / 360 + (31 * s * s) / 15120 };
  const x = Math.sqrt(Math.abs(s));
  if (s > 0) return { own: 1 / s - 1 / (x * Math.tan(x)), other: 1 / (x * Math.sin(x)) - 1 / s };
  return { own: 1 / (x * Math.tanh(x)) + 1 / s, other: -1 / s - 1 / (x * Math.sinh(x)) };
}

/**
 * Hottest place over the mean, K, of a slab that both faces cool: its profile T'' = -(q / k) - s (T - mean) over a thickness of 1,
 * sampled, then in thirds. Flat where s is far below zero: not bounded there as the faces are.
 * @param f1, @param f2 flux times h / k, K
 */
function peak(f1: number, f2: number, bent: number): number {
  const at = profile(f1, f2, Math.min(2.4, Math.max(-1e12, bent)));
  const n = 64;
  let best = 0;
  for (let i = 1; i <= n; i++) if (at(i / n) > at(best / n)) best = i;
  if (best === 0 || best === n) return at(best / n);
  let low = (best - 1) / n;
  let high = (best + 1) / n;
  for (let i = 0; i < 40; i++) {
    const a = low + (high - low) / 3;
    const b = high - (high - low) / 3;
    if (at(a) < at(b)) low = a;
    else high = b;
  }
  return at((low + high) / 2);
}

function profile(f1: number, f2: number, s: number): (x: number) => number {
  if (Math.abs(s) < 1e-6) {
    // f1 x - (f1 + f2) x^2 / 2 less its mean
    const mean = f1 / 2 - (f1 + f2) / 6;
    return (x) => f1 * x - ((f1 + f2) * x * x) / 2 - mean;
  }
  const y = Math.sqrt(Math.abs(s));
  if (s > 0) {
    // f1 cos(y (1 - x)) and f2 cos(y x), less the mean of each
    const scale = 1 / (y * Math.sin(y));
    const mean = (scale * (f1 + f2) * Math.sin(y)) / y;
    return (x) => scale * (f1 * Math.cos(y * (1 - x)) + f2 * Math.cos(y * x)) - mean;
  }
  const whole = 1 - Math.exp(-2 * y);
  // cosh(y (1 - x)) / sinh(y)
  const fall = (x: number) => (Math.exp(-y * x) + Math.exp(-y * (2 - x))) / whole;
  const mean = -(f1 + f2) / (y * y);
  return (x) => -(f1 * fall(x) + f2 * fall(1 - x)) / y - mean;
}
