import { complexCholesky, solveLower } from '../../math/complex-cholesky.ts';
import { MU0 } from '../constants.ts';
import { AxialBasis } from './axial-basis.ts';
import type { DiscResolution } from './disc-resolution.ts';
import type { DiscSpec } from './disc-spec.ts';
import { DiscWorkspace } from './disc-workspace.ts';
import { RadialBasis } from './radial-basis.ts';
import { faded, type SpatialNodes, spatialNodes, withBursts } from './spatial-nodes.ts';

// Past 300 lines: assembly and factorisation of one matrix, which share its arrays.

/** Currents that do not mix with others: which radial and axial profiles they are, and C of R + jwM = C C^T. */
export interface DiscBlock {
  readonly size: number;
  readonly radial: Int32Array;
  readonly axial: Int32Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly diagonal: Float64Array;
}

/**
 * A disc at one frequency, factorised: everything that designs which share the plate have in common. Immutable
 * but for the working registers of its bases.
 *
 * The current density is sum i_nc phi_n(r) chi_c(z), so that each unknown is a coaxial ring of rectangular
 * section, as wide as the disc and as thick as a layer, whose current is spread over the section as a polynomial
 * (and, at a rim, an exponential). Ohm's and Faraday's laws, weighted with the same profiles (Galerkin), give the
 * coupled circuits (R + jwM) i = -jw m I with
 *   R = 2 pi rho  (the profiles are orthonormal),
 *   M = pi mu0 int f_n f_n' X_cc' dk,   m(gap) = pi mu0 int f_n x_c a(k) e^{-k gap} dk,
 * f, x, X the profiles' transforms (see radial-basis, axial-basis) and a(k) the coil's (see coil-source). It is
 * the ring model with its rings merged: uniform rings, mutual inductances by elliptic integrals, converge to the
 * same answer (tests), but only as the square of their size, so that they need hundreds to thousands of
 * unknowns where this needs a few dozen.
 *
 * A coil excites the currents by a few smooth combinations only: `ports`. Their admittance (ports x ports) is all
 * that a gap needs; dL = -jw m^T (R + jwM)^{-1} m.
 */
export interface DiscPlate {
  readonly spec: DiscSpec;
  readonly resolution: DiscResolution;
  readonly radialBasis: RadialBasis;
  readonly axialBasis: AxialBasis;
  readonly blocks: readonly DiscBlock[];
  readonly unknowns: number;
  /** Nodes at which a coil is sampled. */
  readonly nodes: SpatialNodes;
  readonly ports: number;
  /** What the field at a node excites in a port: row-major ports x nodes. */
  readonly excitation: Float64Array;
  /** Orthonormal combinations of the unknowns, row-major ports x unknowns, blocks one after the other. */
  readonly portProfiles: Float64Array;
  /** Port admittances, row-major ports x ports. */
  readonly admittanceRe: Float64Array;
  readonly admittanceIm: Float64Array;
  /** Memory held, bytes. */
  readonly bytes: number;
  /** Multiplications that coupling and factorising took, about: what a plate costs, whatever the machine. */
  readonly work: number;
}

/** Patterns of current over the radius, by their Hankel transforms at the k last evaluated. */
export interface RadialProfiles {
  readonly count: number;
  readonly hankel: Float64Array;
  transform(k: number): void;
}

/** Currents of a disc with their resistances (`re`, its diagonal) and w times inductances (`im`), not yet factorised. */
export interface DiscCircuits {
  readonly blocks: readonly DiscBlock[];
  readonly unknowns: number;
  readonly radialBasis: RadialBasis;
  readonly axialBasis: AxialBasis;
  /** Nodes of the coupling integrals. */
  readonly couplingNodes: number;
  /** Nodes at which the field of a coil of the resolution's class is sampled. */
  readonly nodes: SpatialNodes;
  /** What the field of each of them excites in every unknown, row-major nodes x unknowns: until the next disc. */
  readonly excited: Float64Array;
}

/** Transforms of all profiles at the nodes, a row a profile: over the radius and over the thickness. Until the next disc. */
interface SampledProfiles {
  readonly hankel: Float64Array;
  readonly moment: Float64Array;
}

