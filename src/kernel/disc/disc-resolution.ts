import { decay } from '../../math/decay.ts';
import { modulus } from '../../math/modulus.ts';
import { skinDepth } from '../skin-depth.ts';
import type { CoilWinding } from './coil-source.ts';
import type { DiscLayer, DiscSpec } from './disc-spec.ts';

// Past 300 lines: how finely each direction of a disc is resolved, rules that were measured together.

/** How finely a disc is resolved, and for which class of coils. */
export interface DiscResolution {
  /** Polynomials over the radius. */
  readonly smooth: number;
  /** Scales of the edge layers, m. */
  readonly scales: readonly number[];
  /** The plate's layers, thick ones of several taken apart where their inside carries next to nothing. */
  readonly parts: readonly DiscLayer[];
  /** Polynomials over the thickness, one number a part. */
  readonly axial: readonly number[];
  /** Polynomials over the radius that a part needs: deep ones see the coil's coarse field alone. */
  readonly smoothOf: readonly number[];
  /** Outer radius that no coil exceeds, m. */
  readonly reach: number;
  /** Gap that no coil comes nearer than, m. */
  readonly nearest: number;
  /** Spatial frequency beyond which the disc is not evaluated, 1/m: see `resolveBelowCut`. Undefined: all is evaluated. */
  readonly cut?: number;
  /** False where the accuracy would take more unknowns than allowed: the answer is not to be relied on. */
  readonly adequate: boolean;
}

/** The accuracy of the contract, relative. */
const USUAL_ACCURACY = 5e-3;

/** Numbers of radial polynomials come in steps, so that coils of about one size share a plate. */
const SMOOTH = [10, 12, 16, 20, 24, 32, 40, 48, 56, 64, 80, 96, 128, 160, 192, 224, 256, 320];
const MOST_SMOOTH = 320;
/** With a hole: beyond, the polynomials' transforms take seconds. */
const MOST_PIERCED = 128;
const MOST_AXIAL = 40;
/** Multiplications that a plate may take to set up: under a second of a slow, busy machine. */
const MOST_WORK = 5e8;
/** Smallest edge layer, as a share of the disc's width. */
const LEAST_SCALE = 1 / 10_000;

/**
 * Resolution for an accuracy in dL, plate resistance and lift. The rules are fits to some five hundred random rigs
 * (disc 0.2 to 3 coil radii, 10 um to 50 mm, 20 Hz to 100 kHz, gaps from 0.5 mm), each compared with a much finer
 * resolution; see the tests for what they hold.
 *
 * Over the radius, a disc follows the coil's field down to wavelengths of 2 pi / detail; at its rims the current
 * crowds within half the skin depth delta, or delta^2 / t in a sheet thinner than that. Over the thickness t the
 * field falls within delta or 1 / detail.
 *
 * Equal spec and resolution (`discKey`) mean equal plates: what depends on the coil comes in coarse steps.
 *
 * @param smallestGap smallest gap that will be needed, m
 * @param whole leaves layers as they are, each with as many polynomials over the radius
 */
export function resolveDisc(
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  smallestGap: number,
  accuracy = USUAL_ACCURACY,
  whole = false,
): DiscResolution {
  return resolveTo(Number.POSITIVE_INFINITY, spec, windings, smallestGap, accuracy, whole);
}

/** The rule for which is used: all of the field up to so many polynomials, beyond them the coarse part if that will do. */
export function resolveRig(
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  smallestGap: number,
): DiscResolution {
  const all = resolveDisc(spec, windings, smallestGap);
  const most = spec.innerRadius > 0 ? USUAL_PIERCED : USUAL_SMOOTH;
  if (all.adequate && all.smooth <= most) return all;
  return resolveBelowCut(spec, windings, smallestGap) ?? all;
}

const USUAL_SMOOTH = 128;
const USUAL_PIERCED = 64;

/**
 * A resolution for the coarse part of a coil's field alone: what lies below the spatial frequency `cut`. The finer part
 * stays close to the edges of the windings' sections; where these are so far from the rims, or so high, that it does not
 * get there, a wide plate answers it alike (see split-coupling). Null where that saves nothing or is still too fine.
 */
export function resolveBelowCut(
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  smallestGap: number,
  locality = LOCALITY,
): DiscResolution | null {
  const cut = coarseCut(spec, windings, smallestGap, locality);
  const resolution = resolveTo(cut, spec, windings, smallestGap, USUAL_ACCURACY, false);
  return resolution.cut !== undefined && resolution.adequate ? resolution : null;
}

/** The fine part begins at half the cut: at LOCALITY / 2 rad from a rim, or at e^{-LOFTY} of itself. */
const LOCALITY = 16;
const LOFTY = 8;

