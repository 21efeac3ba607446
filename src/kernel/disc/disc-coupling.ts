import { solveLower, solveUpper } from '../../math/complex-cholesky.ts';
import { decay } from '../../math/decay.ts';
import type { Phasors } from '../field-grid.ts';
import type { GapCoupling } from '../gap-coupling.ts';
import { type CoilWinding, coilSource } from './coil-source.ts';
import type { DiscBlock, DiscPlate } from './disc-plate.ts';
import type { DiscSpec } from './disc-spec.ts';

/**
 * A coil over a disc as a function of the gap: the same answers, in the same terms, as the wide plate's
 * PlateCoupling. Past 300 lines: one law, its ports and its series in the gap. dL is the inductance that the disc adds; -w Im dL the plate's resistance seen by the coil; forces
 * follow from the first derivative (see lift).
 *
 * With m the ports' excitations and Y their admittances, dL = -jw m^T Y m, and since Y is symmetric
 *   dL' = -2jw m'Ym,  dL'' = -2jw (m''Ym + m'Ym'),  dL3 = -2jw (m3 Ym + 3 m''Ym')  (3: third derivative).
 * m(gap) = sum over nodes of e_q a(k_q) e^{-k_q gap}, so that its derivatives are exact.
 *
 * An object serves one plate; `fill` takes one coil after another, and neither it nor `evaluate` allocates.
 * Accuracy: that of the resolution (5e-3 unless given), in dL, plate resistance and lift; a lift that passes
 * through zero has it relative to its largest value over the gap. Ten times better in most rigs (see tests).
 */
export class DiscCoupling implements GapCoupling {
  /** Values at the gap last evaluated: H, H/m, H/m2, H/m3. */
  inductanceRe = 0;
  inductanceIm = 0;
  slopeRe = 0;
  slopeIm = 0;
  curvatureRe = 0;
  curvatureIm = 0;
  jerkRe = 0;
  private readonly plate: DiscPlate;
  /** a(k_q) of the coil; times e^{-k gap}, and the first three derivatives of that. */
  private readonly source: Float64Array;
  /** How much the field of a node excites at most, and what is left of k^3 times that from a node on. */
  private readonly strength: Float64Array;
  private readonly left: Float64Array;
  private readonly value: Float64Array;
  private readonly slope: Float64Array;
  private readonly curvature: Float64Array;
  private readonly jerk: Float64Array;
  /** m and its first three derivatives, one after the other. */
  private readonly excitations: Float64Array;
  /** The gap that they belong to; NaN: none yet. */
  private excitedAt = Number.NaN;
  /** m^T A m and its first three derivatives. */
  private readonly form = new Float64Array(4);

  constructor(plate: DiscPlate) {
    this.plate = plate;
    this.source = new Float64Array(plate.nodes.count);
    this.strength = strengths(plate);
    this.left = new Float64Array(plate.nodes.count);
    this.value = new Float64Array(plate.nodes.count);
    this.slope = new Float64Array(plate.nodes.count);
    this.curvature = new Float64Array(plate.nodes.count);
    this.jerk = new Float64Array(plate.nodes.count);
    this.excitations = new Float64Array(4 * plate.ports);
  }

  /** What setting up the plate cost, see DiscPlate. */
  get work(): number {
    return this.plate.work;
  }

  /** Its layers are those of the resolution. */
  get spec(): DiscSpec {
    return this.plate.spec;
  }

  /** Spatial frequency from which on nothing is asked of the disc, 1/m. */
  get cut(): number {
    return this.plate.resolution.cut ?? Number.POSITIVE_INFINITY;
  }

  /** Takes a coil: no winding may reach beyond the plate's `resolution.reach`. */
  fill(windings: readonly CoilWinding[]): void {
    const { k, count } = this.plate.nodes;
    this.excitedAt = Number.NaN;
    const { source, strength, left } = this;
    for (let q = 0; q < count; q++) source[q] = coilSource(windings, k[q]!);
    let rest = 0;
    for (let q = count - 1; q >= 0; q--) {
      const kq = k[q]!;
      rest += Math.abs(source[q]!) * strength[q]! * kq * kq * kq;
      left[q] = rest;
    }
  }

  /**
   * Real parts alone: what the lift needs.
   * @param gap bare plate surface to the coil's plate-side face, m; at least the plate's `resolution.nearest`
   */
  evaluateLift(gap: number): void {
    const { form, plate } = this;
    this.excite(gap);
    this.evaluateForm(plate.admittanceIm);
    const omega = plate.spec.angularFrequency;
    this.inductanceRe = omega * form[0]!;
    this.slopeRe = omega * form[1]!;
    this.curvatureRe = omega * form[2]!;
    this.jerkRe = omega * form[3]!;
  }

