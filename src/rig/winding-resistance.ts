import { proximityResistance, transverseLossRatio } from '../kernel/proximity-effect.ts';
import { resistivityAt } from '../kernel/resistivity.ts';
import { type SkinEffect, skinArgument, skinEffect } from '../kernel/skin-effect.ts';
import type { BesselRatio } from '../math/bessel-ratio.ts';
import { MAX_WINDINGS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';
import type { WidePlate } from './wide-plate.ts';

/**
 * The windings' resistances, each in ohm: dc at any temperature, and at the supply's frequency with skin effect (of
 * the gap independent) and proximity effect (in the winding's own field and what the plate sends back at a gap).
 */
export class WindingResistance {
  /** By winding: dc at 20 degC, dc at coil.at_temperature, and ac there at the gap last asked about. */
  readonly dc20 = new Float64Array(MAX_WINDINGS);
  readonly dc = new Float64Array(MAX_WINDINGS);
  readonly ac = new Float64Array(MAX_WINDINGS);
  private readonly skinned = new Float64Array(MAX_WINDINGS);
  private readonly lossRatio = new Float64Array(MAX_WINDINGS);
  private readonly resistivity = new Float64Array(MAX_WINDINGS);
  private readonly skin: SkinEffect = { resistanceRatio: 1, inductanceRatio: 1 };
  private readonly ratio: BesselRatio = { re: 0, imOverLimit: 0 };

  prepare(rig: RigState): void {
    const { slots, results, coil, omega } = rig;
    let cold = 0;
    for (let w = 0; w < coil.count; w++) {
      const {
        input,
        winding,
        resistivity: rho20,
        temperatureCoefficient,
        relativePermeability: mu,
      } = coil.windings[w]!;
      const perResistivity = winding.length / winding.conductorArea;
      const rho = resistivityAt(rho20, temperatureCoefficient, slots[SLOT.coilTemperature]!);
      const x = skinArgument(input.wire / 2, rho, mu, omega);
      skinEffect(x, this.skin, this.ratio);
      this.resistivity[w] = rho;
      this.dc20[w] = perResistivity * rho20;
      this.dc[w] = perResistivity * rho;
      this.skinned[w] = this.dc[w]! * this.skin.resistanceRatio;
      this.lossRatio[w] = transverseLossRatio(x, this.skin, mu);
      cold += perResistivity * resistivityAt(rho20, temperatureCoefficient, slots[SLOT.surroundings]!);
    }
    results[Q.resistance_cold] = cold;
  }

  /** Of all windings in series at a gap in m; `plate` must be prepared for this coil. */
  at(rig: RigState, plate: WidePlate, gap: number): number {
    const { coil, omega } = rig;
    let sum = 0;
    for (let w = 0; w < coil.count; w++) {
      const { input, winding, section } = coil.windings[w]!;
      const proximity = proximityResistance(
        input.wire / 2,
        this.resistivity[w]!,
        omega,
        this.lossRatio[w]!,
        plate.meanSquareField(coil, section, gap),
        winding.length * input.strands,
      );
      this.ac[w] = this.skinned[w]! + proximity;
      sum += this.ac[w]!;
    }
    return sum;
  }
}
