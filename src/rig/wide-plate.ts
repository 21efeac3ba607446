import { peakMagneticFlux } from '../kernel/magnetic-flux.ts';
import { PlateCoupling } from '../kernel/plate-coupling.ts';
import { type PlateLayer, PlateReflection, slowestReflection } from '../kernel/plate-reflection.ts';
import { type NodeSet, spectrumNodes } from '../kernel/spectrum-nodes.ts';
import { WindingField } from '../kernel/winding-field.ts';
import { type Section, WindingSpectrum } from '../kernel/winding-spectrum.ts';

/**
 * A winding over an infinitely wide plate, ready to be asked at any gap. Keeps the spectrum of the last winding
 * and the reflection of the last plate: designs that differ only in one of them share the other. Whether
 * something is shared never changes a bit of the result, since the key is everything it depends on.
 */
export class WidePlate {
  readonly coupling = new PlateCoupling();
  private readonly spectrum = new WindingSpectrum();
  private readonly reflection = new PlateReflection();
  private readonly field = new WindingField();
  private nodes: NodeSet | null = null;
  private readonly section: Section = { innerRadius: 0, outerRadius: 0, height: 0, turns: 0 };
  private readonly plate = new Float64Array(64);
  private plateLength = 0;

  get freeInductance(): number {
    return this.spectrum.freeInductance;
  }

  /**
   * Gaps from `nearest` to `farthest` (m) can then be asked of `coupling`.
   * Omega in rad/s; the resistivities are those at the plate's temperature.
   */
  prepare(
    section: Section,
    layers: readonly PlateLayer[],
    layerCount: number,
    omega: number,
    nearest: number,
    farthest: number,
  ): void {
    const { innerRadius, outerRadius, height } = section;
    const width = outerRadius - innerRadius;
    const side = Math.min(width, height);
    // the lowest panel must follow the plate's slow scale, e^{-2 k gap} and (1 - e^{-kh}) / k
    const slowest = Math.min(2 * slowestReflection(layers, layerCount, omega), 1.2 / farthest, 3 / height);
    // the free inductance needs k side = 40 (its tail is closed), the nearest gap e^{-18} unless the section's own fall-off comes first
    const end = Math.max(40 / side, Math.min(9 / nearest, 400 / side));
    const nodes = spectrumNodes(
      width / outerRadius,
      slowest * outerRadius,
      end * outerRadius,
      isMagnetic(layers, layerCount) || farthest > FAR_RADII * outerRadius,
    );
    const sameNodes = nodes === this.nodes;
    const sameCoil = sameNodes && this.sameSection(section);
    if (!sameCoil) {
      this.nodes = nodes;
      Object.assign(this.section, section);
      this.spectrum.fill(section, nodes);
    }
    // the plate is sampled at k = b / r2
    const samePlate = this.samePlate(layers, layerCount, omega, outerRadius) && sameNodes;
    if (!samePlate) {
      this.reflection.fill(layers, layerCount, omega, this.spectrum.k, this.spectrum.count);
    }
    if (!(sameCoil && samePlate)) this.coupling.fill(this.spectrum, this.reflection, nodes);
  }

  /** Mean square of the flux density in the winding's section, plate included, at a gap in m, T2/A2. */
  meanSquareField(section: Section, gap: number): number {
    return this.field.meanSquare(section, this.nodes!, this.reflection, gap);
  }

  /** Peak flux density at the face of the magnetic layer nearest the coil, T/A; NaN where no layer is magnetic. */
  peakMagneticFlux(
    section: Section,
    layers: readonly PlateLayer[],
    layerCount: number,
    omega: number,
    gap: number,
  ): number {
    for (let j = 0; j < layerCount; j++) {
      if (layers[j]!.relativePermeability <= MAGNETIC) continue;
      return peakMagneticFlux(section, layers, layerCount, j, omega, this.nodes!, gap);
    }
    return Number.NaN;
  }

  private sameSection(other: Section): boolean {
    const { section } = this;
    return (
      section.innerRadius === other.innerRadius &&
      section.outerRadius === other.outerRadius &&
      section.height === other.height &&
      section.turns === other.turns
    );
  }

  /** Compares with the plate last seen and remembers this one. */
  private samePlate(
    layers: readonly PlateLayer[],
    layerCount: number,
    omega: number,
    outerRadius: number,
  ): boolean {
    const { plate } = this;
    let at = 0;
    let same = this.plateLength === 3 * layerCount + 2;
    const note = (value: number) => {
      if (plate[at] !== value) same = false;
      plate[at++] = value;
    };
    note(omega);
    note(outerRadius);
    for (let j = 0; j < layerCount; j++) {
      const { resistivity, relativePermeability, thickness } = layers[j]!;
      note(resistivity);
      note(relativePermeability);
      note(thickness);
    }
    this.plateLength = at;
    return same;
  }
}

/** Stainless steel of 1.008 is not what saturates. */
const MAGNETIC = 1.1;

/** Beyond this many outer radii the gap's exponential, too, needs the thorough nodes. */
const FAR_RADII = 5;

function isMagnetic(layers: readonly PlateLayer[], layerCount: number): boolean {
  for (let j = 0; j < layerCount; j++) if (layers[j]!.relativePermeability > 1) return true;
  return false;
}