  /** Real and imaginary parts. */
  evaluate(gap: number): void {
    this.evaluateLift(gap);
    const { form, plate } = this;
    this.evaluateForm(plate.admittanceRe);
    const omega = plate.spec.angularFrequency;
    this.inductanceIm = -omega * form[0]!;
    this.slopeIm = -omega * form[1]!;
    this.curvatureIm = -omega * form[2]!;
  }

  /**
   * Where in the disc the heat falls.
   * @param gap m
   * @param current rms, A
   * @param radii distances from the axis, m
   * @param out receives, a radius, the loss of all layers per area of the disc, W/m2; its integral over the disc
   * is -w Im dL current^2
   */
  lossDensity(gap: number, current: number, radii: Float64Array, out: Float64Array): void {
    const { radialBasis, axialBasis, spec } = this.plate;
    out.fill(0, 0, radii.length);
    const profile = new Float64Array(radialBasis.count);
    this.eachBlock(gap, ({ size, radial, axial }, x, y) => {
      for (let s = 0; s < radii.length; s++) {
        radialBasis.evaluate(radii[s]!, profile);
        // the axial profiles are orthonormal: squares add
        let c = -1;
        let sumRe = 0;
        let sumIm = 0;
        for (let i = 0; i <= size; i++) {
          if (i === size || axial[i] !== c) {
            if (c >= 0) {
              const { resistivity } = spec.layers[axialBasis.layer[c]!]!;
              out[s] = out[s]! + resistivity * (sumRe * sumRe + sumIm * sumIm);
            }
            if (i === size) break;
            c = axial[i]!;
            sumRe = 0;
            sumIm = 0;
          }
          sumRe += x[i]! * profile[radial[i]!]!;
          sumIm += y[i]! * profile[radial[i]!]!;
        }
      }
    });
    const scale = (spec.angularFrequency * current) ** 2;
    for (let s = 0; s < radii.length; s++) out[s] = out[s]! * scale;
  }

  /**
   * Current density around the axis, A/m2, as complex amplitudes, rms (see field-grid): added to `out`, a row for each depth.
   * Nothing is added outside the disc.
   * @param gap m
   * @param current rms, A
   */
  addCurrentDensity(
    gap: number,
    current: number,
    radii: Float64Array,
    depths: Float64Array,
    { re, im }: Phasors,
  ): void {
    const { radialBasis, axialBasis, spec } = this.plate;
    const profile = new Float64Array(radialBasis.count);
    const rows = Array.from(depths, (depth) => {
      const row = new Float64Array(axialBasis.count);
      axialBasis.evaluate(depth, row);
      return row;
    });
    const scale = spec.angularFrequency * current;
    this.eachBlock(gap, ({ size, radial, axial }, x, y) => {
      for (let p = 0; p < radii.length; p++) {
        const r = radii[p]!;
        if (r < spec.innerRadius || r > spec.radius) continue;
        radialBasis.evaluate(r, profile);
        for (let d = 0; d < depths.length; d++) {
          const row = rows[d]!;
          let sumRe = 0;
          let sumIm = 0;
          for (let i = 0; i < size; i++) {
            const weight = profile[radial[i]!]! * row[axial[i]!]!;
            sumRe += weight * x[i]!;
            sumIm += weight * y[i]!;
          }
          // -jw (x + jy) = w (y - jx)
          re[d * radii.length + p]! += scale * sumIm;
          im[d * radii.length + p]! -= scale * sumRe;
        }
      }
    });
  }

  /** The solution x + jy of (R + jwM) (x + jy) = m at a gap, block by block; times -jw and the coil's current it is the disc's. */
  private eachBlock(gap: number, take: (block: DiscBlock, x: Float64Array, y: Float64Array) => void): void {
    this.excite(gap);
    const { plate, excitations } = this;
    const { blocks, ports, portProfiles, unknowns } = plate;
    let start = 0;
    for (const block of blocks) {
      const { size, re, im, diagonal } = block;
      const x = new Float64Array(size);
      const y = new Float64Array(size);
      for (let p = 0; p < ports; p++) {
        const row = p * unknowns + start;
        for (let i = 0; i < size; i++) x[i] = x[i]! + excitations[p]! * portProfiles[row + i]!;
      }
      solveLower(size, re, im, diagonal, x, y);
      solveUpper(size, re, im, diagonal, x, y);
      start += size;
      take(block, x, y);
    }
  }

