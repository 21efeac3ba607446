import { createEdgePair, fillCoaxial } from '../kernel/coaxial-spectrum.ts';
import type { CoilWinding } from '../kernel/disc/coil-source.ts';
import type { DiscCoupling } from '../kernel/disc/disc-coupling.ts';
import { SplitCoupling } from '../kernel/disc/split-coupling.ts';
import type { GapDecays } from '../kernel/gap-decays.ts';
import { GapStations, STATION, STATION_PLACES } from '../kernel/gap-stations.ts';
import { LayerVoltages } from '../kernel/layer-voltages.ts';
import { MagneticFlux } from '../kernel/magnetic-flux.ts';
import type { CoupledModes } from '../kernel/motion/coupled-modes.ts';
import { createWideModes } from '../kernel/motion/wide-modes.ts';
import { noteValue, noteWinding, WINDING_VALUES } from '../kernel/note-value.ts';
import { type CouplingPoint, PlateCoupling } from '../kernel/plate-coupling.ts';
import {
  type PlateLayer,
  PlateReflection,
  type PlateStack,
  slowestReflection,
} from '../kernel/plate-reflection.ts';
import { type NodeSet, spectrumNodes } from '../kernel/spectrum-nodes.ts';
import { CoilFieldSamples } from '../kernel/steel/coil-field-samples.ts';
import { type SaturableLayer, SaturatedPlate } from '../kernel/steel/saturated-plate.ts';
import { type CoilAt, wideLossDensity } from '../kernel/wide-plate-heat.ts';
import { WideResponse } from '../kernel/wide-response.ts';
import { WindingField } from '../kernel/winding-field.ts';
import { type Section, WindingSpectrum } from '../kernel/winding-spectrum.ts';
import { MAX_LAYERS, MAX_WINDINGS } from '../model/inputs.ts';
import type { Coil } from './coil.ts';
import { MAGNETIC } from './geometry.ts';
import { FOUND, RestMemory } from './rest-memory.ts';

// Past 300 lines: one class keeps the spectrum, the reflection and the saturation of one plate, which depend on each other.

/** A plate of which layers may saturate. */
export interface SaturablePlate extends PlateStack {
  readonly layers: readonly SaturableLayer[];
}

/**
 * A winding over an infinitely wide plate, ready to be evaluated at any gap. Keeps the spectrum of the last winding
 * and the reflection of the last plate: designs that differ only in one of them share the other. Whether
 * something is shared never changes a bit of the result, since the key is everything it depends on.
 */
export class WidePlate {
  readonly coupling = new PlateCoupling();
  /** The same between stations, where the coil and plate in hand have them. */
  readonly stations = new GapStations(this.coupling);
  private readonly spectrum = new WindingSpectrum();
  private readonly reflection = new PlateReflection();
  private readonly field = new WindingField();
  private readonly layerVoltages = new LayerVoltages();
  /** How many layers `layerVoltages` was prepared for, for the coil in hand; 0: not yet. */
  private layers = 0;
  private readonly response = new WideResponse();
  private parted: SplitCoupling | null = null;
  readonly saturated = new SaturatedPlate();
  readonly samples = new CoilFieldSamples();
  /** Whether `samples` are those of the coil last prepared. */
  private isSampled = false;
  /** Whether the plate last prepared has been saturated since. */
  private isSaturated = false;
  private nodes: NodeSet | null = null;
  private readonly sections: CoilWinding[] = [];
  private readonly edges = createEdgePair();
  private readonly flux = new MagneticFlux();
  /** The standoff, which every design evaluates, and the mean-square field there; NaN until evaluated. */
  private nearest = Number.NaN;
  private nearestField = Number.NaN;
  /** What spectrum and reflection were filled for: every number that they depend on. */
  private readonly coilKey = new Float64Array(WINDING_VALUES * MAX_WINDINGS + 2);
  private readonly plateKey = new Float64Array(3 * MAX_LAYERS + 3);

