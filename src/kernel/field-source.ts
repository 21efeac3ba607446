import { type BesselRows, besselJ01Times } from '../math/bessel-j01.ts';
import { besselMoment } from '../math/bessel-moment.ts';
import { decay } from '../math/decay.ts';
import { gaussLegendre } from '../math/gauss-legendre.ts';
import { fadedPart } from './disc/spatial-nodes.ts';
import type { NodeSet } from './spectrum-nodes.ts';
import type { Section } from './winding-spectrum.ts';

/** Gauss radii of a section at which the plate's field is taken, from the inner edge. */
export const FIELD_RULE = gaussLegendre(3);

/**
 * Distance of the points from either face, of the height: close to the Gauss point 0.2113, and then one exponential
 * gives all others.
 */
export const FACE_DISTANCE = 0.2;

/**
 * What a winding's own section receives of its reflected spectrum, node by node, before plate and gap come in: S(k)
 * times J1 and J0 at three radii (see WindingField, which sums them). The Bessel functions are most of the work, so
 * they are kept from gap to gap, and from design to design for as long as winding and nodes stay: a node's values
 * depend on nothing else. Nodes are worked out as far as some gap has needed.
 */
export class FieldSource {
  /**
   * Dimensionless, without S: the axial factor, the weight of a node and the near point's decay from the face; the far
   * point's decay from the near one.
   */
  strength = new Float64Array(0);
  beyond = new Float64Array(0);
  /** By radius: S times J0 (axial field) and J1 (radial field). */
  readonly fields: BesselRows[] = Array.from({ length: RADII }, () => emptyRows(0));
  /** S, where nodes are followed exactly. */
  private spectrum = new Float64Array(0);
  private nodes: NodeSet | null = null;
  private ratio = Number.NaN;
  private rise = Number.NaN;
  private known = 0;

  /** The winding evaluated from now on, at k = b / outer radius. */
  prepare(section: Section, nodes: NodeSet): void {
    const ratio = section.innerRadius / section.outerRadius;
    const rise = (FACE_DISTANCE * section.height) / section.outerRadius;
    if (nodes === this.nodes && ratio === this.ratio && rise === this.rise) return;
    this.nodes = nodes;
    this.ratio = ratio;
    this.rise = rise;
    this.known = 0;
    if (this.strength.length >= nodes.coarse.count) return;
    const room = 2 * nodes.coarse.count;
    this.strength = new Float64Array(room);
    this.beyond = new Float64Array(room);
    this.spectrum = new Float64Array(room);
    for (let p = 0; p < RADII; p++) this.fields[p] = emptyRows(room);
  }

  /** Works out the coarse nodes up to b = `end`, or to where no field is left; returns how many those are. */
  reach(end: number): number {
    const { coarse, window } = this.nodes!;
    const { count, at, b } = coarse;
    const tail = 1 - this.ratio < NARROW;
    const from = this.known;
    const last = tail ? end : Math.min(end, FADED * this.nodes!.stretch);
    // what is known was once in reach
    let to = from > 0 && !(b[from - 1]! > last) ? from : 0;
    while (to < count && !(b[to]! > last) && (tail || window[at[to]!]! > 0)) to++;
    if (to <= from) return to;
    this.known = to;
    this.addAxial(from, to);
    let exactTo = from;
    while (exactTo < to && window[at[exactTo]!]! > 0) exactTo++;
    for (let p = 0; p < RADII; p++) this.addRadius(p, from, exactTo, to);
    if (!tail) return to;
    for (let i = from; i < to; i++) if (window[at[i]!]! < 1) this.addTail(i);
    return to;
  }

  private addAxial(from: number, to: number): void {
    const { ratio, rise, strength, beyond, spectrum } = this;
    const { coarse, moment, window, stretch } = this.nodes!;
    const { at, b, weight } = coarse;
    const perFade = 1 - ratio < NARROW ? 0 : 1 / (FADED * stretch);
    for (let i = from; i < to; i++) {
      const step = decay(b[i]! * rise);
      // e^{-k (zeta_far - zeta_near)}, and in 1 - e^{-k h} one and two steps more
      const far = step * step * step;
      beyond[i] = far;
      strength[i] = weight[i]! * (1 - far * step * step) * step;
    }
    for (let i = from; i < to && window[at[i]!]! > 0; i++) {
      spectrum[i] =
        window[at[i]!]! * fadedPart(b[i]! * perFade) * (moment[at[i]!]! - besselMoment(b[i]! * ratio));
    }
  }

  private addRadius(p: number, from: number, exactTo: number, to: number): void {
    const rows = this.fields[p]!;
    // radius over outer radius
    const place = 1 - (1 - this.ratio) * FROM_OUTSIDE[p]!;
    besselJ01Times(this.nodes!.coarse.b, place, this.spectrum, from, exactTo, rows);
    for (let i = exactTo; i < to; i++) {
      rows.j0[i] = 0;
      rows.j1[i] = 0;
    }
  }

  /**
   * One node of the averaged tail, x = k (r2 - r1): the slow parts of X(b) and X(a) times J0(c), J1(c),
   * <X(b) J0(c)> = -cos(b - c) sqrt(b/c) / pi, <X(b) J1(c)> = sin(b - c) sqrt(b/c) / pi, at the three radii.
   */
  private addTail(i: number): void {
    const { ratio, fields } = this;
    const { coarse, window, stretch } = this.nodes!;
    const { at, b } = coarse;
    const faded = (1 - window[at[i]!]!) / Math.PI;
    const x = b[i]! * (1 - ratio);
    // sin and cos of the distances x/2 and x/2 -+ SPREAD x to either edge
    const sm = Math.sin(x / 2);
    const cm = Math.cos(x / 2);
    const ss = Math.sin(SPREAD * x);
    const cs = Math.cos(SPREAD * x);
    for (let p = 0; p < RADII; p++) {
      const outside = FROM_OUTSIDE[p]!;
      const outer = faded * taper((outside * x) / stretch) * Math.sqrt(1 / (1 - outside * (1 - ratio)));
      const inner =
        faded * taper(((1 - outside) * x) / stretch) * Math.sqrt(ratio / (1 - outside * (1 - ratio)));
      // p - 1 is the sign of the point's shift from the middle, outward
      const t = ss * (p - 1);
      const u = p === 1 ? 1 : cs;
      const sinOut = sm * u - cm * t;
      const cosOut = cm * u + sm * t;
      const sinIn = sm * u + cm * t;
      const cosIn = cm * u - sm * t;
      const { j0, j1 } = fields[p]!;
      j1[i]! += outer * sinOut + inner * sinIn;
      j0[i]! += inner * cosIn - outer * cosOut;
    }
  }
}

function emptyRows(length: number): BesselRows {
  return { j0: new Float64Array(length), j1: new Float64Array(length) };
}

const RADII = FIELD_RULE.nodes.length;
/** Distance of the outer Gauss points from the middle. */
const SPREAD = 0.5 - FIELD_RULE.nodes[0]!;
const FROM_OUTSIDE = Float64Array.from(FIELD_RULE.nodes, (x) => 1 - x);
/** In sections wider than this part of the outer radius the field at the points has died where the tail begins. */
const NARROW = 0.4;
/** In those it is followed to this b, and fades from half of it on: within 1 % at the smallest gaps, usually 1e-4. */
const FADED = 44;

/** Fades the slow beat out before the nodes can no longer follow it: 1 up to 16, 0 from 44 on. */
function taper(x: number): number {
  if (x <= 16) return 1;
  if (x >= 44) return 0;
  const t = (44 - x) / 28;
  return t * t * (3 - 2 * t);
}