/** Layers are those of the resolution: see its `parts`. Costs most of what a plate costs. */
export function discCircuits(
  whole: DiscSpec,
  resolution: DiscResolution,
  workspace: DiscWorkspace,
): DiscCircuits {
  const spec = { ...whole, layers: resolution.parts };
  const { radius, innerRadius, layers } = spec;
  const { smooth, scales, axial, reach, nearest, cut } = resolution;
  const thicknesses = layers.map((layer) => layer.thickness);
  const total = thicknesses.reduce((sum, t) => sum + t, 0);
  const width = radius - innerRadius;
  // the second is what the field of a coil beside a small disc takes
  const usual = Math.max(5 * smooth + 20, 4 * smooth + 40) / width;
  const highest = Math.max(usual, ...scales.map((scale) => EDGE_PHASE / scale));
  // a hole's polynomials reach their slow tails later than Zernike's, and many of them later still (see radial-tail)
  const late = Math.max(2 * usual, smooth ** 2 / (7.5 * width));
  const burstsFrom = innerRadius > 0 ? Math.min(late, highest) : usual;
  // the coil is sampled at the lower ones of the nodes at which the currents couple
  const even = spatialNodes(burstsFrom, radius + Math.max(radius, reach), 2 * Math.max(total, reach, radius));
  const radialBasis = new RadialBasis(radius, innerRadius, smooth, scales, burstsFrom, highest);
  const axialBasis = new AxialBasis(thicknesses, axial);
  const blocks = makeBlocks(spec, resolution, radialBasis, axialBasis);
  const coupled = withBursts(even, burstsFrom, highest, radius, innerRadius);
  const profiles = couple(blocks, spec, radialBasis, axialBasis, coupled, workspace);
  const unknowns = blocks.reduce((sum, block) => sum + block.size, 0);
  const nodes = faded(even, cut ?? Math.min(usual, FAINT / nearest));
  const excited = exciteFrom(profiles, blocks, unknowns, coupled.count, nodes, workspace);
  return { blocks, unknowns, radialBasis, axialBasis, couplingNodes: coupled.count, nodes, excited };
}

/** Costs one to ten ms at mains frequency, some hundred where a thick plate has many skin depths. */
export function createDiscPlate(
  whole: DiscSpec,
  resolution: DiscResolution,
  workspace = new DiscWorkspace(),
): DiscPlate {
  const { reach, nearest } = resolution;
  const circuits = discCircuits(whole, resolution, workspace);
  const { blocks, unknowns, radialBasis, axialBasis, couplingNodes, nodes, excited } = circuits;
  const spec = { ...whole, layers: resolution.parts };
  for (const { size, re, im, diagonal } of blocks) complexCholesky(size, re, im, diagonal);
  const expected = nodes.k.map((k) => {
    const x = k * reach;
    return (x / (1 + x ** 2.5)) * Math.exp(-k * nearest);
  });
  const { ports, profiles, excitation } = findPorts(excited, expected, unknowns, workspace);
  const { re, im } = portAdmittance(blocks, profiles, ports, unknowns, workspace);
  const held = [excitation, profiles, re, im, nodes.k, nodes.weight, ...blocks.flatMap((b) => [b.re, b.im])];
  return {
    spec,
    resolution,
    radialBasis,
    axialBasis,
    blocks,
    unknowns,
    nodes,
    ports,
    excitation,
    portProfiles: profiles,
    admittanceRe: re,
    admittanceIm: im,
    bytes: held.reduce((sum, array) => sum + array.byteLength, 0),
    work: blocks.reduce((sum, { size }) => sum + (size * size * couplingNodes) / 2 + (2 / 3) * size ** 3, 0),
  };
}

/** Mutual inductances of an edge layer of scale s are integrated to k s = EDGE_PHASE. */
const EDGE_PHASE = 3;

/** e^{-FAINT} of a coil's field may be left out. */
const FAINT = 18;

/**
 * Splits the unknowns into what mixes: a single layer is symmetric about its mid-plane, so that profiles even and
 * odd in depth are two problems of half the size. Profiles that are fine in both directions are left out.
 */
