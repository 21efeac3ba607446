import { proximityResistance, transverseLossRatio } from '../kernel/proximity-effect.ts';
import { resistivityAt } from '../kernel/resistivity.ts';
import { type SkinEffect, skinArgument, skinEffect } from '../kernel/skin-effect.ts';
import { METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { RigState } from './state.ts';
import type { WidePlate } from './wide-plate.ts';

/**
 * The winding's resistance: dc at any temperature, and at the supply's frequency with skin effect (of the gap
 * independent) and proximity effect (in the winding's own field and what the plate sends back at a gap).
 */
export class WindingResistance {
  /** Dc at coil.at_temperature, ohm. */
  dc = 0;
  private skinned = 0;
  private lossRatio = 0;
  private resistivity = 0;
  private readonly skin: SkinEffect = { resistanceRatio: 1, inductanceRatio: 1 };

  prepare(rig: RigState): void {
    const { slots, results, winding, omega } = rig;
    const rho20 = slots[SLOT.coilMetal + METAL_SLOTS.resistivity]!;
    const coefficient = slots[SLOT.coilMetal + METAL_SLOTS.temperatureCoefficient]!;
    const mu = slots[SLOT.coilMetal + METAL_SLOTS.relativePermeability]!;
    const perResistivity = winding.length / winding.conductorArea;
    this.resistivity = resistivityAt(rho20, coefficient, slots[SLOT.coilTemperature]!);
    this.dc = perResistivity * this.resistivity;
    const x = skinArgument(slots[SLOT.wire]! / 2, this.resistivity, mu, omega);
    skinEffect(x, this.skin);
    this.skinned = this.dc * this.skin.resistanceRatio;
    this.lossRatio = transverseLossRatio(x, this.skin, mu);
    rig.resistance20 = perResistivity * rho20;
    results[Q.resistance_cold] =
      perResistivity * resistivityAt(rho20, coefficient, slots[SLOT.surroundings]!);
  }

  /** At a gap in m; `plate` must be prepared for this winding. */
  at(rig: RigState, plate: WidePlate, gap: number): number {
    const { slots, winding, section, omega } = rig;
    const wires = winding.length * slots[SLOT.strands]!;
    return (
      this.skinned +
      proximityResistance(
        slots[SLOT.wire]! / 2,
        this.resistivity,
        omega,
        this.lossRatio,
        plate.meanSquareField(section, gap),
        wires,
      )
    );
  }
}
