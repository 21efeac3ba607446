import type { EllipticPair } from '../math/elliptic.ts';
import { gaussLegendre } from '../math/gauss-legendre.ts';
import { axisField } from './axis-field.ts';
import { MU0 } from './constants.ts';
import type { CoilWinding } from './disc/coil-source.ts';
import { createEllipticPair, type LoopField, loopField } from './loops.ts';
import { noteValue, noteWinding, WINDING_VALUES } from './note-value.ts';
import { PlateReflection, type PlateStack } from './plate-reflection.ts';

/**
 * Flux density where a visitor stands, T per A (rms for rms): beside the coil in its mid-plane and on its axis on the
 * side away from the plate, each the larger of coil alone and coil with plate. Thin plates and magnetic ones push
 * field out to the side: with the plate it can be half as much again, over steel twice as much.
 *
 * Past 300 lines: one law, the coil, its images and the loops they are made of.
 *
 * The coil is a few filaments; it and its images are multipoles where they are far. The plate (wide, as in the wide-plate
 * law) reflects like a ladder of images: Gamma(k) is
 * fitted by sum_j a_j e^{-s_j k}, s_j = d {0, 0.1 ... 10}, complex a_j by least squares over k d = 0.1 ... 10 (the
 * matrix depends on ratios alone and is inverted when the module loads), and each term is the coil's mirror image
 * s_j deeper than in a perfect mirror.
 *
 * Domain: distance d at least 1.2 outer radii beside the coil (nearer: NaN; that is no longer beside it); any on the axis.
 * Accuracy, measured against dense quadrature: beside the coil 6 % (half of the cases within 1 %), on the axis 0.5 %.
 * Source: Dodd & Deeds (1968) for the reflected field; the images of a conducting half-space by exponentials:
 * P. R. Bannister, Proc. IEEE 67 (1979) 1001-1008 (from memory) for the idea; the ladder is our own.
 */
export class VisitorField {
  /** T/A, of the last question. */
  beside = Number.NaN;
  onAxis = Number.NaN;
  private readonly reflection = new PlateReflection();
  private readonly k = new Float64Array(SAMPLES);
  /** Complex size of each image, and what it follows from: plate, frequency and distance, but neither coil nor gap. */
  private readonly imageRe = new Float64Array(PLATES * IMAGES);
  private readonly imageIm = new Float64Array(PLATES * IMAGES);
  /** Of the plates last seen, and of the one in hand; which of them that is. */
  private keys = new Float64Array(0);
  private key = new Float64Array(0);
  private place = 0;
  /** The coil's own field, T/A, and what it follows from. */
  private readonly own = { axis: 0, radial: 0, axial: 0 };
  private coilKey = new Float64Array(0);
  private readonly work: FilamentSum = {
    turns: 0,
    sum: { radial: 0, axial: 0 },
    one: { radial: 0, axial: 0 },
    pair: createEllipticPair(),
  };

  /**
   * @param distance from the axis, or on it from the coil's mid-plane, m
   * @param gap m
   */
  evaluate(
    windings: readonly CoilWinding[],
    windingCount: number,
    plate: PlateStack,
    gap: number,
    distance: number,
  ): void {
    if (!this.findImages(plate, distance)) this.fillImages(plate, distance);
    const images = this.place * IMAGES;
    const { imageRe, imageIm, work } = this;
    let height = 0;
    let outerRadius = 0;
    for (let w = 0; w < windingCount; w++) {
      const winding = windings[w]!;
      height = Math.max(height, winding.offset + winding.height);
      outerRadius = Math.max(outerRadius, winding.outerRadius);
    }
    const middle = height / 2;
    const near = distance >= NEAREST * outerRadius;
    const { own } = this;
    if (!this.sameCoil(windings, windingCount, distance)) {
      own.axis = onAxis(windings, windingCount, middle + distance, null);
      const sum = near ? besideCoil(windings, windingCount, distance, middle, work) : NOWHERE;
      own.radial = sum.radial;
      own.axial = sum.axial;
    }
    let axisRe = own.axis;
    let axisIm = 0;
    let axialRe = own.axial;
    let axialIm = 0;
    let radialRe = own.radial;
    let radialIm = 0;
    for (let j = 0; j < IMAGES; j++) {
      const re = imageRe[images + j]!;
      const im = imageIm[images + j]!;
      const deeper = 2 * gap + SIGMA[j]! * distance;
      const axis = onAxis(windings, windingCount, middle + distance, deeper);
      axisRe += re * axis;
      axisIm += im * axis;
      if (near) {
        const depth = middle + deeper;
        const { radial, axial } = besideImage(windings, windingCount, distance, depth, work);
        radialRe += re * radial;
        radialIm += im * radial;
        axialRe += re * axial;
        axialIm += im * axial;
      }
    }
    this.onAxis = Math.max(Math.abs(own.axis), Math.sqrt(axisRe * axisRe + axisIm * axisIm));
    const square = axialRe * axialRe + axialIm * axialIm + radialRe * radialRe + radialIm * radialIm;
    this.beside = Math.sqrt(Math.max(own.axial * own.axial + own.radial * own.radial, square));
  }