export function makeBlocks(
  spec: DiscSpec,
  { smooth, axial, smoothOf = [] }: Pick<DiscResolution, 'smooth' | 'axial'> & Partial<DiscResolution>,
  radialBasis: Pick<RadialProfiles, 'count'>,
  axialBasis: AxialBasis,
): DiscBlock[] {
  const parities = spec.layers.length === 1 && axialBasis.count > 1 ? 2 : 1;
  return Array.from({ length: parities }, (_, parity) => {
    const radialOf: number[] = [];
    const axialOf: number[] = [];
    for (let c = 0; c < axialBasis.count; c++) {
      const degree = axialBasis.degree[c]!;
      if (parities === 2 && degree % 2 !== parity) continue;
      const most = smoothOf[axialBasis.layer[c]!] ?? smooth;
      const fewer = 1.25 - degree / axial[axialBasis.layer[c]!]!;
      for (let n = 0; n < radialBasis.count; n++) {
        if (n < smooth && n > most * fewer) continue;
        radialOf.push(n);
        axialOf.push(c);
      }
    }
    const size = radialOf.length;
    return {
      size,
      radial: Int32Array.from(radialOf),
      axial: Int32Array.from(axialOf),
      re: new Float64Array(size * size),
      im: new Float64Array(size * size),
      diagonal: new Float64Array(2 * size),
    };
  });
}

/** Writes R + jwM into the lower triangles of the blocks. Returns what it sampled. */
export function couple(
  blocks: readonly DiscBlock[],
  spec: DiscSpec,
  radialBasis: RadialProfiles,
  axialBasis: AxialBasis,
  nodes: SpatialNodes,
  workspace: DiscWorkspace,
): SampledProfiles {
  const { count } = nodes;
  const profiles = axialBasis.count;
  const moment = workspace.array('moment', profiles * count);
  const hankel = workspace.array('hankel', radialBasis.count * count);
  const kernel = workspace.array('kernel', profiles * profiles * count);
  for (let q = 0; q < count; q++) {
    radialBasis.transform(nodes.k[q]!);
    axialBasis.interact(nodes.k[q]!);
    const factor = Math.PI * MU0 * spec.angularFrequency * nodes.weight[q]!;
    for (let n = 0; n < radialBasis.count; n++) hankel[n * count + q] = radialBasis.hankel[n]!;
    for (let c = 0; c < profiles; c++) moment[c * count + q] = axialBasis.moment[c]!;
    for (let c = 0; c < profiles * profiles; c++) kernel[c * count + q] = factor * axialBasis.coupling[c]!;
  }
  const weighted = new Float64Array(count);
  const summands: Summands = { hankel, weighted, count, radial: NO_PROFILES };
  for (const { size, radial, axial, re, im } of blocks) {
    for (let i = 0; i < size; i++) {
      re[i * size + i] = 2 * Math.PI * spec.layers[axialBasis.layer[axial[i]!]!]!.resistivity;
      const row = i * size;
      for (let from = 0; from <= i; ) {
        // unknowns of one axial profile stand together
        const pair = axial[from]!;
        let to = from;
        while (to <= i && axial[to] === pair) to++;
        const h = radial[i]! * count;
        const x = (axial[i]! * profiles + pair) * count;
        for (let q = 0; q < count; q++) weighted[q] = hankel[h + q]! * kernel[x + q]!;
        summands.radial = radial;
        dots(summands, from, to, im, row);
        from = to;
      }
    }
  }
  return { hankel, moment };
}

/** What the field of each node excites in every unknown, from profiles sampled at `sampled` nodes that begin with these. */
function exciteFrom(
  { hankel, moment }: SampledProfiles,
  blocks: readonly DiscBlock[],
  unknowns: number,
  sampled: number,
  { count, weight }: SpatialNodes,
  workspace: DiscWorkspace,
): Float64Array {
  const excited = workspace.array('excited', count * unknowns);
  let column = 0;
  for (const { size, radial, axial } of blocks) {
    for (let i = 0; i < size; i++, column++) {
      const h = radial[i]! * sampled;
      const x = axial[i]! * sampled;
      for (let q = 0; q < count; q++) {
        excited[q * unknowns + column] = Math.PI * MU0 * weight[q]! * hankel[h + q]! * moment[x + q]!;
      }
    }
  }
  return excited;
}

