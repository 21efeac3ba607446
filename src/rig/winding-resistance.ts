import { CloseWires } from '../kernel/close-wires.ts';
import { proximityResistance, transverseLossRatio } from '../kernel/proximity-effect.ts';
import { resistivityAt } from '../kernel/resistivity.ts';
import { type SkinEffect, skinArgument, skinEffect } from '../kernel/skin-effect.ts';
import { StrandCirculation } from '../kernel/strand-circulation.ts';
import type { Winding, WindingInput } from '../kernel/winding.ts';
import type { BesselRatio } from '../math/bessel-ratio.ts';
import { MAX_WINDINGS, SLOT, TRANSPOSED } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import type { Coil } from './coil.ts';
import { MAGNETIC } from './geometry.ts';
import type { RigState } from './state.ts';
import type { WidePlate } from './wide-plate.ts';

/**
 * The windings' resistances, each in ohm: dc at any temperature, and at the supply's frequency with skin effect (of
 * the gap independent) and proximity effect (in the winding's own field and what the plate sends back at a gap), close wires and
 * wires in hand that are not transposed included.
 */
export class WindingResistance {
  /** By winding: dc at 20 degC, dc at coil.at_temperature, and ac there at the gap last evaluated. */
  readonly dc20 = new Float64Array(MAX_WINDINGS);
  readonly dc = new Float64Array(MAX_WINDINGS);
  readonly ac = new Float64Array(MAX_WINDINGS);
  private readonly skinned = new Float64Array(MAX_WINDINGS);
  private readonly lossRatio = new Float64Array(MAX_WINDINGS);
  private readonly lastCirculating = new Float64Array(MAX_WINDINGS);
  private readonly resistivity = new Float64Array(MAX_WINDINGS);
  private readonly order = { layers: 0, columns: 0, closeness: 0 };
  private readonly wire = { pitch: 0, radius: 0, length: 0 };
  private readonly closeWires = new CloseWires();
  private readonly circulation = new StrandCirculation();
  /** Of a wire, and the argument that it follows from: wires vary less often than coils. */
  private readonly skins: SkinEffect[] = Array.from({ length: MAX_WINDINGS }, () => ({
    resistanceRatio: 1,
    inductanceRatio: 1,
  }));
  private readonly skinArguments = new Float64Array(MAX_WINDINGS).fill(Number.NaN);
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
      const skin = this.skins[w]!;
      if (x !== this.skinArguments[w]!) {
        skinEffect(x, skin, this.ratio);
        this.skinArguments[w] = x;
      }
      this.resistivity[w] = rho;
      this.dc20[w] = perResistivity * rho20;
      this.dc[w] = perResistivity * rho;
      this.skinned[w] = this.dc[w]! * skin.resistanceRatio;
      this.lossRatio[w] = transverseLossRatio(x, skin, mu);
      if (mu < MAGNETIC) {
        orderWires(input, winding, this.order);
        this.lossRatio[w]! *= this.closeWires.factor(x * Math.SQRT1_2, this.order);
      }
      cold += perResistivity * resistivityAt(rho20, temperatureCoefficient, slots[SLOT.surroundings]!);
    }
    results[Q.resistance_cold] = cold;
  }

  /** Of all windings in series at a gap in m; `plate` must be prepared for this coil. */
  at(rig: RigState, plate: Pick<WidePlate, 'meanSquareField'>, gap: number): number {
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
      if (input.transposed === TRANSPOSED.no && input.strands > 1)
        this.ac[w]! += this.circulating(coil, w, omega);
      sum += this.ac[w]!;
    }
    return sum;
  }

  /**
   * What currents that circulate between wires in hand add, or would if they were not transposed, over the rest, at the gap
   * last evaluated; 0 where there is one wire or they are transposed.
   */
  circulationShare(coil: Coil, omega: number): number {
    let added = 0;
    let sum = 0;
    for (let w = 0; w < coil.count; w++) {
      const { strands, transposed } = coil.windings[w]!.input;
      sum += this.ac[w]!;
      if (strands === 1 || transposed === TRANSPOSED.yes) continue;
      const included = transposed === TRANSPOSED.no;
      const more = included ? this.lastCirculating[w]! : this.circulating(coil, w, omega);
      added += more;
      if (included) sum -= more;
    }
    return added / sum;
  }

  /** What alternating current adds to all windings at the gap last evaluated, over what it makes of them. */
  addedShare(count: number): number {
    let dc = 0;
    let ac = 0;
    for (let w = 0; w < count; w++) {
      dc += this.dc[w]!;
      ac += this.ac[w]!;
    }
    return (ac - dc) / ac;
  }

  private circulating(coil: Coil, w: number, omega: number): number {
    const { input, winding, section } = coil.windings[w]!;
    this.wire.pitch = input.wire + 2 * input.insulation;
    this.wire.radius = input.wire / 2;
    this.wire.length = winding.length;
    const added = this.circulation.resistance(section, input.strands, this.wire, this.skinned[w]!, omega);
    this.lastCirculating[w] = added;
    return added;
  }
}

/** Square order, each wire in a square of the section; whole rows where the layers are given. */
function orderWires(
  input: WindingInput,
  winding: Winding,
  out: { layers: number; columns: number; closeness: number },
): void {
  const wires = input.turns * input.strands;
  const width = winding.outerRadius - input.innerRadius;
  const pitch = Math.sqrt((winding.height * width) / wires);
  const fixed = !Number.isNaN(input.sectionOuterRadius);
  out.layers = fixed ? winding.height / pitch : input.layers;
  out.columns = fixed ? width / pitch : wires / input.layers;
  out.closeness = Math.min(1, input.wire / pitch);
}