  private fillImages({ layers, layerCount, omega }: PlateStack, distance: number): void {
    const { k, reflection, imageRe, imageIm, place } = this;
    for (let i = 0; i < SAMPLES; i++) k[i] = KAPPA[i]! / distance;
    reflection.fill(layers, layerCount, omega, k, SAMPLES);
    for (let j = 0; j < IMAGES; j++) {
      let re = 0;
      let im = 0;
      for (let i = 0; i < SAMPLES; i++) {
        const p = FIT[j * SAMPLES + i]!;
        re += p * reflection.re[i]!;
        im += p * reflection.im[i]!;
      }
      imageRe[place * IMAGES + j] = re;
      imageIm[place * IMAGES + j] = im;
    }
  }

  /** Compares with the coil and distance last seen and remembers these. */
  private sameCoil(windings: readonly CoilWinding[], count: number, distance: number): boolean {
    const size = 2 + WINDING_VALUES * count;
    if (this.coilKey.length < size) this.coilKey = new Float64Array(size).fill(Number.NaN);
    const { coilKey } = this;
    let same = noteValue(coilKey, 0, count);
    same = noteValue(coilKey, 1, distance) && same;
    for (let w = 0; w < count; w++) {
      same = noteWinding(coilKey, 2 + WINDING_VALUES * w, windings[w]!) && same;
    }
    return same;
  }

  /**
   * Looks among the plates and distances last seen, the next one first: designs of a coil go through the same plates as those
   * of the coil before. Takes the next place where it is none of them.
   */
  private findImages({ layers, layerCount, omega }: PlateStack, distance: number): boolean {
    const size = 2 + 3 * layerCount;
    if (this.key.length !== size) {
      this.key = new Float64Array(size);
      this.keys = new Float64Array(PLATES * size).fill(Number.NaN);
    }
    const { key, keys } = this;
    for (let j = 0; j < layerCount; j++) {
      const { resistivity, relativePermeability, thickness } = layers[j]!;
      // what differs most often comes first
      key[3 * j] = thickness;
      key[3 * j + 1] = resistivity;
      key[3 * j + 2] = relativePermeability;
    }
    key[size - 2] = omega;
    key[size - 1] = distance;
    if (this.holds(this.place)) return true;
    const next = (this.place + 1) % PLATES;
    for (let n = 0; n < PLATES - 1; n++) {
      this.place = (next + n) % PLATES;
      if (this.holds(this.place)) return true;
    }
    this.place = next;
    keys.set(key, next * size);
    return false;
  }

  private holds(place: number): boolean {
    const { key, keys } = this;
    const size = key.length;
    const at = place * size;
    for (let i = 0; i < size; i++) if (keys[at + i] !== key[i]) return false;
    return true;
  }
}

/** Distance beside the coil, in outer radii, from which a few filaments stand for the section. */
const NEAREST = 1.2;

/** Of the height: two filaments at +-h / (2 sqrt 3) from the middle stand for it (Gauss). */
const AXIAL = 1 / Math.sqrt(12);

const NOWHERE: LoopField = { radial: Number.NaN, axial: Number.NaN };

/** Over the width of a section. */
const FILAMENTS = 3;
const RADII = gaussLegendre(FILAMENTS);

/** From this many squares of the outer radius on (of the squared distance) a section is its first three multipoles. */
const FAR = 8;

const SAMPLES = 14;
const KAPPA = ladder(0.1, 10, SAMPLES);
const SIGMA = Float64Array.from([0, ...ladder(0.1, 10, 6)]);
const IMAGES = SIGMA.length;
/** A power of two. */
const PLATES = 16;
/** Keeps the coefficients, which alternate, from growing beyond what the fit needs. */
const DAMPING = 1e-4;
const FIT = fitMatrix();

/**
 * Field on the axis, T per A, `height` above the coil's plate-side face: of the windings, or of their mirror images
 * whose plate-side face lies `mirror` below the coil's.
 */
function onAxis(
  windings: readonly CoilWinding[],
  count: number,
  height: number,
  mirror: number | null,
): number {
  let field = 0;
  for (let w = 0; w < count; w++) {
    const winding = windings[w]!;
    const middle = winding.offset + winding.height / 2;
    const z = mirror === null ? height - middle : height + mirror + middle;
    field += winding.sense * axisField(winding, z);
  }
  return field;
}

/** Working storage: the field of all filaments so far, and of one; the turns that those in hand share. */
interface FilamentSum {
  turns: number;
  readonly sum: LoopField;
  readonly one: LoopField;
  readonly pair: EllipticPair;
}

/** The same at a distance from the axis, by filaments: two a radius for the windings. */
function besideCoil(
  windings: readonly CoilWinding[],
  count: number,
  distance: number,
  height: number,
  work: FilamentSum,
): LoopField {
  const { sum } = work;
  sum.radial = 0;
  sum.axial = 0;
  for (let w = 0; w < count; w++) {
    const winding = windings[w]!;
    const z = height - winding.offset - winding.height / 2;
    work.turns = (winding.sense * winding.turns) / 2;
    addSection(winding, distance, z + AXIAL * winding.height, work);
    addSection(winding, distance, z - AXIAL * winding.height, work);
  }
  return sum;
}

