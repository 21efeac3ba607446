import { MU0 } from './constants.ts';
import { spectrumNodes } from './spectrum-nodes.ts';
import { type Section, WindingSpectrum } from './winding-spectrum.ts';

/**
 * Wires in hand that lie side by side in their layer and never change places, joined at both ends: the flux between them
 * drives a current around each pair. Resistance that this adds to the winding, ohm.
 *
 * Wire i of m stands at s_i = (i - (m - 1)/2) pitch beside the middle of its strip, in every turn. With a linkage that is
 * G per ampere and per metre of that offset, the voltages j w G s_i I drive currents i_i against each wire's own impedance:
 *   R added = w^2 G^2 pitch^2 m (m^2 - 1)/12  Rs / (Rs^2 + (w l Lc)^2),   Rs of one wire, l its length.
 * G = (1/2) dL/ds, L of the whole winding moved rigidly outward by s: the linkage of a winding with itself changes twice as
 * fast as that of one that stays. Lc, H/m: the columns of such currents as sheets, whose field alternates within the strip,
 *   Lc = mu0 (var + h/(h + w) mean^2) / sum s_i^2 + (mu0/2 pi)(ln(pitch / (2 pi a)) + 1/4),
 * var and mean^2 over the partial sums of s_i; the mean field closes through the air above a flat winding (h/(h + w) is
 * what a rectangle of that shape keeps of it).
 *
 * Domain: one winding, its own field alone (a plate's is left out). Accuracy, against rings solved one by one
 * (test/fixtures/strand-circulation.py): 3 % of the resistance while it is under 2.5 times, beyond that a factor of two at
 * most, for two wires 5 %.
 */
export class StrandCirculation {
  private readonly spectrum = new WindingSpectrum();
  private readonly moved = { innerRadius: 0, outerRadius: 0, height: 0, turns: 0 };
  private readonly key = { innerRadius: 0, outerRadius: 0, height: 0, turns: 0 };
  private slope = Number.NaN;

  /**
   * @param wire pitch and bare radius, m; length of one wire, m
   * @param resistance of the winding without these currents, ohm: what they meet themselves, so with skin effect alone, since
   *   the winding's field and its loss belong to the current that all wires share
   */
  resistance(
    section: Section,
    strands: number,
    wire: { readonly pitch: number; readonly radius: number; readonly length: number },
    resistance: number,
    omega: number,
  ): number {
    if (strands === 1) return 0;
    const { pitch, radius, length } = wire;
    const flux = omega * this.linkage(section) * pitch;
    const one = resistance * strands;
    const reactance = omega * length * leakage(strands, pitch, radius, section);
    const squares = (strands * (strands * strands - 1)) / 12;
    return (flux * flux * squares * one) / (one * one + reactance * reactance);
  }

  /** G, H/m. */
  private linkage(section: Section): number {
    const { key } = this;
    const { innerRadius, outerRadius, height, turns } = section;
    const same =
      innerRadius === key.innerRadius &&
      outerRadius === key.outerRadius &&
      height === key.height &&
      turns === key.turns;
    if (same) return this.slope;
    Object.assign(key, { innerRadius, outerRadius, height, turns });
    const step = STEP * innerRadius;
    this.slope = (this.inductance(section, step) - this.inductance(section, -step)) / (4 * step);
    return this.slope;
  }

  private inductance({ innerRadius, outerRadius, height, turns }: Section, shift: number): number {
    const { moved, spectrum } = this;
    Object.assign(moved, {
      innerRadius: innerRadius + shift,
      outerRadius: outerRadius + shift,
      height,
      turns,
    });
    const r2 = moved.outerRadius;
    const width = outerRadius - innerRadius;
    const nodes = spectrumNodes(width / r2, (3 / height) * r2, (40 / Math.min(width, height)) * r2, false);
    spectrum.fill(moved, nodes);
    return spectrum.freeInductance;
  }
}

/** Of the inner radius: L is smooth over so much, and its error of 1e-5 does not show. */
const STEP = 0.1;

/** Lc, H/m. */
function leakage(strands: number, pitch: number, radius: number, section: Section): number {
  const width = section.outerRadius - section.innerRadius;
  const kept = section.height / (section.height + width);
  let squares = 0;
  let sums = 0;
  let sumSquares = 0;
  let partial = 0;
  for (let i = 0; i < strands; i++) {
    const s = i - (strands - 1) / 2;
    partial += s;
    squares += s * s;
    sums += partial;
    sumSquares += partial * partial;
  }
  const mean = (sums * sums) / strands;
  const sheets = (sumSquares - mean + kept * mean) / squares;
  return MU0 * (sheets + (Math.log(pitch / (2 * Math.PI * radius)) + 0.25) / (2 * Math.PI));
}