/** At `count` nodes: the transforms of the radial profiles, row-major, what they are weighted with, and which are wanted. */
interface Summands {
  readonly hankel: Float64Array;
  readonly weighted: Float64Array;
  readonly count: number;
  radial: Int32Array;
}

const NO_PROFILES = new Int32Array(0);

/** out[row + j] = hankel of radial[j] times weighted, from <= j < to: four at a time, as sums wait for each other. */
function dots(
  { hankel, weighted, count, radial }: Summands,
  from: number,
  to: number,
  out: Float64Array,
  row: number,
): void {
  let j = from;
  for (; j + 3 < to; j += 4) {
    const a = radial[j]! * count;
    const b = radial[j + 1]! * count;
    const c = radial[j + 2]! * count;
    const d = radial[j + 3]! * count;
    let sumA = 0;
    let sumB = 0;
    let sumC = 0;
    let sumD = 0;
    for (let q = 0; q < count; q++) {
      const w = weighted[q]!;
      sumA += hankel[a + q]! * w;
      sumB += hankel[b + q]! * w;
      sumC += hankel[c + q]! * w;
      sumD += hankel[d + q]! * w;
    }
    out[row + j] = sumA;
    out[row + j + 1] = sumB;
    out[row + j + 2] = sumC;
    out[row + j + 3] = sumD;
  }
  for (; j < to; j++) {
    const a = radial[j]! * count;
    let sum = 0;
    for (let q = 0; q < count; q++) sum += hankel[a + q]! * weighted[q]!;
    out[row + j] = sum;
  }
}

/** What the field of each node excites in every unknown, row-major nodes x unknowns. */
export function exciteAll(
  blocks: readonly DiscBlock[],
  unknowns: number,
  radialBasis: RadialProfiles,
  axialBasis: AxialBasis,
  nodes: SpatialNodes,
): Float64Array {
  const excited = new Float64Array(nodes.count * unknowns);
  let at = 0;
  for (let q = 0; q < nodes.count; q++) {
    radialBasis.transform(nodes.k[q]!);
    axialBasis.transform(nodes.k[q]!);
    const factor = Math.PI * MU0 * nodes.weight[q]!;
    for (const { size, radial, axial } of blocks) {
      for (let i = 0; i < size; i++) {
        excited[at++] = factor * radialBasis.hankel[radial[i]!]! * axialBasis.moment[axial[i]!]!;
      }
    }
  }
  return excited;
}

/** Below this share of the strongest excitation a port is left out. */
const PORT_NOISE = 2e-6;

/**
 * Orthonormal combinations of the unknowns that span the excitations, each node weighted with the field expected
 * there: pivoted Gram-Schmidt (G. H. Golub and C. F. Van Loan, Matrix Computations, 5.4). Rows stay as they are: what is
 * left of one is worked out when it becomes the pivot, and what is left of its square is counted down.
 */