  private readonly memory = new RestMemory(() => this.stations.forget());
  private readonly found: CouplingPoint = {
    inductanceRe: 0,
    inductanceIm: 0,
    slopeRe: 0,
    slopeIm: 0,
    curvatureRe: 0,
    jerkRe: 0,
  };
  /** What is still to be filled: null where all is. */
  private pending: Pending | null = null;
  private readonly pendings: Pending = { coil: null, plate: null, nearest: Number.NaN, farthest: Number.NaN };
  private readonly fillPending = () => this.ensure();

  /** How many coils over plates will come back much later, as far as is known. */
  expect(pairs: number): void {
    this.memory.expect(pairs);
  }

  get freeInductance(): number {
    return this.pending === null ? this.spectrum.freeInductance : this.memory.freeInductance;
  }

  /**
   * Gaps from `nearest` to `farthest` (m) can then be evaluated by `coupling`.
   * Omega in rad/s; the resistivities are those at the plate's temperature.
   */
  prepare(coil: Coil, plate: PlateStack, nearest: number, farthest: number): void {
    const { memory, coupling, found } = this;
    this.isSaturated = false;
    const known = memory.find(coil, plate, nearest, farthest);
    if (known === FOUND.same) return;
    if (memory.isKept) this.stations.prepare(nearest, farthest, finestSide(coil), memory.pair);
    else this.stations.leave();
    if (known === FOUND.not) {
      if (this.pending !== null) coupling.forget();
      this.pending = null;
      this.fill(coil, plate, nearest, farthest);
      return;
    }
    const { pendings } = this;
    pendings.coil = coil;
    pendings.plate = plate;
    pendings.nearest = nearest;
    pendings.farthest = farthest;
    this.pending = pendings;
    this.nearest = nearest;
    this.nearestField = memory.field;
    memory.readPoint(found);
    coupling.remember(nearest, found, this.fillPending);
  }

  /** Fills what a coil and plate that were known have left out. */
  private ensure(): void {
    const { pending, nearestField } = this;
    if (pending === null) return;
    this.pending = null;
    const filled = this.fill(pending.coil!, pending.plate!, pending.nearest, pending.farthest);
    this.nearestField = nearestField;
    // filling forgets what is known of the standoff
    if (filled) this.coupling.remember(pending.nearest, this.found, nothing);
    this.coupling.resume();
  }

  /** Whether the coupling was filled anew. */
  private fill(coil: Coil, plate: PlateStack, nearest: number, farthest: number): boolean {
    const { layers, layerCount, omega } = plate;
    const { outerRadius } = coil;
    // the finest structure: a side of a section, a distance of two edges
    const side = finestSide(coil);
    // the lowest panel must follow the plate's slow scale, e^{-2 k gap} and (1 - e^{-kh}) / k
    const slowest = Math.min(
      2 * slowestReflection(layers, layerCount, omega),
      1.2 / farthest,
      3 / coil.height,
    );
    // the free inductance needs k side = 40 (its tail is closed), the nearest gap e^{-18} unless the section's own fall-off comes first
    const end = Math.max(40 / side, Math.min(9 / nearest, 400 / side));
    const nodes = spectrumNodes(
      narrowest(coil) / outerRadius,
      slowest * outerRadius,
      end * outerRadius,
      reflectsAtEveryK(layers, layerCount) || farthest > FAR_RADII * outerRadius,
    );
    const sameNodes = nodes === this.nodes;
    const sameCoil = this.sameCoil(coil) && sameNodes;
    if (!sameCoil) {
      this.isSampled = false;
      this.nodes = nodes;
      this.layers = 0;
      this.fillSpectrum(coil, nodes);
    }
    // the plate is sampled at k = b / r2
    const samePlate = this.samePlate(plate, outerRadius) && sameNodes;
    if (!samePlate) {
      this.reflection.fill(layers, layerCount, omega, this.spectrum.k, this.spectrum.count);
    }
    if (!(sameCoil && samePlate)) this.coupling.fill(this.spectrum, this.reflection);
    if (!(sameCoil && samePlate && nearest === this.nearest)) this.nearestField = Number.NaN;
    this.nearest = nearest;
    return !(sameCoil && samePlate);
  }