  /** Fills `excitations`; the search for a gap begins where the rig was evaluated already. */
  private excite(gap: number): void {
    if (gap === this.excitedAt) return;
    this.excitedAt = gap;
    const { plate, source, left, value, slope, curvature, jerk } = this;
    const { k, count } = plate.nodes;
    let seen = 0;
    let before = 0;
    let most = 0;
    for (; seen < count; seen++) {
      const kq = k[seen]!;
      const x = kq * gap;
      if (x > NOTHING) break;
      const fall = decay(x);
      const rest = fall * left[seen]!;
      // each step's worth of what is left: the largest is a measure of the whole
      most = Math.max(most, before - rest);
      if (rest < FAINT * most) break;
      before = rest;
      const here = source[seen]! * fall;
      const first = -kq * here;
      const second = -kq * first;
      value[seen] = here;
      slope[seen] = first;
      curvature[seen] = second;
      jerk[seen] = -kq * second;
    }
    const { ports } = plate;
    let p = 0;
    for (; p + 1 < ports; p += 2) this.excitePair(p, seen);
    if (p < ports) this.exciteOne(p, seen);
  }

  /** Two ports at once, as sums wait for each other. */
  private excitePair(p: number, seen: number): void {
    const { plate, excitations, value, slope, curvature, jerk } = this;
    const { ports, excitation, nodes } = plate;
    const row = p * nodes.count;
    const next = row + nodes.count;
    let a0 = 0;
    let a1 = 0;
    let a2 = 0;
    let a3 = 0;
    let b0 = 0;
    let b1 = 0;
    let b2 = 0;
    let b3 = 0;
    for (let q = 0; q < seen; q++) {
      const a = excitation[row + q]!;
      const b = excitation[next + q]!;
      const v = value[q]!;
      const s = slope[q]!;
      const c = curvature[q]!;
      const j = jerk[q]!;
      a0 += a * v;
      b0 += b * v;
      a1 += a * s;
      b1 += b * s;
      a2 += a * c;
      b2 += b * c;
      a3 += a * j;
      b3 += b * j;
    }
    excitations[p] = a0;
    excitations[p + 1] = b0;
    excitations[ports + p] = a1;
    excitations[ports + p + 1] = b1;
    excitations[2 * ports + p] = a2;
    excitations[2 * ports + p + 1] = b2;
    excitations[3 * ports + p] = a3;
    excitations[3 * ports + p + 1] = b3;
  }

  private exciteOne(p: number, seen: number): void {
    const { plate, excitations, value, slope, curvature, jerk } = this;
    const { ports, excitation, nodes } = plate;
    const row = p * nodes.count;
    let a0 = 0;
    let a1 = 0;
    let a2 = 0;
    let a3 = 0;
    for (let q = 0; q < seen; q++) {
      const a = excitation[row + q]!;
      a0 += a * value[q]!;
      a1 += a * slope[q]!;
      a2 += a * curvature[q]!;
      a3 += a * jerk[q]!;
    }
    excitations[p] = a0;
    excitations[ports + p] = a1;
    excitations[2 * ports + p] = a2;
    excitations[3 * ports + p] = a3;
  }

  /** Fills `form` for one part of the admittance. */
  private evaluateForm(admittance: Float64Array): void {
    const { excitations: m, form } = this;
    const { ports } = this.plate;
    let value = 0;
    let slope = 0;
    let curvature = 0;
    let jerk = 0;
    for (let p = 0; p < ports; p++) {
      const row = p * ports;
      // A m and A m'
      let y = 0;
      let z = 0;
      for (let s = 0; s < ports; s++) {
        const a = admittance[row + s]!;
        y += a * m[s]!;
        z += a * m[ports + s]!;
      }
      value += m[p]! * y;
      slope += m[ports + p]! * y;
      curvature += m[2 * ports + p]! * y + m[ports + p]! * z;
      jerk += m[3 * ports + p]! * y + 3 * m[2 * ports + p]! * z;
    }
    form[0] = value;
    form[1] = 2 * slope;
    form[2] = 2 * curvature;
    form[3] = 2 * jerk;
  }
}

/** Largest excitation of any port by the field of each node. */
function strengths({ ports, excitation, nodes }: DiscPlate): Float64Array {
  const strength = new Float64Array(nodes.count);
  for (let p = 0; p < ports; p++) {
    const row = p * nodes.count;
    for (let q = 0; q < nodes.count; q++)
      strength[q] = Math.max(strength[q]!, Math.abs(excitation[row + q]!));
  }
  return strength;
}

/** Nodes that together add less than this to the third derivative, over the most that one adds, are left out. */
const FAINT = 1e-6;

/** Nodes stand in rising k: past e^{-40} the rest adds nothing to the digits claimed. */
const NOTHING = 40;
