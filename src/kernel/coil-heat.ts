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
import { boreRadiatingArea, facingEmissivity, radiantFlux } from './radiation.ts';
import { LEAST_RESISTIVITY_RATIO } from './resistivity.ts';

/** Emissivity of varnished or enamelled wire: 0.8 to 0.95 (Incropera, table A.11, from memory). */
export const WINDING_EMISSIVITY = 0.9;

/** At a smaller gap, m, the plate-side face counts as covered (contract). */
export const OPEN_GAP = 5e-3;

/** No winding is followed hotter than this, K: copper melts at 1358 K, aluminium at 933 K. */
export const HOTTEST = 1500;

/** A winding as one body at its mean temperature: lengths m, temperatures K. */
export interface WindingBody {
  innerRadius: number;
  outerRadius: number;
  height: number;
  /** True when the face away from the plate looks up (the coil lies over the plate). */
  farFaceUp: boolean;
  gap: number;
  emissivity: number;
  plateEmissivity: number;
  plateTemperature: number;
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
 * Lumped heating of a winding:
 *   C dT/dt = dcLoss r(T) + acLoss / r(T) - shed(T),  r = rho(T) / rho20,
 * with natural convection and radiation from the far annulus and both cylinders, and where the gap exceeds 5 mm from
 * the plate-side annulus to the plate at its temperature. The bore radiates through its two mouths as to open room;
 * the plate side exchanges heat by radiation between facing annuli and by the larger of conduction across the gap and
 * free convection from an open face.
 *
 * Mean winding temperature: a hot spot inside a thick winding is hotter. Resistivity is not followed below a tenth
 * of its value at 20 degC (only a large negative coefficient gets there).
 * Accuracy: that of the correlations (see convection): 10 to 20 % of a temperature rise. Numerically 1e-6.
 */
export class WindingHeat {
  private readonly bracket: Bracket = { low: 0, high: 0, fLow: 0, fHigh: 0 };
  private body: WindingBody = NOBODY;
  private coldPlate = false;
  /** Areas, m2: an annulus, both cylinders, and what radiates to the room, times its emissivity. */
  private face = 0;
  private sides = 0;
  private radiating = 0;
  /** Area over perimeter of an annulus, m. */
  private length = 0;
  private facing = 0;
  private readonly air: StillAir = { conductivity: 0, rayleighPerCube: 0, vertical: 0 };
  // bound once: nothing is allocated per design
  private readonly net = (temperature: number) => this.loss(temperature) - this.shed(temperature);
  private readonly warming = (temperature: number) => this.net(temperature) / this.body.heatCapacity;
  private readonly cooling = (temperature: number) => -this.shed(temperature) / this.body.heatCapacity;

  /** The body asked about from now on; read at once and at every later question, not copied. */
  prepare(body: WindingBody): void {
    this.body = body;
    this.coldPlate = false;
    const { innerRadius: r1, outerRadius: r2, height: h, emissivity } = body;
    this.face = Math.PI * (r2 - r1) * (r2 + r1);
    this.sides = 2 * Math.PI * (r2 + r1) * h;
    this.length = (r2 - r1) / 2;
    this.radiating = emissivity * (this.face + 2 * Math.PI * r2 * h) + boreRadiatingArea(r1, h, emissivity);
    this.facing = facingEmissivity(body.emissivity, body.plateEmissivity);
  }

  /** Loss at a winding temperature in K, W. */
  loss(temperature: number): number {
    const { dcLoss, acLoss, temperatureCoefficient } = this.body;
    const ratio = Math.max(
      LEAST_RESISTIVITY_RATIO,
      1 + temperatureCoefficient * (temperature - REFERENCE_TEMPERATURE),
    );
    return dcLoss * ratio + acLoss / ratio;
  }

  /** Heat given off at a winding temperature in K, W; negative where it takes heat up. */
  shed(temperature: number): number {
    const { height: h, surroundings, gap } = this.body;
    const { air, face, length } = this;
    const excess = temperature - surroundings;
    stillAir(temperature, surroundings, air);
    const free = this.body.farFaceUp === excess >= 0;
    const far = free ? freeFaceCoefficient(air, length) : trappedFaceCoefficient(air, length);
    const sides = verticalCoefficient(air, h) * this.sides;
    let heat = (far * face + sides) * excess + radiantFlux(temperature, surroundings, 1) * this.radiating;
    if (gap > OPEN_GAP) {
      const plate = this.coldPlate ? surroundings : this.body.plateTemperature;
      const hotter = temperature - plate;
      stillAir(temperature, plate, air);
      const near =
        this.body.farFaceUp === hotter >= 0
          ? trappedFaceCoefficient(air, length)
          : freeFaceCoefficient(air, length);
      heat +=
        face *
        (Math.max(near, air.conductivity / gap) * hotter + radiantFlux(temperature, plate, this.facing));
    }
    return heat;
  }

  /**
   * Steady temperature, K, with the current held; NaN when there is none up to `ceiling` (K; the conductor's melting
   * point, at most HOTTEST): the loss outruns the cooling.
   */
  steadyTemperature(ceiling: number): number {
    const { surroundings, plateTemperature } = this.body;
    const low = Math.min(surroundings, plateTemperature);
    const { bracket } = this;
    bracket.low = low;
    bracket.high = ceiling;
    bracket.fLow = this.net(low);
    bracket.fHigh = this.net(ceiling);
    if (bracket.fHigh > 0) return Number.NaN;
    const trial = low + Math.min(TRIAL, (ceiling - low) / 2);
    return fallingRoot(this.net, bracket, trial, CLOSE);
  }

  /**
   * Permitted on-time, s: from the surroundings' temperature to `limit` (K) with the current held; Infinity when it
   * is never reached (a plate colder than the room may keep the winding below the room's temperature), 0 when the
   * surroundings are no cooler.
   * @param steady steadyTemperature, NaN when there is none below `ceiling`
   */
  onTime(limit: number, steady: number, ceiling: number): number {
    const { surroundings } = this.body;
    if (limit <= surroundings) return 0;
    if (steady <= surroundings) return Number.POSITIVE_INFINITY;
    const rest = Number.isNaN(steady) ? 2 * Math.max(ceiling, limit) : steady;
    return relaxationTime(this.warming, surroundings, limit, rest);
  }

  /**
   * Time to cool from one temperature to another, K, s, with the current off and the plate at the surroundings'
   * temperature; Infinity when `to` is not above the surroundings, 0 when there is nothing to cool.
   */
  coolDownTime(from: number, to: number): number {
    if (from <= to) return 0;
    this.coldPlate = true;
    const time = relaxationTime(this.cooling, from, to, this.body.surroundings);
    this.coldPlate = false;
    return time;
  }
}

/**
 * The search for the steady temperature begins this far above the surroundings, K, and ends with a step no longer than
 * that: an error below 1e-6 K (it is 1e-9 K at usual rises).
 */
const TRIAL = 60;
const CLOSE = 1e-5;

const NOBODY: WindingBody = {
  innerRadius: 0,
  outerRadius: 0,
  height: 0,
  farFaceUp: true,
  gap: 0,
  emissivity: 0,
  plateEmissivity: 0,
  plateTemperature: 0,
  surroundings: 0,
  heatCapacity: 0,
  dcLoss: 0,
  acLoss: 0,
  temperatureCoefficient: 0,
};