  /** Another coupling of the coil and plate last prepared. */
  fillLinear(out: PlateCoupling): void {
    this.ensure();
    out.fill(this.spectrum, this.reflection);
  }

  /** The coil and plate last prepared, with its layers saturated as they are at a current (A rms) and a gap (m). */
  saturate(coil: Coil, plate: SaturablePlate, current: number, gap: number): void {
    this.ensure();
    const { layers, layerCount, omega } = plate;
    const { samples, saturated, spectrum, reflection } = this;
    if (!this.isSampled) samples.prepare(this.sectionsOf(coil), innerRadiusOf(coil), coil.outerRadius);
    this.isSampled = true;
    samples.at(gap);
    saturated.solve(layers, layerCount, omega, samples, current);
    saturated.reflect(spectrum.k, spectrum.count, layerCount, omega, reflection);
    this.coupling.fill(spectrum, reflection);
    this.nearestField = Number.NaN;
    this.isSaturated = true;
    // the next design has its own plate
    this.plateKey[0] = Number.NaN;
  }

  /** The coil and plate last prepared as a disc's rims leave them: see split-coupling. */
  split(coarse: DiscCoupling): SplitCoupling {
    this.ensure();
    this.parted ??= new SplitCoupling(coarse);
    this.parted.fill(coarse, this.spectrum, this.reflection);
    return this.parted;
  }

  /** The fine part of the coil last split, at one gap and complex frequencies. */
  respondFine(layers: readonly PlateLayer[], layerCount: number, gap: number): WideResponse {
    this.response.at(this.parted!.spectrum, layers, layerCount, gap);
    return this.response;
  }

  /** The coil last prepared at one gap, at complex frequencies. */
  respond(layers: readonly PlateLayer[], layerCount: number, gap: number): WideResponse {
    this.ensure();
    this.response.at(this.spectrum, layers, layerCount, gap);
    return this.response;
  }

  /** The coil last prepared and the modes of a plate that is not magnetic. */
  modes(plate: PlateStack, radius: number, nearest: number, farthest: number): CoupledModes {
    this.ensure();
    return createWideModes(this.spectrum, plate, radius, nearest, farthest);
  }

  private fillSpectrum(coil: Coil, nodes: NodeSet): void {
    const first = coil.windings[0]!.section;
    if (coil.count === 1 && first.offset === 0) {
      this.spectrum.fill(first, nodes);
      return;
    }
    fillCoaxial(this.sectionsOf(coil), coil.count, coil.outerRadius, nodes, this.spectrum, this.edges);
  }

  sectionsOf(coil: Coil): readonly CoilWinding[] {
    this.sections.length = coil.count;
    for (let w = 0; w < coil.count; w++) this.sections[w] = coil.windings[w]!.section;
    return this.sections;
  }

  /**
   * Mean square of the flux density in a winding's section for 1 A, plate included, at a gap in m, T2/A2. Of several
   * windings each sees its own field alone: their fields in each other's sections and the plate's are left out.
   */
  meanSquareField(coil: Coil, section: Section, gap: number): number {
    const { stations } = this;
    if (gap === this.nearest || !stations.place(gap)) return this.exactMeanSquareField(coil, section, gap);
    const { station } = stations;
    this.placeField(section, station);
    this.placeField(section, station + 1);
    stations.evaluate(gap);
    const added = -stations.inductanceRe * stations.between(STATION_PLACES.field);
    return Math.max(0, stations.cells[station * STATION + STATION_PLACES.freeField]! + added);
  }

  /** The same, always from the sums. */
  exactMeanSquareField(coil: Coil, section: Section, gap: number): number {
    if (coil.count > 1) return this.field.meanSquareFree(section);
    if (gap === this.nearest && !Number.isNaN(this.nearestField)) return this.nearestField;
    this.ensure();
    const { coupling, memory } = this;
    const { decays } = coupling;
    decays.at(gap);
    const field = this.field.meanSquare(section, this.nodes!, this.reflection, decays);
    if (gap !== this.nearest) return field;
    this.nearestField = field;
    if (coupling.read(gap, this.found)) memory.store(this.found, this.freeInductance, field);
    return field;
  }

