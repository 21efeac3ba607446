import { besselMoment, MOMENT_TAIL_START, momentTailP, momentTailQ } from '../math/bessel-moment.ts';
import { decay } from '../math/decay.ts';
import { type GaussRule, gaussLegendre } from '../math/gauss-legendre.ts';

/**
 * Where the spatial-frequency integrals of a winding over a plate are sampled.
 *
 * The integrand is S(k)^2 times smooth factors, S(k) = int_{r1}^{r2} r J1(kr) dr = (X(k r2) - X(k r1)) / k^2. It is
 * smooth at small k, oscillates with half-period pi/(2 r2) beyond, and has an algebraic tail. Nodes are placed in
 * the dimensionless b = k r2:
 *
 *   [0, H]       Gauss panels halved toward zero down to the plate's own slow scale (`levels` halvings);
 *   [H, 60]      panels with edges H p^2: fine where the integrand is large, coarse where it has decayed;
 *   [60, end]    octaves, in which the integrand is an average over the fast oscillation (below): 5 nodes each;
 *   where the section is narrower than 0.73 r2, a slower beat cos(k (r2 - r1)) outlives b = 60 and panels of its
 *   own follow it until it too has averaged out (quarter-octave classes of width, so that sets can be shared).
 *
 * Averaging: far out X(x) = 1 + Re[F(x) e^{ix}], and the terms of S^2 in e^{2ix} integrate to nothing against
 * smooth factors. A smooth window (half an erfc) crosses from S^2 to its average between b = 28 and 60, so that
 * neither the cut nor the dropped oscillation leaves a trace. This makes the node count nearly independent of
 * how thin the winding or how small the gap is: about 100 for a usual rig, a few hundred anywhere in the domain.
 */
export interface NodeSet {
  readonly count: number;
  /** 1, or THOROUGH. */
  readonly stretch: number;
  /** k r2. */
  readonly b: Float64Array;
  /** Quadrature weight (in b) over b^4. */
  readonly weight: Float64Array;
  /** The same over b^6. */
  readonly steepWeight: Float64Array;
  /** X(b) where the window is open. */
  readonly moment: Float64Array;
  /** How much of the exact S^2 to take: 1 at small b, 0 in the averaged tail. */
  readonly window: Float64Array;
  /** Nodes below this index have a window of 1, those from `windowEnd` on one of 0. */
  readonly exactCount: number;
  readonly windowEnd: number;
  /** The outer edge's share of the average, b (P^2 + Q^2) / pi. */
  readonly outerAverage: Float64Array;
  /** P(b), Q(b) of the tail. */
  readonly tailP: Float64Array;
  readonly tailQ: Float64Array;
  /** Some of the nodes, for what need be known to 1e-3 alone. */
  readonly coarse: CoarseNodes;
  /** End of the last panel; the free inductance adds the rest in closed form. */
  readonly end: number;
}

/**
 * A few nodes of each low panel, where the others serve digits alone, with weights of their own: an integral over them needs
 * nothing that is not sampled at the nodes already.
 */
export interface CoarseNodes {
  readonly count: number;
  /** Which of the nodes, rising, and their k r2. */
  readonly at: Int32Array;
  readonly b: Float64Array;
  /** Quadrature weight (in b) over b^2. */
  readonly weight: Float64Array;
  /** The same over that of the node among all. */
  readonly share: Float64Array;
}

/** The exact integrand is followed to here, in b; the window to its average is an erfc of this centre and width. */
const END_OF_EXACT = 60;
const WINDOW_CENTRE = 44;
const WINDOW_WIDTH = 5;
const WINDOW_OPEN = WINDOW_CENTRE - 3.5 * WINDOW_WIDTH;

/** Thorough sets stretch all of this by two: magnetic plates reflect at every k, so that the tail weighs more. */
const THOROUGH = 2;

