import { skinDepth } from '../skin-depth.ts';
import type { CoilWinding } from './coil-source.ts';
import type { DiscSpec } from './disc-spec.ts';

/** How finely a disc is resolved, and for which class of coils. */
export interface DiscResolution {
  /** Polynomials over the radius. */
  readonly smooth: number;
  /** Scales of the edge layers, m. */
  readonly scales: readonly number[];
  /** Polynomials over the thickness, one number a layer. */
  readonly axial: readonly number[];
  /** Outer radius that no coil exceeds, m. */
  readonly reach: number;
  /** Gap that no coil comes nearer than, m. */
  readonly nearest: number;
  /** False where the accuracy would take more unknowns than allowed: the answer is not to be relied on. */
  readonly adequate: boolean;
}

/** The accuracy of the contract, relative. */
const USUAL_ACCURACY = 5e-3;

/** Numbers of radial polynomials come in steps, so that coils of about one size share a plate. */
const SMOOTH = [10, 12, 16, 20, 24, 32, 40, 48, 56, 64];
const MOST_SMOOTH = 64;
const MOST_AXIAL = 24;
/** Smallest edge layer, as a share of the disc's width. */
const LEAST_SCALE = 1 / 4000;

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
 * @param smallestGap smallest gap that will be asked for, m
 */
export function resolveDisc(
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  smallestGap: number,
  accuracy = USUAL_ACCURACY,
): DiscResolution {
  const { radius, innerRadius, layers, angularFrequency } = spec;
  const width = radius - innerRadius;
  const reach = windings.reduce((most, winding) => Math.max(most, winding.outerRadius), 0);
  const depths = layers.map((layer) => skinDepth(layer.resistivity, 1, angularFrequency));
  // how many digits more than usual
  const digits = Math.max(0, Math.log10(USUAL_ACCURACY / accuracy));

  const finest = coilDetail(spec, windings, smallestGap, depths, accuracy);
  const wanted = (finest * width) / 2 + 3 + 5 * digits;
  const smooth = SMOOTH.find((count) => count >= wanted) ?? MOST_SMOOTH;

  // from here on in steps: the detail that this many polynomials follow
  const detail = (2 * smooth) / width;
  const deep = layers.map((layer, i) => {
    const a = layer.thickness * Math.hypot(1 / depths[i]!, Math.min(finest, detail) / 2);
    return Math.ceil(Math.min(1.7 + 0.55 * a, 3 + 2.2 * Math.sqrt(a)) + 2 * digits);
  });
  const edge = layers.reduce((least, { thickness }, i) => {
    const depth = depths[i]!;
    return Math.min(least, depth * Math.max(1, depth / thickness));
  }, Number.POSITIVE_INFINITY);
  const last = edge / (2 + 2 * digits);
  const least = LEAST_SCALE * width;
  return {
    smooth,
    scales: edgeScales(width, smooth, Math.max(last, least), 2.5 / (1 + 0.25 * digits)),
    axial: deep.map((count) => Math.min(count, MOST_AXIAL)),
    reach: 2 ** (Math.ceil(2 * Math.log2(reach)) / 2),
    nearest: 2 ** Math.floor(Math.log2(smallestGap)),
    adequate: wanted <= MOST_SMOOTH && last >= least && deep.every((count) => count <= MOST_AXIAL),
  };
}

/** A name that equal plates share and unequal ones do not. */
export function discKey(spec: DiscSpec, resolution: DiscResolution): string {
  const { radius, innerRadius, layers, angularFrequency } = spec;
  const { smooth, scales, axial, reach, nearest } = resolution;
  return [
    radius,
    innerRadius,
    ...layers.flatMap((layer) => [layer.thickness, layer.resistivity]),
    angularFrequency,
    smooth,
    ...scales,
    ...axial,
    reach,
    nearest,
  ].join(' ');
}

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
const contributions = new Float64Array(STEPS);

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
  let sum = 0;
  for (let i = STEPS - 1; i >= 0; i--) {
    const k = at(i);
    let response = 0;
    for (let l = 0; l < layers.length; l++) {
      const thick = 2 * (k * depths[l]!) ** 2;
      const sheet = (k * depths[l]! ** 2) / layers[l]!.thickness;
      response = Math.max(response, 1 / Math.hypot(1, thick, sheet));
    }
    let source = 0;
    for (const { innerRadius, outerRadius, height, offset, turns } of windings) {
      const width = outerRadius - innerRadius;
      const amplitude = ((turns / (width * height)) * -Math.expm1(-k * height)) / k;
      // the edges of a section narrower than 1/k work against each other
      const narrow = Math.min(1, (k * width) ** 2);
      for (const edge of [innerRadius, outerRadius]) {
        const distance = Math.hypot(gap + offset, Math.max(0, edge - radius));
        source += amplitude * amplitude * narrow * (edge / (k * k)) * Math.exp(-2 * k * distance);
      }
    }
    // k dk on a logarithmic scale
    sum += source * response * k;
    contributions[i] = sum;
  }
  for (let i = 0; i < STEPS; i++) if (contributions[i]! < accuracy * sum) return at(i);
  return at(STEPS);
}