/** The lowest cut at which no edge of a section is felt at a rim beyond it. */
function coarseCut(
  { radius, innerRadius }: DiscSpec,
  windings: readonly CoilWinding[],
  gap: number,
  locality: number,
): number {
  const rims = innerRadius > 0 ? [radius, innerRadius] : [radius];
  let cut = 0;
  for (const { innerRadius: inner, outerRadius: outer, offset } of windings) {
    for (const edge of [inner, outer]) {
      // a wide plate would reflect what falls beside the disc
      const beside = edge < innerRadius || edge > radius;
      const distance = beside ? 0 : Math.min(...rims.map((rim) => Math.abs(edge - rim)));
      cut = Math.max(cut, Math.min(locality / distance, LOFTY / (gap + offset)));
    }
  }
  return cut;
}

/** @param cut nothing beyond this spatial frequency will be needed, 1/m */
function resolveTo(
  cut: number,
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  smallestGap: number,
  accuracy: number,
  whole: boolean,
): DiscResolution {
  const { radius, innerRadius, layers, angularFrequency } = spec;
  const width = radius - innerRadius;
  const reach = windings.reduce((most, winding) => Math.max(most, winding.outerRadius), 0);
  const depthOf = (layer: DiscLayer) => skinDepth(layer.resistivity, 1, angularFrequency);
  const depths = layers.map(depthOf);
  // how many digits more than usual
  const digits = Math.max(0, Math.log10(USUAL_ACCURACY / accuracy));

  const detail = coilDetail(spec, windings, smallestGap, depths, accuracy);
  const finest = Math.min(detail, cut);
  const wanted = (finest * width) / 2 + 3 + 5 * digits;
  const most = innerRadius > 0 ? MOST_PIERCED : MOST_SMOOTH;
  const smooth = SMOOTH.find((count) => count >= wanted && count <= most) ?? most;

  // from here on in steps: the detail that so many polynomials follow
  const parts = whole || layers.length === 1 ? layers.map(wholePart) : splitInside(layers, depths);
  let top = 0;
  const smoothOf = parts.map((part) => {
    const below = top;
    top += part.thickness;
    if (below === 0 || whole) return smooth;
    const fine = Math.min(cut, coilDetail(spec, windings, smallestGap + below, depths, accuracy));
    const needed = (fine * width) / 2 + 3 + 5 * digits;
    return Math.min(smooth, SMOOTH.find((count) => count >= needed) ?? smooth);
  });
  const deep = parts.map((part, i) => {
    if (part.inside) return Math.ceil(2 + 2 * digits);
    const followed = Math.min(finest, (2 * smoothOf[i]!) / width);
    const a = part.thickness * modulus(1 / depthOf(part), followed / 2);
    return Math.ceil(Math.min(1.7 + 0.55 * a, 3 + 2.2 * Math.sqrt(a)) + 2 * digits);
  });
  const edge = layers.reduce((least, { thickness }, i) => {
    const depth = depths[i]!;
    return Math.min(least, depth * Math.max(1, depth / thickness));
  }, Number.POSITIVE_INFINITY);
  const last = edge / (2 + 2 * digits);
  const least = LEAST_SCALE * width;
  const scales = edgeScales(width, smooth, Math.max(last, least), 2.5 / (1 + 0.25 * digits));
  const work = expectedWork(spec, smooth, scales.length, smoothOf, deep);
  return {
    smooth,
    scales,
    parts: parts.map(({ thickness, resistivity }) => ({ thickness, resistivity })),
    axial: deep.map((count) => Math.min(count, MOST_AXIAL)),
    smoothOf,
    reach: 2 ** (Math.ceil(2 * Math.log2(reach)) / 2),
    nearest: 2 ** Math.floor(Math.log2(smallestGap)),
    ...(cut < detail ? { cut: (2 * smooth) / width } : {}),
    adequate:
      wanted <= most &&
      last >= least &&
      deep.every((count) => count <= MOST_AXIAL) &&
      (whole || digits > 0 || work <= MOST_WORK),
  };
}

/** A name that equal plates share and unequal ones do not. */
export function discKey(spec: DiscSpec, resolution: DiscResolution): string {
  const { radius, innerRadius, layers, angularFrequency } = spec;
  const { smooth, scales, axial, smoothOf, reach, nearest, cut = Number.POSITIVE_INFINITY } = resolution;
  return [
    radius,
    innerRadius,
    ...layers.flatMap((layer) => [layer.thickness, layer.resistivity]),
    angularFrequency,
    smooth,
    ...scales,
    ...axial,
    ...smoothOf,
    reach,
    nearest,
    cut,
  ].join(' ');
}

