import { besselJ1 } from '../../math/bessel-j1.ts';
import { type GaussRule, gaussLegendre } from '../../math/gauss-legendre.ts';
import { type CoilWinding, coilSource } from '../disc/coil-source.ts';
import type { FieldSamples } from './saturated-plate.ts';

/**
 * The coil's field at the face of a plate for SaturatedPlate: amplitudes over spatial frequency at a gap, and radii at which
 * the local field is wanted, out to two outer radii of the coil.
 *
 * Nodes are few, since a field is wanted to 1 % here: panels over k r2 that follow the slow change of a magnetic plate's
 * reflection near zero and a coil's detail up to where its spectrum has fallen, 12 (1 + r2 / (r2 - r1)).
 */
export class CoilFieldSamples implements FieldSamples {
  count = 0;
  readonly k = new Float64Array(MOST_NODES);
  readonly dk = new Float64Array(MOST_NODES);
  readonly amplitude = new Float64Array(MOST_NODES);
  readonly radii = RADII;
  readonly weight = new Float64Array(RADII);
  readonly stride = MOST_NODES;
  readonly j1 = new Float64Array(MOST_NODES * RADII);
  /** Distances from the axis, m. */
  readonly radius = new Float64Array(RADII);
  private readonly source = new Float64Array(MOST_NODES);
  private nodes = 0;

  /** For a coil: its windings, and the radii that they lie between, m. */
  prepare(windings: readonly CoilWinding[], innerRadius: number, outerRadius: number): void {
    this.layRadii(innerRadius, outerRadius);
    this.layNodes(Math.min(MOST_DETAIL, 12 * (1 + outerRadius / (outerRadius - innerRadius))), outerRadius);
    const { k, dk, source, radius, j1, nodes } = this;
    for (let i = 0; i < nodes; i++) source[i] = 0.5 * coilSource(windings, k[i]!) * dk[i]!;
    for (let p = 0; p < RADII; p++) {
      for (let i = 0; i < nodes; i++) j1[p * MOST_NODES + i] = besselJ1(k[i]! * radius[p]!);
    }
  }

  /** At a gap in m. */
  at(gap: number): void {
    const { nodes, k, source, amplitude } = this;
    let i = 0;
    for (; i < nodes && k[i]! * gap < NOTHING; i++) amplitude[i] = source[i]! * Math.exp(-k[i]! * gap);
    this.count = i;
  }

  private layNodes(end: number, outerRadius: number): void {
    let from = 0;
    let count = 0;
    for (let panel = 0; from < end; panel++) {
      const to = panel < STARTS.length ? STARTS[panel]! : from + STEP;
      for (let i = 0; i < RULE.nodes.length; i++) {
        this.k[count] = (from + (to - from) * RULE.nodes[i]!) / outerRadius;
        this.dk[count] = ((to - from) * RULE.weights[i]!) / outerRadius;
        count++;
      }
      from = to;
    }
    this.nodes = count;
  }

  private layRadii(innerRadius: number, outerRadius: number): void {
    const side = BESIDE * outerRadius;
    const near = Math.max(innerRadius / 2, innerRadius - side);
    let count = this.layPanel(0, near, INNERMOST, 0);
    count = this.layPanel(near, innerRadius, INSIDE, count);
    count = this.layPanel(innerRadius, outerRadius, UNDER, count);
    count = this.layPanel(outerRadius, outerRadius + side, INSIDE, count);
    this.layPanel(outerRadius + side, 2 * outerRadius, INSIDE, count);
  }

  private layPanel(from: number, to: number, { nodes, weights }: GaussRule, count: number): number {
    for (let i = 0; i < nodes.length; i++) {
      const r = from + (to - from) * nodes[i]!;
      this.radius[count + i] = r;
      this.weight[count + i] = (to - from) * weights[i]! * r;
    }
    return count + nodes.length;
  }
}

/** e^{-10} of the field at the coil's face does not saturate anything. */
const NOTHING = 10;
/** Ends of the first panels over k r2; the others are STEP wide. */
const STARTS = [0.08, 0.4, 1.2, 3, 6];
const STEP = 5;
const RULE = gaussLegendre(4);
const MOST_DETAIL = 80;
const MOST_NODES = RULE.nodes.length * (STARTS.length + Math.ceil(MOST_DETAIL / STEP));
const BESIDE = 0.25;
const INNERMOST = gaussLegendre(2);
const INSIDE = gaussLegendre(3);
const UNDER = gaussLegendre(6);
const RADII = INNERMOST.nodes.length + 3 * INSIDE.nodes.length + UNDER.nodes.length;
