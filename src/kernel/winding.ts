/**
 * A winding's geometry, length and mass. Lengths in m, masses in kg.
 *
 * Wires in hand lie side by side, so the section holds turns x strands wires of overall diameter d_o. Without a
 * section fixed by hand the wires stand in square order: height = layers d_o, width = ceil(wires / layers) d_o.
 */
export interface WindingInput {
  /** Bare wire diameter. */
  wire: number;
  /** Insulation thickness on one side. */
  insulation: number;
  strands: number;
  /** Of TRANSPOSED; NaN where not given. */
  transposed: number;
  turns: number;
  /** NaN where the section is fixed by hand. */
  layers: number;
  innerRadius: number;
  /** NaN where the section follows from the layers. */
  sectionOuterRadius: number;
  sectionHeight: number;
  /** Conductor density, kg/m3. */
  density: number;
  extraMass: number;
}

export interface Winding {
  outerRadius: number;
  height: number;
  /** Length of one wire: 2 pi x mean radius x turns. */
  length: number;
  /** Conductor, insulation and extra mass. */
  mass: number;
  /** Bare conductor area of all strands, m2. */
  conductorArea: number;
  /** The same with insulation, m2. */
  coveredArea: number;
  /** Bare conductor area over section area. */
  spaceFactor: number;
  /** Overall area of all wires over section area: at most HEXAGONAL_PACKING for any winding. */
  packing: number;
}

/** Densest packing of equal circles, pi / (2 sqrt 3) (Lagrange 1773, Fejes Toth 1940). */
export const HEXAGONAL_PACKING = 0.9069;

/** Density of wire enamel and similar insulation, kg/m3 (contract; common practice, no source). */
export const INSULATION_DENSITY = 1400;

/** Fills `out`; every result is finite for positive input with outer radius above inner radius. */
export function fillWinding(input: WindingInput, out: Winding): void {
  const overall = input.wire + 2 * input.insulation;
  const wires = input.turns * input.strands;
  const fixed = !Number.isNaN(input.sectionOuterRadius);
  const height = fixed ? input.sectionHeight : input.layers * overall;
  const width = fixed
    ? input.sectionOuterRadius - input.innerRadius
    : Math.ceil(wires / input.layers) * overall;
  const area = height * width;
  const bare = (Math.PI / 4) * input.wire * input.wire;
  const covered = (Math.PI / 4) * overall * overall;
  out.outerRadius = input.innerRadius + width;
  out.height = height;
  out.length = Math.PI * (2 * input.innerRadius + width) * input.turns;
  out.conductorArea = input.strands * bare;
  out.coveredArea = input.strands * covered;
  out.spaceFactor = (wires * bare) / area;
  out.packing = (wires * covered) / area;
  const metre = input.strands * (input.density * bare + INSULATION_DENSITY * (covered - bare));
  out.mass = metre * out.length + input.extraMass;
}
