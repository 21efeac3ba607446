import { type Bracket, fallingRoot } from '../math/falling-root.ts';
import { relaxationTime } from '../math/relaxation-time.ts';
import {
  airAtSurface,
  createStillAir,
  createSurfaces,
  fillSurfaces,
  freeFace,
  trappedFace,
  uprightSide,
} from './convection.ts';
import { STEFAN_BOLTZMANN } from './radiation.ts';
import { type Vessel, vesselLoss } from './vessel-heat.ts';

/** Emissivity of a bare metal plate by kind (makers' tables of infrared instruments; anodised: from memory). */
export const PLATE_EMISSIVITY = Object.freeze({
  aluminium: 0.09,
  'anodised aluminium': 0.82,
  copper: 0.05,
  brass: 0.22,
  // bare steel sheet, 0.2 to 0.3 (from memory)
  steel: 0.28,
});

/** Where the plate's temperature is of interest, 60 degC, K. */
export const SIXTY_CELSIUS = 333.15;

/** No plate is followed hotter than this, K. */
export const HOTTEST_PLATE = 1500;

/** A disc plate as one body at its mean temperature: lengths m, temperatures K. */
export interface PlateBody {
  radius: number;
  /** Radius of the hole; 0 without. */
  innerRadius: number;
  thickness: number;
  /** True when the face toward the coil looks up (the coil lies over the plate). */
  coilFaceUp: boolean;
  /** The far face gives off heat too; false: it is insulated. */
  farFaceOpen: boolean;
  emissivity: number;
  surroundings: number;
  /** J/K. */
  heatCapacity: number;
  /** W, held. */
  loss: number;
}

/** What lies over the plate's face toward the coil: area m2, and the shares of it that air and the room's view reach. */
export interface PlateCover {
  area: number;
  open: number;
  sees: number;
}

/** Heat capacity of a disc, J/K: sum over its layers of density x specific heat x thickness x pi (R^2 - r^2). */
export function discHeatCapacity(
  layers: readonly { density: number; specificHeat: number; thickness: number }[],
  layerCount: number,
  radius: number,
  innerRadius: number,
): number {
  let perArea = 0;
  for (let j = 0; j < layerCount; j++) {
    const { density, specificHeat, thickness } = layers[j]!;
    perArea += density * specificHeat * thickness;
  }
  return perArea * Math.PI * (radius * radius - innerRadius * innerRadius);
}

/**
 * Lumped heating of a disc plate: C dT/dt = loss - shed(T), with natural convection and radiation from the face toward
 * the coil, as far as the coil leaves it free, the rim, and the far face where it is open. What the coil gives it is the
 * caller's (rig-heat). A vessel of water on it takes the far face's place. The spot under the coil is hotter than the mean.
 * Accuracy: that of the correlations (see convection). Numerically 1e-6, times 4e-4.
 */
export class PlateHeat {
  private readonly bracket: Bracket = { low: 0, high: HOTTEST_PLATE, fLow: 0, fHigh: 0 };
  private body: PlateBody = NOBODY;
  /** How what was last asked for rises per kelvin, W/K. */
  conductance = 0.5;
  /** K, where it is evaluated. */
  temperature = 0.5;
  /** W at the temperature last evaluated. */
  power = 0.5;
  private rise = 0.5;
  readonly cover: PlateCover = { area: 0, open: 1, sees: 1 };
  /** What stands on it; null: nothing. */
  vessel: Vessel | null = null;
  private readonly air = createStillAir();
  private readonly surfaces = createSurfaces();
  /** m2. */
  private face = 0;
  private rim = 0;
  private readonly net = (temperature: number) => this.body.loss - this.shed(temperature);
  private readonly warming = (temperature: number) => this.net(temperature) / this.body.heatCapacity;

  /** The body evaluated from now on; not copied. */
  prepare(body: PlateBody): void {
    this.body = body;
    const { radius, innerRadius, thickness } = body;
    this.face = Math.PI * (radius * radius - innerRadius * innerRadius);
    this.rim = 2 * Math.PI * (radius + innerRadius) * thickness;
    fillSurfaces(body.surroundings, (radius - innerRadius) / 2, thickness, this.surfaces);
    this.vessel = null;
    this.cover.area = 0;
  }