  /** Makes sure of the field in the winding at a station. */
  private placeField(section: Section, station: number): void {
    const { stations, field } = this;
    const { cells } = stations;
    const at = station * STATION;
    if (!Number.isNaN(cells[at + STATION_PLACES.field]!)) return;
    this.ensure();
    const decays = this.coupling.decaysAt(stations.gapAt(station), station);
    const free = field.meanSquareFree(section);
    // what is known of the standoff serves the station there
    const isKnown = station === 0 && !Number.isNaN(this.nearestField);
    const square = isKnown
      ? this.nearestField
      : field.meanSquare(section, this.nodes!, this.reflection, decays);
    cells[at + STATION_PLACES.field] = (square - free) / stations.depthAt(station);
    cells[at + STATION_PLACES.freeField] = free;
    stations.keep(station);
  }

  /**
   * Highest voltage between two adjacent layers of the coil's one winding over twice their mean, at a gap in m (see
   * LayerVoltages).
   * @param resistance of the winding at its standoff, ohm: how much it changes over the gap hardly matters here
   */
  layerUnevenness(section: Section, layers: number, gap: number, resistance: number, omega: number): number {
    const { coupling, memory, nearest, stations } = this;
    if (gap !== nearest && stations.place(gap)) {
      const { station } = stations;
      this.placeUnevenness(section, layers, station, resistance, omega);
      this.placeUnevenness(section, layers, station + 1, resistance, omega);
      stations.evaluate(gap);
      return stations.between(STATION_PLACES.unevenness);
    }
    if (gap === nearest) {
      const before = memory.unevenness(layers, resistance);
      if (!Number.isNaN(before)) return before;
    }
    this.ensure();
    coupling.decays.at(gap);
    const unevenness = this.computeUnevenness(section, layers, resistance, coupling.decays, omega);
    if (gap === nearest) memory.storeUnevenness(layers, resistance, unevenness);
    return unevenness;
  }

  /** Makes sure of it at a station. */
  private placeUnevenness(
    section: Section,
    layers: number,
    station: number,
    resistance: number,
    omega: number,
  ): void {
    const { stations } = this;
    const { cells } = stations;
    const at = station * STATION;
    if (cells[at + STATION_PLACES.layers] === layers && cells[at + STATION_PLACES.resistance] === resistance)
      return;
    this.ensure();
    const decays = this.coupling.decaysAt(stations.gapAt(station), station);
    const unevenness = this.computeUnevenness(section, layers, resistance, decays, omega);
    cells[at + STATION_PLACES.unevenness] = unevenness;
    cells[at + STATION_PLACES.layers] = layers;
    cells[at + STATION_PLACES.resistance] = resistance;
    stations.keep(station);
  }

  private computeUnevenness(
    section: Section,
    layers: number,
    resistance: number,
    decays: GapDecays,
    omega: number,
  ): number {
    const { layerVoltages } = this;
    if (layers !== this.layers) layerVoltages.prepare(this.spectrum, this.nodes!, section.height, layers);
    this.layers = layers;
    return layerVoltages.unevenness(this.reflection, resistance, decays, omega);
  }

  /**
   * Loss per area of the plate at distances from the axis, W/m2.
   * @param part what counts of the field at a spatial frequency
   */
  lossDensity(
    coil: Coil,
    plate: PlateStack,
    at: CoilAt,
    radii: Float64Array,
    out: Float64Array,
    part: (k: number) => number = () => 1,
  ): void {
    this.ensure();
    const sections = coil.windings.slice(0, coil.count).map(({ section }) => section);
    const reflection = this.isSaturated ? this.saturated : undefined;
    const sampling = { nodes: this.nodes!, scaleRadius: coil.outerRadius, part, reflection };
    wideLossDensity(sections, plate, sampling, at, radii, out);
  }

