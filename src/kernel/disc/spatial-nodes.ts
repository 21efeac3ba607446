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
 * Continues nodes from `from` to `to`, where f is a slow function of k plus a slow one times an oscillation of
 * period pi / radius: four nodes an octave, each a burst of three a third of a period apart, over which the
 * oscillation averages to nothing.
 */
export function withBursts(nodes: SpatialNodes, from: number, to: number, radius: number): SpatialNodes {
  if (to <= from) return nodes;
  const octaves = Math.ceil(Math.log2(to / from));
  const ratio = (to / from) ** (1 / octaves);
  const k = Array.from(nodes.k);
  const weight = Array.from(nodes.weight);
  const third = Math.PI / (3 * radius);
  for (let octave = 0; octave < octaves; octave++) {
    const start = from * ratio ** octave;
    const width = start * (ratio - 1);
    for (let i = 0; i < OCTAVE.nodes.length; i++) {
      const centre = start + width * OCTAVE.nodes[i]!;
      k.push(centre - third, centre, centre + third);
      const share = (width * OCTAVE.weights[i]!) / 3;
      weight.push(share, share, share);
    }
  }
  return { count: k.length, k: Float64Array.from(k), weight: Float64Array.from(weight) };
}

/** The same nodes with weights that fade out over the upper half, so that the cut leaves no ripple. */
export function faded({ count, k, weight }: SpatialNodes, cutoff: number): SpatialNodes {
  const share = (x: number) => {
    if (x <= 0.5) return 1;
    const s = 2 - 2 * x;
    return s * s * s * (10 - s * (15 - 6 * s));
  };
  return { count, k, weight: weight.map((w, q) => w * share(k[q]! / cutoff)) };
}