function findPorts(
  excited: Float64Array,
  expected: Float64Array,
  unknowns: number,
  workspace: DiscWorkspace,
): { ports: number; profiles: Float64Array; excitation: Float64Array } {
  const count = expected.length;
  const norms = new Float64Array(count);
  for (let q = 0; q < count; q++) {
    const row = q * unknowns;
    let square = 0;
    for (let i = 0; i < unknowns; i++) square += excited[row + i]! * excited[row + i]!;
    norms[q] = square * expected[q]! * expected[q]!;
  }
  const largest = norms.reduce((most, norm) => Math.max(most, norm), 0);
  const most = Math.min(count, unknowns);
  const profiles = workspace.array('profiles', most * unknowns);
  const excitation = workspace.array('excitation', most * count);
  let ports = 0;
  for (; ports < most; ports++) {
    let pivot = 0;
    for (let q = 1; q < count; q++) if (norms[q]! > norms[pivot]!) pivot = q;
    if (!(norms[pivot]! > PORT_NOISE * PORT_NOISE * largest)) break;
    const profile = profiles.subarray(ports * unknowns, (ports + 1) * unknowns);
    for (let i = 0; i < unknowns; i++) profile[i] = excited[pivot * unknowns + i]! * expected[pivot]!;
    // twice is enough (see radial-basis)
    for (let pass = 0; pass < 2; pass++) {
      for (let p = 0; p < ports; p++) {
        const other = p * unknowns;
        let projection = 0;
        for (let i = 0; i < unknowns; i++) projection += profiles[other + i]! * profile[i]!;
        for (let i = 0; i < unknowns; i++) profile[i] = profile[i]! - projection * profiles[other + i]!;
      }
    }
    let square = 0;
    for (let i = 0; i < unknowns; i++) square += profile[i]! * profile[i]!;
    const scale = 1 / Math.sqrt(square);
    for (let i = 0; i < unknowns; i++) profile[i] = profile[i]! * scale;
    rowProducts(excited, profile, count, unknowns, excitation, ports * count);
    for (let q = 0; q < count; q++) {
      const found = excitation[ports * count + q]! * expected[q]!;
      norms[q] = norms[q]! - found * found;
    }
    norms[pivot] = 0;
  }
  return {
    ports,
    profiles: profiles.slice(0, ports * unknowns),
    excitation: excitation.slice(0, ports * count),
  };
}

/** out[at + q] = row q of a matrix times a vector: four rows at a time, as sums wait for each other. */
function rowProducts(
  rows: Float64Array,
  vector: Float64Array,
  count: number,
  size: number,
  out: Float64Array,
  at: number,
): void {
  let q = 0;
  for (; q + 3 < count; q += 4) {
    const a = q * size;
    const b = a + size;
    const c = b + size;
    const d = c + size;
    let sumA = 0;
    let sumB = 0;
    let sumC = 0;
    let sumD = 0;
    for (let i = 0; i < size; i++) {
      const v = vector[i]!;
      sumA += rows[a + i]! * v;
      sumB += rows[b + i]! * v;
      sumC += rows[c + i]! * v;
      sumD += rows[d + i]! * v;
    }
    out[at + q] = sumA;
    out[at + q + 1] = sumB;
    out[at + q + 2] = sumC;
    out[at + q + 3] = sumD;
  }
  for (; q < count; q++) {
    let sum = 0;
    for (let i = 0; i < size; i++) sum += rows[q * size + i]! * vector[i]!;
    out[at + q] = sum;
  }
}

/** P^T (R + jwM)^{-1} P for the port profiles P: the plain square of C^{-1} P. */
function portAdmittance(
  blocks: readonly DiscBlock[],
  profiles: Float64Array,
  ports: number,
  unknowns: number,
  workspace: DiscWorkspace,
): { re: Float64Array; im: Float64Array } {
  const re = new Float64Array(ports * ports);
  const im = new Float64Array(ports * ports);
  let start = 0;
  for (const block of blocks) {
    const { size } = block;
    const xs = workspace.array('solvedRe', ports * size);
    const ys = workspace.array('solvedIm', ports * size);
    for (let p = 0; p < ports; p++) {
      const x = xs.subarray(p * size, (p + 1) * size);
      const y = ys.subarray(p * size, (p + 1) * size);
      x.set(profiles.subarray(p * unknowns + start, p * unknowns + start + size));
      y.fill(0);
      solveLower(size, block.re, block.im, block.diagonal, x, y);
      for (let s = 0; s <= p; s++) {
        const other = s * size;
        let sumRe = 0;
        let sumIm = 0;
        for (let i = 0; i < size; i++) {
          const u = xs[other + i]!;
          const v = ys[other + i]!;
          sumRe += x[i]! * u - y[i]! * v;
          sumIm += x[i]! * v + y[i]! * u;
        }
        re[p * ports + s] = re[s * ports + p] = re[p * ports + s]! + sumRe;
        im[p * ports + s] = im[s * ports + p] = im[p * ports + s]! + sumIm;
      }
    }
    start += size;
  }
  return { re, im };
}