const WIDE_PANELS = 11;
const HOOP_PANELS = 16;
/** Its last panels must be no wider than those of the usual set, and the tail is heavier. */
const THOROUGH_PANELS = 2.5;
/** Below this ratio of section width to outer radius the tail weighs enough to need finer panels before it. */
const HOOP_RATIO = 0.35;
const LOW = gaussLegendre(6);
const MIDDLE = gaussLegendre(7);
const BEAT = gaussLegendre(6);
const HIGH = gaussLegendre(5);

/** Points of a rule, and the weights with which they alone integrate what is as smooth as they can tell. */
interface Subset {
  readonly at: readonly number[];
  readonly weights: readonly number[];
}

function allOf(rule: GaussRule): Subset {
  return { at: Array.from(rule.nodes.keys()), weights: Array.from(rule.weights) };
}

/** Their Lagrange polynomials, integrated by the whole rule. */
function someOf(rule: GaussRule, at: readonly number[]): Subset {
  const { nodes, weights } = rule;
  const lagrange = (j: number, x: number) =>
    at.reduce((product, i) => (i === j ? product : (product * (x - nodes[i]!)) / (nodes[j]! - nodes[i]!)), 1);
  return {
    at,
    weights: at.map((j) => weights.reduce((sum, w, i) => sum + w * lagrange(j, nodes[i]!), 0)),
  };
}

const LOW_SOME = someOf(LOW, [0, 2, 5]);
/** By panel; the rest take all. */
const MIDDLE_SOME: readonly (Subset | undefined)[] = [
  undefined,
  someOf(MIDDLE, [1, 3, 5]),
  someOf(MIDDLE, [0, 1, 3, 5, 6]),
];

/** The beat cos(x), x = k (r2 - r1): panels this wide in x, faded out around BEAT_CENTRE, gone at BEAT_END. */
const BEAT_PANEL = 6;
const BEAT_CENTRE = 30;
const BEAT_WIDTH = 5;
const BEAT_END = 44;
/** Sections wider than this have no beat left at b = 60. */
const BEAT_RATIO = BEAT_END / END_OF_EXACT;
const CLASSES_PER_OCTAVE = 4;

const MAX_LEVELS = 24;

/**
 * Node set of a winding.
 * @param ratio (r2 - r1) / r2
 * @param slowest the smallest b on which the plate's reflection or the gap's exponential varies
 * @param end the b at which the integrals may stop
 * @param thorough whether the plate is magnetic or the gap far beyond the winding's size
 */
export function spectrumNodes(ratio: number, slowest: number, end: number, thorough: boolean): NodeSet {
  const stretch = thorough ? THOROUGH : 1;
  const exactEnd = stretch * END_OF_EXACT;
  const beat = Math.max(0, Math.ceil(CLASSES_PER_OCTAVE * Math.log2(BEAT_RATIO / ratio)));
  const hoop = ratio < HOOP_RATIO;
  const panels = Math.round((hoop ? HOOP_PANELS : WIDE_PANELS) * (thorough ? THOROUGH_PANELS : 1));
  const levels = Math.min(MAX_LEVELS, Math.max(0, Math.ceil(Math.log2(exactEnd / panels ** 2 / slowest))));
  const beatEnd = exactEnd * 2 ** (beat / CLASSES_PER_OCTAVE);
  const octaves = Math.max(0, Math.ceil(Math.log2(end / beatEnd)));
  const key = ((beat * 64 + octaves) * 64 + levels) * 64 + panels;
  let nodes = SETS.get(key);
  if (!nodes) {
    nodes = makeNodes(stretch, panels, levels, beat, octaves);
    SETS.set(key, nodes);
  }
  return nodes;
}

/** Constants, computed when first used and shared by all designs: a few dozen in a usual study, a few thousand could. */
const SETS = new Map<number, NodeSet>();