/** What setting up the plate will take, in multiplications, within some tens of per cent: see `work` of DiscPlate. */
function expectedWork(
  { radius, innerRadius }: DiscSpec,
  smooth: number,
  scales: number,
  smoothOf: readonly number[],
  axial: readonly number[],
): number {
  const pierced = innerRadius > 0 ? 2 : 1;
  const unknowns = axial.reduce((sum, count, i) => sum + count * (0.8 * smoothOf[i]! + pierced * scales), 0);
  // a single layer falls into two blocks
  const blocks = axial.length === 1 ? 2 : 1;
  const even = (1.6 * pierced * radius * (5 * smooth + 20)) / (radius - innerRadius);
  const nodes = even + (scales > 0 ? 400 * pierced : 0);
  const size = unknowns / blocks;
  return blocks * ((size * size * nodes) / 2 + (2 / 3) * size ** 3);
}

interface Part extends DiscLayer {
  /** So far below both faces that only a rim brings current there. */
  readonly inside: boolean;
}

function wholePart({ thickness, resistivity }: DiscLayer): Part {
  return { thickness, resistivity, inside: false };
}

/** This many skin depths below a face the field is e^{-8} = 3e-4 of what it is there. */
const FADED = 8;

/** Cuts layers where the stack is FADED skin depths below its upper and its lower face. */
function splitInside(layers: readonly DiscLayer[], depths: readonly number[]): Part[] {
  const all = layers.reduce((sum, { thickness }, i) => sum + thickness / depths[i]!, 0);
  const cuts = all > 2 * FADED ? [FADED, all - FADED] : [];
  const parts: Part[] = [];
  let from = 0;
  layers.forEach(({ thickness, resistivity }, i) => {
    const depth = depths[i]!;
    const to = from + thickness / depth;
    const inner = cuts.filter((cut) => cut - from > THINNEST && to - cut > THINNEST);
    const edges = [from, ...inner, to];
    for (let e = 0; e + 1 < edges.length; e++) {
      const middle = (edges[e]! + edges[e + 1]!) / 2;
      const inside = cuts.length > 0 && middle > cuts[0]! && middle < cuts[1]!;
      const piece = (edges[e + 1]! - edges[e]!) * depth;
      parts.push({ thickness: inner.length === 0 ? thickness : piece, resistivity, inside });
    }
    from = to;
  });
  return parts;
}

/** No part is cut off that is thinner than this, in skin depths. */
const THINNEST = 0.5;

/** From what the polynomials hardly follow (3 / n^2 of the width) down to `last`, in ratios of about `ratio`. */
function edgeScales(width: number, smooth: number, last: number, ratio: number): number[] {
  const first = (3 * width) / smooth ** 2;
  if (last >= 3 * first) return [];
  if (last >= first) return [first];
  const steps = Math.ceil(Math.log(first / last) / Math.log(ratio) - 0.2);
  return Array.from({ length: steps + 1 }, (_, i) => last * (first / last) ** (i / Math.max(1, steps)));
}

const STEPS = 40;
const STEPS_PER_OCTAVE = 3;

/**
 * The spatial frequency, 1/m, beyond which the lift over a wide plate has no more than a share `accuracy` of
 * itself: int k |Gamma| a(k)^2 e^{-2k gap} dk with the coil's spectrum in its averages (each edge r of a section
 * gives S^2 = r / (pi k^3)) and the plate's reflection in its limits (perfect, thick, sheet). An edge beyond the
 * rim is that much farther away.
 */
function coilDetail(
  { radius, layers }: DiscSpec,
  windings: readonly CoilWinding[],
  gap: number,
  depths: readonly number[],
  accuracy: number,
): number {
  const reach = windings.reduce((most, winding) => Math.max(most, winding.outerRadius), 0);
  const at = (i: number) => (2 / reach) * 2 ** (i / STEPS_PER_OCTAVE);
  const contributions = new Float64Array(STEPS);
  let sum = 0;
  for (let i = STEPS - 1; i >= 0; i--) {
    const k = at(i);
    let response = 0;
    for (let l = 0; l < layers.length; l++) {
      const thick = 2 * (k * depths[l]!) ** 2;
      const sheet = (k * depths[l]! ** 2) / layers[l]!.thickness;
      response = Math.max(response, 1 / Math.sqrt(1 + thick * thick + sheet * sheet));
    }
    let source = 0;
    for (const { innerRadius, outerRadius, height, offset, turns } of windings) {
      const width = outerRadius - innerRadius;
      const amplitude = ((turns / (width * height)) * (1 - decay(k * height))) / k;
      // the edges of a section narrower than 1/k work against each other
      const narrow = Math.min(1, (k * width) ** 2);
      for (const edge of [innerRadius, outerRadius]) {
        const distance = modulus(gap + offset, Math.max(0, edge - radius));
        source += amplitude * amplitude * narrow * (edge / (k * k)) * decay(2 * k * distance);
      }
    }
    // k dk on a logarithmic scale
    sum += source * response * k;
    contributions[i] = sum;
  }
  for (let i = 0; i < STEPS; i++) if (contributions[i]! < accuracy * sum) return at(i);
  return at(STEPS);
}
