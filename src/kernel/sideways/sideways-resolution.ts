import type { CoilWinding } from '../disc/coil-source.ts';
import { resolveDisc } from '../disc/disc-resolution.ts';
import type { DiscSpec } from '../disc/disc-spec.ts';

/** How finely a disc is resolved for coils off its axis, and for which class of coils. */
export interface SidewaysResolution {
  /** Patterns over the radius, each order. */
  readonly smooth: number;
  /** Polynomials over the thickness, one number a layer. */
  readonly axial: readonly number[];
  /** Outer radius that no coil exceeds, gap that none comes nearer than, m. */
  readonly reach: number;
  readonly nearest: number;
  /** False where it would take more unknowns than allowed: no answer. */
  readonly adequate: boolean;
}

/** Forces sideways are small differences: finer than what lift needs. */
const ACCURACY = 1e-3;
const MOST_SMOOTH = 64;
const STEP = 4;

/**
 * The disc solver's own rules, at a finer accuracy, without its edge layers: polynomials alone follow a rim within
 * 3 / n^2 of the width, so that there are enough of them for the narrowest of those layers. Numbers come in steps, so
 * that designs with alike coils share a plate.
 * @param gap at which the answer is wanted, m
 */
export function resolveSideways(
  spec: DiscSpec,
  windings: readonly CoilWinding[],
  gap: number,
): SidewaysResolution {
  const { smooth, scales, axial, reach, nearest, adequate } = resolveDisc(
    spec,
    windings,
    gap,
    ACCURACY,
    true,
  );
  const width = spec.radius - spec.innerRadius;
  const narrowest = Math.min(width, ...scales);
  const rim = STEP * Math.ceil(Math.sqrt((1.5 * width) / narrowest) / STEP);
  const count = Math.max(smooth, Math.min(rim, MOST_SMOOTH));
  return { smooth: count, axial, reach, nearest, adequate: adequate && smooth <= MOST_SMOOTH };
}

/** A name that equal plates share and unequal ones do not. */
export function sidewaysKey(spec: DiscSpec, { smooth, axial, reach, nearest }: SidewaysResolution): string {
  const { radius, innerRadius, layers, angularFrequency } = spec;
  const each = layers.flatMap((layer) => [layer.thickness, layer.resistivity]);
  return [radius, innerRadius, ...each, angularFrequency, smooth, ...axial, reach, nearest].join(' ');
}
