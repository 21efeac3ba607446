import { DiscCoupling } from '../kernel/disc/disc-coupling.ts';
import { addDiscField } from '../kernel/disc/disc-field.ts';
import { SplitCoupling } from '../kernel/disc/split-coupling.ts';
import { SplitResponse } from '../kernel/disc/split-response.ts';
import { createFieldPhasors, type FieldGrid, type FieldPhasors } from '../kernel/field-grid.ts';
import type { GapCoupling } from '../kernel/gap-coupling.ts';
import type { GapResponse } from '../kernel/gap-response.ts';
import { type CoupledModes, createCoupledModes } from '../kernel/motion/coupled-modes.ts';
import { PlateCoupling } from '../kernel/plate-coupling.ts';
import type { PlateLayer } from '../kernel/plate-reflection.ts';
import { DiscGeometry } from '../kernel/steel/disc-geometry.ts';
import { MagneticDisc } from '../kernel/steel/magnetic-disc.ts';
import { addWideField } from '../kernel/wide-field.ts';
import type { CoilAt } from '../kernel/wide-plate-heat.ts';
import { SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { DiscPlates, type KeptModes } from './disc-plates.ts';
import { type Geometry, highestOver, MAGNETIC } from './geometry.ts';
import type { RigState } from './state.ts';
import { WidePlate } from './wide-plate.ts';

/** Gaps up to this many outer radii are resolved from the start; a rig that floats higher is evaluated again. */
const USUAL_REACH = 2.5;

/** Codes of `plate_model`. */
export const PLATE_MODEL = Object.freeze({ wide: 0, disc: 1 });

/** Coil and plate of rigs near one design, interpolated (see NearRigs). */
export interface Interpolated {
  readonly coupling: GapCoupling & { readonly farthest: number };
  readonly freeInductance: number;
  /** Takes the rig in hand. */
  at(rig: RigState): void;
  meanSquareField: WidePlate['meanSquareField'];
}

/** The coil of the design in hand over its plate: wide, a finite disc, or a disc whose fine structure is the wide plate's. */
export class CoilOverPlate {
  /**
   * Prepared in either case: the free inductance and the field inside the winding come from it.
   */
  readonly wide = new WidePlate();
  private readonly discs: DiscPlates;
  private readonly rig: RigState;
  private readonly geometry: Geometry;
  private coupling: GapCoupling | null = null;
  /** The plate with its permeability at low field. */
  private readonly linear = new PlateCoupling();
  private readonly discGeometry = new DiscGeometry();
  private readonly steel = new MagneticDisc(this.wide.coupling, this.discGeometry);
  private readonly linearSteel = new MagneticDisc(this.linear, this.discGeometry);
  /** Where it was last saturated; NaN: not yet. */
  private readonly held = { current: Number.NaN, gap: Number.NaN };
  /** Linear layers in place of the saturated ones. */
  private readonly frozen: PlateLayer[] = [];
  private wideReach = 0;
  /** Takes the place of the exact coil and plate; null: exact. */
  interpolated: Interpolated | null = null;

  constructor(rig: RigState, geometry: Geometry, kept?: KeptModes) {
    this.discs = new DiscPlates(kept);
    this.rig = rig;
    this.geometry = geometry;
  }

  /** Whether the plate's edge is resolved. */
  get isDisc(): boolean {
    return this.geometry.edge && !this.isMagnetic;
  }

  /** Whether it is of a magnetic plate: a correction of the wide one. */
  private get isSteelDisc(): boolean {
    return this.geometry.edge && this.isMagnetic;
  }

  /** Gaps from the standoff to this, m, are resolved from the start. */
  get usualReach(): number {
    const { coil, slots } = this.rig;
    return Math.max(1.5 * slots[SLOT.standoff]!, USUAL_REACH * coil.outerRadius);
  }

  /** The field inside the winding. */
  get inside(): Pick<WidePlate, 'meanSquareField'> {
    return this.interpolated ?? this.wide;
  }

  /** Gaps up to this, m, are resolved now. */
  get reach(): number {
    return this.isDisc ? highestOver(this.rig.coil.outerRadius) : this.wideReach;
  }

  /** Null where the disc cannot be resolved. */
  prepare(): GapCoupling | null {
    this.held.current = Number.NaN;
    this.coupling = this.interpolated === null ? this.choose() : this.interpolate(this.interpolated);
    return this.coupling;
  }

  /** The same without stations. */
  prepareExact(): GapCoupling | null {
    const coupling = this.prepare();
    return coupling === this.wide.stations ? this.wide.coupling : coupling;
  }

  /** Whether a layer of the design in hand saturates. */
  get saturates(): boolean {
    const { layers, layerCount } = this.rig;
    for (let j = 0; j < layerCount; j++) if (layers[j]!.saturation > 0) return true;
    return false;
  }

  /** Layers saturated as they are at a current, A rms, and a gap, m. */
  saturate(current: number, gap: number): GapCoupling {
    const { rig, wide } = this;
    this.held.current = current;
    this.held.gap = gap;
    wide.saturate(rig.coil, rig, current, gap);
    for (let j = 0; j < rig.layerCount; j++) {
      this.frozen[j] ??= { resistivity: 0, relativePermeability: 1, thickness: 0 };
      const layer = this.frozen[j]!;
      const { resistivity, thickness, muRe, muIm } = wide.saturated.layers[j]!;
      layer.resistivity = resistivity;
      layer.thickness = thickness;
      layer.relativePermeability = Math.hypot(muRe, muIm);
    }
    const { muRe, muIm } = wide.saturated.layers[0]!;
    if (this.isSteelDisc) this.steel.fill(muRe, muIm, rig.layers[0]!.resistivity, rig.omega);
    this.coupling = this.isSteelDisc ? this.steel : wide.coupling;
    return this.coupling;
  }

  /** What the plate last saturated is, beside the linear one at the same current and gap. */
  describeSaturation(results: Float64Array): void {
    const { rig, wide, held, coupling } = this;
    if (Number.isNaN(held.current) || coupling === null) return;
    const { saturated } = wide;
    const linear = this.isSteelDisc ? this.linearSteel : this.linear;
    for (let j = rig.layerCount - 1; j >= 0; j--) {
      if (rig.layers[j]!.saturation > 0) results[Q.plate_permeability] = this.frozen[j]!.relativePermeability;
    }
    results[Q.plate_flux_density] = saturated.peakFlux;
    linear.evaluate(rig.gap);
    coupling.evaluate(rig.gap);
    results[Q.linear_loss_ratio] = linear.inductanceIm / coupling.inductanceIm;
    results[Q.linear_lift_ratio] = linear.slopeRe / coupling.slopeRe;
  }

  /** The nodes of a wide plate laid anew, finer at small k, for the few rigs that float very high. */
  prepareWide(farthest: number): void {
    const { rig } = this;
    this.wideReach = farthest;
    this.wide.prepare(rig.coil, rig, rig.slots[SLOT.standoff]!, farthest);
    if (!this.saturates) return;
    this.wide.fillLinear(this.linear);
    // laid anew after it has been saturated
    if (!Number.isNaN(this.held.current)) this.saturate(this.held.current, this.held.gap);
  }

  /** Loss per area of the plate under the design in hand, W/m2. */
  lossDensity(at: CoilAt, radii: Float64Array, out: Float64Array): void {
    const { wide, rig, coupling } = this;
    if (coupling instanceof DiscCoupling) {
      coupling.lossDensity(at.gap, at.current, radii, out);
      return;
    }
    wide.lossDensity(rig.coil, rig, at, radii, out);
    if (!(coupling instanceof SplitCoupling)) return;
    // the wide plate's loss less that of the coarse part alone, and the disc's own in its place
    const { coarse } = coupling;
    const coarsePart = coupling.coarsePart.bind(coupling);
    const part = new Float64Array(radii.length);
    wide.lossDensity(rig.coil, rig, at, radii, part, coarsePart);
    for (let s = 0; s < radii.length; s++) out[s] = out[s]! - part[s]!;
    coarse.lossDensity(at.gap, at.current, radii, part);
    for (let s = 0; s < radii.length; s++) out[s] = Math.max(0, out[s]! + part[s]!);
  }

  /**
   * Flux density in the air and currents in the plate under the design in hand, at the points of a grid. A disc of steel is
   * taken as a wide plate, whose currents end at the rims.
   */
  field(at: CoilAt, grid: FieldGrid): FieldPhasors {
    const { rig, coupling } = this;
    const { coil } = rig;
    const sections = coil.windings.slice(0, coil.count).map(({ section }) => section);
    const disc =
      coupling instanceof SplitCoupling
        ? coupling.coarse
        : coupling instanceof DiscCoupling
          ? coupling
          : null;
    // of a disc the wide plate's answer to what the rims do not feel
    const part = (k: number) =>
      coupling instanceof SplitCoupling ? 1 - coupling.coarsePart(k) : disc === null ? 1 : 0;
    const field = createFieldPhasors(grid);
    const { layerCount, omega } = rig;
    // steel as it is saturated, without the part of its permeability that lags
    const layers = Number.isNaN(this.held.current) ? rig.layers : this.frozen;
    addWideField(sections, { layers, layerCount, omega }, at, grid, part, field);
    if (disc !== null) addDiscField(disc, at, grid, field);
    else this.endAtRims(grid, field);
    return field;
  }

  private endAtRims({ radii, depths }: FieldGrid, { current }: FieldPhasors): void {
    const { slots } = this.rig;
    radii.forEach((radius, p) => {
      // a plate without a radius has no rim
      if (!(radius > slots[SLOT.plateRadius]! || radius < slots[SLOT.plateInnerRadius]!)) return;
      for (let d = 0; d < depths.length; d++) {
        current.re[d * radii.length + p] = 0;
        current.im[d * radii.length + p] = 0;
      }
    });
  }

  /** Coil and plate at one gap and complex frequencies. */
  respond(gap: number): GapResponse {
    const { wide, discs, coupling } = this;
    const { layerCount } = this.rig;
    const layers = Number.isNaN(this.held.current) ? this.rig.layers : this.frozen;
    if (!this.isDisc) return wide.respond(layers, layerCount, gap);
    const response = discs.respond(gap);
    if (!(coupling instanceof SplitCoupling)) return response;
    return new SplitResponse(response, wide.respondFine(layers, layerCount, gap));
  }

  /** The plate's modes as the coil couples to them, for gaps in m; null where it has none that can be resolved. */
  modes(nearest: number, farthest: number): CoupledModes | null {
    const { discs, wide, rig } = this;
    if (this.isMagnetic || this.coupling instanceof SplitCoupling) return null;
    if (!this.isDisc) return wide.modes(rig, rig.coil.outerRadius, nearest, farthest);
    const modes = discs.modes();
    if (modes === null) return null;
    return createCoupledModes(modes, wide.sectionsOf(rig.coil), rig.omega, nearest, farthest);
  }

  /** Over a non-magnetic plate that covers the coil; under a smaller disc, or over iron, lift may first rise. */
  get liftFallsWithGap(): boolean {
    const { coil, slots } = this.rig;
    return !this.isMagnetic && (!this.isDisc || slots[SLOT.plateRadius]! >= coil.outerRadius);
  }

  private get isMagnetic(): boolean {
    const { layers, layerCount } = this.rig;
    for (let j = 0; j < layerCount; j++) if (layers[j]!.relativePermeability > MAGNETIC) return true;
    return false;
  }

  /** The disc with its permeability at low field. */
  private chooseSteelDisc(): GapCoupling {
    const { rig, wide, steel, linearSteel } = this;
    const { resistivity, relativePermeability: mu, thickness } = rig.layers[0]!;
    const sections = wide.sectionsOf(rig.coil);
    this.discGeometry.prepare(sections, rig.coil.outerRadius, rig.slots[SLOT.plateRadius]!, thickness);
    steel.fill(mu, 0, resistivity, rig.omega);
    if (this.saturates) linearSteel.fill(mu, 0, resistivity, rig.omega);
    return steel;
  }

  private interpolate(near: Interpolated): GapCoupling {
    const { rig } = this;
    near.at(rig);
    rig.freeInductance = near.freeInductance;
    rig.results[Q.plate_model] = this.geometry.edge ? PLATE_MODEL.disc : PLATE_MODEL.wide;
    return near.coupling;
  }

  private choose(): GapCoupling | null {
    const { rig, wide } = this;
    const { slots } = rig;
    this.prepareWide(this.usualReach);
    rig.freeInductance = wide.freeInductance;
    rig.results[Q.plate_model] = this.geometry.edge ? PLATE_MODEL.disc : PLATE_MODEL.wide;
    if (this.isSteelDisc) return this.chooseSteelDisc();
    if (!this.isDisc) return wide.stations.active ? wide.stations : wide.coupling;
    const hole = slots[SLOT.plateInnerRadius]!;
    const inner = Number.isNaN(hole) ? 0 : hole;
    const disc = this.discs.prepare(rig.coil, rig, slots[SLOT.plateRadius]!, inner, slots[SLOT.standoff]!);
    return disc === null || disc.cut === Number.POSITIVE_INFINITY ? disc : wide.split(disc);
  }
}