function makeNodes(stretch: number, panels: number, levels: number, beat: number, octaves: number): NodeSet {
  const exactEnd = stretch * END_OF_EXACT;
  const b: number[] = [];
  const weights: number[] = [];
  const at: number[] = [];
  const coarseWeights: number[] = [];
  const panel = (from: number, to: number, rule: GaussRule, some: Subset = allOf(rule)) => {
    some.at.forEach((i, n) => {
      at.push(b.length + i);
      coarseWeights.push((to - from) * some.weights[n]!);
    });
    rule.nodes.forEach((x, i) => {
      b.push(from + (to - from) * x);
      weights.push((to - from) * rule.weights[i]!);
    });
  };
  const first = exactEnd / panels ** 2;
  panel(0, first / 2 ** levels, LOW, LOW_SOME);
  for (let level = levels; level > 0; level--) {
    panel(first / 2 ** level, first / 2 ** (level - 1), LOW, LOW_SOME);
  }
  for (let p = 1; p < panels; p++) {
    panel(first * p * p, first * (p + 1) * (p + 1), MIDDLE, MIDDLE_SOME[p]);
  }
  let edge = exactEnd;
  if (beat > 0) {
    const width = (BEAT_PANEL / BEAT_RATIO) * 2 ** ((beat - 1) / CLASSES_PER_OCTAVE);
    for (; 2 * edge <= width; edge *= 2) panel(edge, 2 * edge, BEAT);
    const beatEnd = exactEnd * 2 ** (beat / CLASSES_PER_OCTAVE);
    const pieces = Math.ceil((beatEnd - edge) / width);
    const step = (beatEnd - edge) / pieces;
    for (let i = 0; i < pieces; i++) {
      panel(edge + i * step, edge + (i + 1) * step, BEAT);
    }
    edge = beatEnd;
  }
  for (let octave = 0; octave < octaves; octave++, edge *= 2) {
    panel(edge, 2 * edge, HIGH);
  }

  const count = b.length;
  const window = Float64Array.from(b, (x) =>
    x < stretch * WINDOW_OPEN ? 1 : x > exactEnd ? 0 : fade((x / stretch - WINDOW_CENTRE) / WINDOW_WIDTH),
  );
  const tailP = Float64Array.from(b, (x) => (x > MOMENT_TAIL_START ? momentTailP(x) : 0));
  const tailQ = Float64Array.from(b, (x) => (x > MOMENT_TAIL_START ? momentTailQ(x) : 0));
  const opens = window.findIndex((w) => w < 1);
  const closes = window.indexOf(0);
  return {
    count,
    stretch,
    b: Float64Array.from(b),
    weight: Float64Array.from(b, (x, i) => weights[i]! / (x * x * x * x)),
    steepWeight: Float64Array.from(b, (x, i) => weights[i]! / x ** 6),
    moment: Float64Array.from(b, (x) => (x <= exactEnd ? besselMoment(x) : 0)),
    window,
    exactCount: opens < 0 ? count : opens,
    windowEnd: closes < 0 ? count : closes,
    outerAverage: Float64Array.from(b, (x, i) => (x * (tailP[i]! ** 2 + tailQ[i]! ** 2)) / Math.PI),
    tailP,
    tailQ,
    coarse: {
      count: at.length,
      at: Int32Array.from(at),
      b: Float64Array.from(at, (i) => b[i]!),
      weight: Float64Array.from(at, (i, n) => coarseWeights[n]! / (b[i]! * b[i]!)),
      share: Float64Array.from(at, (i, n) => coarseWeights[n]! / weights[i]!),
    },
    end: edge,
  };
}

/** How much of the slow beat cos(x), x = k (r2 - r1), a set still follows. */
export function beatWindow(x: number, stretch: number): number {
  return x < stretch * BEAT_END ? fade((x / stretch - BEAT_CENTRE) / BEAT_WIDTH) : 0;
}

/**
 * erfc(x) / 2 to 1e-7. Only its smoothness matters here, not its digits.
 * Source: W. J. Cody's problem, rational fit in t = 1/(1 + p x) after Abramowitz & Stegun 7.1.26 (1.5e-7).
 */
function fade(x: number): number {
  const z = Math.abs(x);
  const t = 1 / (1 + 0.3275911 * z);
  const tail =
    0.5 *
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    decay(z * z);
  return x >= 0 ? tail : 1 - tail;
}