  /** Peak flux density at the face of the magnetic layer nearest the coil, T/A; NaN where no layer is magnetic. */
  peakMagneticFlux(coil: Coil, plate: PlateStack, gap: number): number {
    const { layers, layerCount } = plate;
    for (let j = 0; j < layerCount; j++) {
      if (layers[j]!.relativePermeability <= MAGNETIC) continue;
      // of several windings the strongest alone: an estimate
      let most = 0;
      for (let w = 0; w < coil.count; w++) {
        const { section } = coil.windings[w]!;
        most = Math.max(
          most,
          this.flux.peak(section, plate, j, this.nodes!, coil.outerRadius, gap + section.offset),
        );
      }
      return most;
    }
    return Number.NaN;
  }

  /** Compares with the coil last seen and remembers this one. */
  private sameCoil(coil: Coil): boolean {
    const { coilKey } = this;
    let same = noteValue(coilKey, 0, coil.count);
    for (let w = 0; w < coil.count; w++) {
      same = noteWinding(coilKey, 1 + WINDING_VALUES * w, coil.windings[w]!.section) && same;
    }
    return same;
  }

  /** Compares with the plate last seen and remembers this one. */
  private samePlate({ layers, layerCount, omega }: PlateStack, outerRadius: number): boolean {
    const { plateKey } = this;
    let same = noteValue(plateKey, 0, layerCount);
    same = noteValue(plateKey, 1, omega) && same;
    same = noteValue(plateKey, 2, outerRadius) && same;
    for (let j = 0; j < layerCount; j++) {
      const { resistivity, relativePermeability, thickness } = layers[j]!;
      const at = 3 + 3 * j;
      same = noteValue(plateKey, at, resistivity) && same;
      same = noteValue(plateKey, at + 1, relativePermeability) && same;
      same = noteValue(plateKey, at + 2, thickness) && same;
    }
    return same;
  }
}

/** Arguments of `prepare`. */
interface Pending {
  coil: Coil | null;
  plate: PlateStack | null;
  nearest: number;
  farthest: number;
}

function nothing(): void {}

/** Narrowest radial distance whose beat the nodes must follow: of a section's edges, or of two windings' edges, m. */
function narrowest(coil: Coil): number {
  let least = Number.POSITIVE_INFINITY;
  for (let w = 0; w < coil.count; w++) {
    const one = coil.windings[w]!.section;
    least = Math.min(least, one.outerRadius - one.innerRadius);
    for (let v = 0; v < w; v++) {
      const other = coil.windings[v]!.section;
      for (const e of [one.innerRadius, one.outerRadius]) {
        for (const f of [other.innerRadius, other.outerRadius]) {
          const apart = Math.abs(e - f);
          // edges as good as in line beat too slowly to matter
          if (apart > NARROWEST * coil.outerRadius) least = Math.min(least, apart);
        }
      }
    }
  }
  return least;
}

const NARROWEST = 1e-3;

function innerRadiusOf(coil: Coil): number {
  let least = Number.POSITIVE_INFINITY;
  for (let w = 0; w < coil.count; w++) least = Math.min(least, coil.windings[w]!.section.innerRadius);
  return least;
}

function finestSide(coil: Coil): number {
  let least = Number.POSITIVE_INFINITY;
  for (let w = 0; w < coil.count; w++) {
    const { innerRadius, outerRadius, height } = coil.windings[w]!.section;
    least = Math.min(least, outerRadius - innerRadius, height);
  }
  return least;
}

/** Beyond this many outer radii the gap's exponential, too, needs the thorough nodes. */
const FAR_RADII = 5;

/** Any permeability beside 1 reflects at every k, however little; so this is no question of MAGNETIC. */
function reflectsAtEveryK(layers: readonly PlateLayer[], layerCount: number): boolean {
  for (let j = 0; j < layerCount; j++) if (layers[j]!.relativePermeability > 1) return true;
  return false;
}