/** Of their mirror images, one a radius. */
function besideImage(
  windings: readonly CoilWinding[],
  count: number,
  distance: number,
  depth: number,
  work: FilamentSum,
): LoopField {
  const { sum } = work;
  sum.radial = 0;
  sum.axial = 0;
  for (let w = 0; w < count; w++) {
    const winding = windings[w]!;
    work.turns = winding.sense * winding.turns;
    addSection(winding, distance, depth + winding.offset + winding.height / 2, work);
  }
  return sum;
}

/** Adds the field of the turns in hand, spread evenly over the width of a section, `z` above their plane. */
function addSection(winding: CoilWinding, distance: number, z: number, work: FilamentSum): void {
  const { outerRadius: r2 } = winding;
  if (distance * distance + z * z > FAR * r2 * r2) addMultipoles(winding, distance, z, work);
  else addFilaments(winding, distance, z, work);
}

function addFilaments(winding: CoilWinding, distance: number, z: number, work: FilamentSum): void {
  const { sum, one, pair, turns } = work;
  const { innerRadius: r1, outerRadius: r2 } = winding;
  for (let i = 0; i < FILAMENTS; i++) {
    loopField(r1 + (r2 - r1) * RADII.nodes[i]!, distance, z, one, pair);
    const weight = turns * RADII.weights[i]!;
    sum.radial += weight * one.radial;
    sum.axial += weight * one.axial;
  }
}

/**
 * Far away: the field on the axis, mu0 a^2 / 2 (z^2 + a^2)^(-3/2), in falling powers of z, each z^-(l+1) continued off the
 * axis as P_l(c) R^-(l+1), c = z / R; the radial part from the potential P_(l-1)(c) / (l R^l). Powers of the radius a
 * are averaged over the width. Left out is at most 1.4e-3 of the first.
 */
function addMultipoles(winding: CoilWinding, distance: number, z: number, { sum, turns }: FilamentSum): void {
  const { innerRadius: r1, outerRadius: r2 } = winding;
  const a1 = r1 * r1;
  const a2 = r2 * r2;
  const perSquare = 1 / (distance * distance + z * z);
  const perDistance = Math.sqrt(perSquare);
  const perWidth = 1 / (r2 - r1);
  const cube1 = r1 * a1;
  const cube2 = r2 * a2;
  // means of a^2, a^4, a^6 over R^2, R^4, R^6
  const first = ((cube2 - cube1) * perWidth * perSquare) / 3;
  const second = ((cube2 * a2 - cube1 * a1) * perWidth * perSquare * perSquare) / 5;
  const third = ((cube2 * a2 * a2 - cube1 * a1 * a1) * perWidth * perSquare * perSquare * perSquare) / 7;
  const c = z * perDistance;
  const s = distance * perDistance;
  const cc = c * c;
  const scale = (MU0 / 2) * turns * perDistance;
  sum.axial +=
    scale *
    ((first * (3 * cc - 1)) / 2 -
      (second * (3 * (3 + cc * (-30 + 35 * cc)))) / 16 +
      (third * (15 * (-5 + cc * (105 + cc * (-315 + 231 * cc))))) / 128);
  sum.radial +=
    scale *
    s *
    c *
    (1.5 * first -
      (second * (3 * (-15 + 35 * cc))) / 16 +
      (third * (15 * (105 + cc * (-630 + 693 * cc)))) / 384);
}

function ladder(from: number, to: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => from * (to / from) ** (i / (count - 1)));
}

/** (M^T M + damping)^{-1} M^T, M_ij = e^{-kappa_i sigma_j}, by Gauss-Jordan elimination. */
function fitMatrix(): Float64Array {
  const m = (i: number, j: number) => Math.exp(-KAPPA[i]! * SIGMA[j]!);
  const width = IMAGES + SAMPLES;
  const a = new Float64Array(IMAGES * width);
  for (let r = 0; r < IMAGES; r++) {
    for (let c = 0; c < IMAGES; c++) {
      let dot = r === c ? DAMPING : 0;
      for (let i = 0; i < SAMPLES; i++) dot += m(i, r) * m(i, c);
      a[r * width + c] = dot;
    }
    for (let i = 0; i < SAMPLES; i++) a[r * width + IMAGES + i] = m(i, r);
  }
  // symmetric and positive definite: no pivoting needed
  for (let p = 0; p < IMAGES; p++) {
    const pivot = a[p * width + p]!;
    for (let c = 0; c < width; c++) a[p * width + c]! /= pivot;
    for (let r = 0; r < IMAGES; r++) {
      const factor = a[r * width + p]!;
      if (r === p || factor === 0) continue;
      for (let c = 0; c < width; c++) a[r * width + c]! -= factor * a[p * width + c]!;
    }
  }
  const fit = new Float64Array(IMAGES * SAMPLES);
  for (let r = 0; r < IMAGES; r++) {
    fit.set(a.subarray(r * width + IMAGES, (r + 1) * width), r * SAMPLES);
  }
  return fit;
}
