import { gaussLegendre } from '../../math/gauss-legendre.ts';

/** Quadrature over spatial frequency: nodes k and weights, both 1/m. */
export interface SpatialNodes {
  readonly count: number;
  readonly k: Float64Array;
  readonly weight: Float64Array;
}

const RULE = gaussLegendre(8);
const OCTAVE = gaussLegendre(4);

/** Phase of the fastest oscillation over one panel, rad: 8 Gauss points follow it to 1e-7. */
const PANEL_PHASE = 10;

/**
 * Nodes for int_0^cutoff f(k) dk where f oscillates like e^{jk length} and, toward zero, varies on scales down to
 * 1 / longest: even panels, the first one halved toward zero.
 *
 * @param cutoff upper end, 1/m
 * @param length the sum of the two radii whose Bessel functions meet in f, m
 * @param longest largest length that appears in an exponential, m
 */
export function spatialNodes(cutoff: number, length: number, longest: number): SpatialNodes {
  const panels = Math.max(1, Math.ceil((cutoff * length) / PANEL_PHASE));
  const width = cutoff / panels;
  const halvings = Math.max(0, Math.ceil(Math.log2(width * longest)));
  const size = RULE.nodes.length;
  const count = (panels + halvings) * size;
  const k = new Float64Array(count);
  const weight = new Float64Array(count);
  let at = 0;
  const panel = (from: number, to: number) => {
    for (let i = 0; i < size; i++, at++) {
      k[at] = from + (to - from) * RULE.nodes[i]!;
      weight[at] = (to - from) * RULE.weights[i]!;
    }
  };
  panel(0, width / 2 ** halvings);
  for (let h = halvings; h > 0; h--) panel(width / 2 ** h, width / 2 ** (h - 1));
  for (let p = 1; p < panels; p++) panel(p * width, (p + 1) * width);
  return { count, k, weight };
}

/**
 * Continues nodes from `from` to `to`, where f is a slow function of k plus slow ones times oscillations: four nodes
 * a panel, each a burst of points over which the oscillations average to nothing.
 *
 * Without a hole there is one oscillation, of period pi / radius, panels are octaves, and a burst is three points a third
 * of the period apart. A hole adds its own rim: products of J1(kR) and J1(ka) turn with 2R, 2a, R + a and R - a. A pair
 * of points pi / length apart meets an oscillation e^{jk length} with opposite signs, so bursts are such pairs of pairs.
 * A small hole turns slowly: below k length = TURNS panels follow its oscillation, which is then not averaged.
 *
 * What is left is of first order in a pair's distance over k times an oscillation that panels meet at random, some 1e-4
 * where the lowest k needed has k (R - a) > 70.
 */
export function withBursts(
  nodes: SpatialNodes,
  from: number,
  to: number,
  radius: number,
  hole = 0,
): SpatialNodes {
  if (to <= from) return nodes;
  const k = Array.from(nodes.k);
  const weight = Array.from(nodes.weight);
  const third = Math.PI / (3 * radius);
  const pierced = hole > 0;
  const lengths = [2 * radius, radius + hole, radius - hole, 2 * hole];
  const octaves = Math.ceil(Math.log2(to / from));
  const ratio = (to / from) ** (1 / (pierced ? 2 * octaves : octaves));
  const slow = TURNS / (2 * hole);
  let start = from;
  let left = pierced ? Number.POSITIVE_INFINITY : octaves;
  while (left-- > 0 && start < to * (1 - 1e-12)) {
    const next =
      pierced && start < slow ? Math.min(start * ratio, start + PHASE / (2 * hole)) : start * ratio;
    const end = pierced ? Math.min(next, to) : next;
    for (let i = 0; i < OCTAVE.nodes.length; i++) {
      const centre = start + (end - start) * OCTAVE.nodes[i]!;
      let burst = [centre - third, centre, centre + third];
      if (pierced) {
        burst = [centre];
        for (const length of lengths) {
          if (centre * length < TURNS) continue;
          const aside = Math.PI / (2 * length);
          burst = burst.flatMap((point) => [point - aside, point + aside]);
        }
      }
      for (const point of burst) {
        k.push(point);
        weight.push(((end - start) * OCTAVE.weights[i]!) / burst.length);
      }
    }
    start = end;
  }
  return { count: k.length, k: Float64Array.from(k), weight: Float64Array.from(weight) };
}

/** Phase, rad, from which on an oscillation is averaged, and over one panel of those below. */
const TURNS = 40;
const PHASE = 4;

/** The nodes below a cutoff with weights that fade out over its upper half, so that the cut leaves no ripple. */
export function faded({ k, weight }: SpatialNodes, cutoff: number): SpatialNodes {
  let count = k.length;
  while (count > 0 && k[count - 1]! >= cutoff) count--;
  const below = k.slice(0, count);
  const faint = new Float64Array(count);
  for (let q = 0; q < count; q++) faint[q] = weight[q]! * fadedPart(below[q]! / cutoff);
  return { count, k: below, weight: faint };
}

/** What the fade leaves at a share x of the cutoff: 1 up to a half, 0 from 1 on, between them the smooth quintic. */
export function fadedPart(x: number): number {
  if (x <= 0.5) return 1;
  if (x >= 1) return 0;
  const s = 2 - 2 * x;
  return s * s * s * (10 - s * (15 - 6 * s));
}
