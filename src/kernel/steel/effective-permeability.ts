import { LocalLagrange } from '../../math/local-lagrange.ts';
import { MU0 } from '../constants.ts';
import { SATURATING } from './saturating-table.ts';

/** A metal that saturates: relative permeability at H = 0, saturation T, resistivity ohm m. */
export interface SaturatingMetal {
  readonly permeability: number;
  readonly saturation: number;
  readonly resistivity: number;
}

/**
 * Complex relative permeability, e^{jwt}, of a linear metal that has the surface impedance of one that saturates (the curve
 * of magnetisation.ts) under a field of amplitude H at its face. Its imaginary part is negative: a saturated metal turns
 * the angle of its surface impedance from 45 degrees toward the 26.6 of the step law.
 *
 * Read from a table of diffusion in time (test/fixtures/saturating-steel.py) over h = H mu0 (mu - 1) / Js and the thickness
 * over the skin depth that the field has there; a thin sheet is one that guides the flux, without an E at its far face.
 * The air's own mu0 is added to the table's, which knows magnetisation alone.
 *
 * Accuracy: 0.5 % of the surface impedance of the same curve and a sinusoidal H.
 */
export class EffectivePermeability {
  re = 1;
  im = 0;
  private readonly over = new LocalLagrange(4);
  private readonly across = new LocalLagrange(4);

  /**
   * @param field amplitude (peak) at the face, A/m
   * @param thickness m
   */
  at(
    field: number,
    { permeability, saturation, resistivity }: SaturatingMetal,
    thickness: number,
    omega: number,
  ): void {
    const excess = permeability - 1;
    const h = (field * MU0 * excess) / saturation;
    const depth = Math.sqrt((2 * resistivity) / (omega * MU0 * permeability));
    const { over, across } = this;
    over.at(LOG_H, Math.log1p(h));
    const scaled = thickness / (depth * Math.sqrt(1 + h));
    if (scaled >= THICK) {
      let size = 0;
      let angle = 0;
      for (let i = 0; i < over.count; i++) {
        const at = (over.first + i + 1) * WIDTH - 1;
        size += over.weight[i]! * SIZE[at]!;
        angle += over.weight[i]! * ANGLE[at]!;
      }
      this.set(excess, size / (1 + h), angle);
      return;
    }
    across.at(SATURATING.thickness, scaled);
    let size = 0;
    let angle = 0;
    for (let i = 0; i < over.count; i++) {
      let sizes = 0;
      let angles = 0;
      const row = (over.first + i) * WIDTH + across.first;
      for (let j = 0; j < across.count; j++) {
        const weight = across.weight[j]!;
        sizes += weight * SIZE[row + j]!;
        angles += weight * ANGLE[row + j]!;
      }
      size += over.weight[i]! * sizes;
      angle += over.weight[i]! * angles;
    }
    this.set(excess, size / (1 + h), angle);
  }

  private set(excess: number, share: number, angle: number): void {
    this.re = 1 + excess * share * Math.cos(angle);
    this.im = excess * share * Math.sin(angle);
  }
}

const THICK = SATURATING.thickness[SATURATING.thickness.length - 1]!;
const WIDTH = SATURATING.thickness.length;
const LOG_H = Float64Array.from(SATURATING.h, Math.log1p);
const SIZE = Float64Array.from(SATURATING.size);
const ANGLE = Float64Array.from(SATURATING.angle, (degrees) => (degrees * Math.PI) / 180);
