import { type Bracket, fallingRoot } from '../math/falling-root.ts';
import { relaxationTime } from '../math/relaxation-time.ts';
import {
  freeFaceCoefficient,
  type StillAir,
  stillAir,
  trappedFaceCoefficient,
  verticalCoefficient,
} from './convection.ts';
import { radiantFlux } from './radiation.ts';

/** Emissivity of a bare metal plate by kind (makers' tables of infrared instruments; anodised: from memory). */
export const PLATE_EMISSIVITY = Object.freeze({
  aluminium: 0.09,
  'anodised aluminium': 0.82,
  copper: 0.05,
  brass: 0.22,
  // bare steel sheet, 0.2 to 0.3 (from memory)
  steel: 0.28,
});

/** Specific heat of water, mean of 20 to 90 degC, J/(kg K): (376.9 - 83.9) kJ/kg over 70 K (steam tables, from memory). */
export const WATER_SPECIFIC_HEAT = 4186;

/** Where the plate's temperature is asked for, 60 degC, K. */
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
 * the coil, the rim, and the far face where it is open. The coil's shadow on the plate is not taken off: near a
 * coil that covers much of it, the plate gets hotter than this. The spot under the coil is hotter than the mean.
 * Accuracy: that of the correlations (see convection). Numerically 1e-6.
 */
export class PlateHeat {
  private readonly bracket: Bracket = { low: 0, high: HOTTEST_PLATE, fLow: 0, fHigh: 0 };
  private body: PlateBody = NOBODY;
  private readonly air: StillAir = { conductivity: 0, rayleighPerCube: 0, vertical: 0 };
  private readonly net = (temperature: number) => this.body.loss - this.shed(temperature);
  private readonly warming = (temperature: number) => this.net(temperature) / this.body.heatCapacity;

  /** The body asked about from now on; not copied. */
  prepare(body: PlateBody): void {
    this.body = body;
  }

  /** Heat given off at a plate temperature in K, W. */
  shed(temperature: number): number {
    const { radius, innerRadius, thickness, coilFaceUp, farFaceOpen, emissivity, surroundings } = this.body;
    const { air } = this;
    const face = Math.PI * (radius * radius - innerRadius * innerRadius);
    const rim = 2 * Math.PI * (radius + innerRadius) * thickness;
    const excess = temperature - surroundings;
    stillAir(temperature, surroundings, air);
    // area over perimeter of a disc or ring
    const length = (radius - innerRadius) / 2;
    const upIsFree = excess >= 0;
    let perKelvin = verticalCoefficient(air, thickness) * rim;
    if (farFaceOpen)
      perKelvin += (freeFaceCoefficient(air, length) + trappedFaceCoefficient(air, length)) * face;
    else if (coilFaceUp === upIsFree) perKelvin += freeFaceCoefficient(air, length) * face;
    else perKelvin += trappedFaceCoefficient(air, length) * face;
    const radiating = rim + (farFaceOpen ? 2 : 1) * face;
    return perKelvin * excess + radiating * radiantFlux(temperature, surroundings, emissivity);
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

  /**
   * Time from the surroundings' temperature to `target`, K, s; Infinity when it is never reached, 0 when the
   * surroundings are no cooler.
   * @param steady steadyTemperature
   */
  timeTo(target: number, steady: number): number {
    const { surroundings } = this.body;
    if (target <= surroundings) return 0;
    const rest = Number.isNaN(steady) ? 2 * HOTTEST_PLATE : steady;
    return relaxationTime(this.warming, surroundings, target, rest);
  }

  /**
   * Time to warm a load that keeps the plate's temperature (water in a pan), s: (load + plate) heated from `from` to
   * `to` by the loss less what the plate sheds on the way; evaporation, lid and walls of the vessel are left out.
   * Infinity when the plate sheds its loss before `to`, 0 when there is nothing to warm.
   * @param loadCapacity mass x specific heat, J/K
   * @param steady steadyTemperature
   */
  loadHeatingTime(loadCapacity: number, from: number, to: number, steady: number): number {
    if (to <= from) return 0;
    const rest = Number.isNaN(steady) ? 2 * HOTTEST_PLATE : steady;
    if (from >= rest) return Number.POSITIVE_INFINITY;
    const { heatCapacity } = this.body;
    return ((heatCapacity + loadCapacity) / heatCapacity) * relaxationTime(this.warming, from, to, rest);
  }
}

/**
 * Time to warm a load without losses, s: capacity (J/K) x rise / loss (W): what a rig without a plate radius can say,
 * an ideal that a lidded pan comes within about a tenth of.
 */
export function idealHeatingTime(capacity: number, from: number, to: number, loss: number): number {
  if (to <= from) return 0;
  return loss > 0 ? (capacity * (to - from)) / loss : Number.POSITIVE_INFINITY;
}

/**
 * The search for the steady temperature begins this far above the surroundings, K, and ends with a step no longer than
 * that: an error below 1e-6 K (it is 1e-9 K at usual rises).
 */
const TRIAL = 60;
const CLOSE = 1e-5;

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