  /** With what stands on it, J/K. */
  get capacity(): number {
    return this.body.heatCapacity + (this.vessel === null ? 0 : this.vessel.capacity);
  }

  get loss(): number {
    return this.body.loss;
  }

  get surroundings(): number {
    return this.body.surroundings;
  }

  /** W/K: what such a plate gives off per kelvin, roughly. */
  get usualConductance(): number {
    return USUAL * this.face;
  }

  /** Heat given off at a plate temperature in K, W. */
  shed(temperature: number): number {
    this.temperature = temperature;
    this.evaluate();
    return this.power;
  }

  /** Heat given off at `temperature`, and how it rises. */
  evaluate(): void {
    const { coilFaceUp, farFaceOpen, emissivity } = this.body;
    const { temperature, cover, vessel, face, rim, surfaces } = this;
    const { room } = surfaces;
    const excess = temperature - room;
    surfaces.surface = temperature;
    airAtSurface(surfaces);
    const isFree = coilFaceUp === excess >= 0;
    uprightSide(surfaces);
    let perKelvin = surfaces.chord * rim;
    let slope = surfaces.slope * rim;
    const convecting = face - cover.area * (1 - cover.open);
    if (isFree) freeFace(surfaces);
    else trappedFace(surfaces);
    perKelvin += surfaces.chord * convecting;
    slope += surfaces.slope * convecting;
    if (farFaceOpen) {
      if (isFree) trappedFace(surfaces);
      else freeFace(surfaces);
      perKelvin += surfaces.chord * face;
      slope += surfaces.slope * face;
    }
    const black =
      STEFAN_BOLTZMANN * emissivity * (rim + (farFaceOpen ? 2 : 1) * face - cover.area * (1 - cover.sees));
    const square = temperature * temperature;
    this.conductance = slope + 4 * black * square * temperature;
    this.rise = excess;
    this.power = excess * (perKelvin + black * (temperature + room) * (square + room * room));
    if (vessel !== null) this.addVessel(vessel);
  }

  private addVessel(vessel: Vessel): void {
    const { temperature, air, surfaces } = this;
    const lost = vesselLoss(vessel, temperature, surfaces.room, air);
    this.conductance += vesselLoss(vessel, temperature + 1, surfaces.room, air) - lost;
    this.power += lost;
  }

  /** How the conductance rises with the temperature last asked for, W/K2: as that of a power of the excess. */
  get curvature(): number {
    return this.power > 0
      ? (this.conductance * (this.conductance * this.rise - this.power)) / (this.power * this.rise)
      : 0;
  }

  /** Steady temperature, K; NaN when there is none below HOTTEST_PLATE. */
  steadyTemperature(): number {
    const { surroundings } = this.body;
    const { bracket } = this;
    bracket.low = surroundings;
    bracket.fHigh = this.net(HOTTEST_PLATE);
    if (bracket.fHigh > 0) return Number.NaN;
    bracket.fLow = this.net(surroundings);
    return fallingRoot(this.net, bracket, surroundings + TRIAL, CLOSE);
  }

  /** Time from the surroundings' temperature to `target`, K, s; Infinity when it is never reached, 0 when they are no cooler. */
  timeTo(target: number): number {
    const { surroundings } = this.body;
    if (target <= surroundings) return 0;
    const left = this.net(target);
    if (!(left > 0)) return Number.POSITIVE_INFINITY;
    // losses bend upward: along the tangent the rest point lies a little beyond the true one
    return relaxationTime(this.warming, surroundings, target, target + left / this.conductance);
  }
}

/**
 * The search for the steady temperature begins this far above the surroundings, K, and ends with a step no longer than
 * that: an error below 1e-6 K (it is 1e-9 K at usual rises).
 */
const TRIAL = 60;
const CLOSE = 1e-5;

/** W/(m2 K) of a bright plate's one face. */
const USUAL = 6;

const NOBODY: PlateBody = {
  radius: 0,
  innerRadius: 0,
  thickness: 0,
  coilFaceUp: true,
  farFaceOpen: false,
  emissivity: 0,
  surroundings: 0,
  heatCapacity: 0,
  loss: 0,
};
