import { resistivityAt } from '../kernel/resistivity.ts';
import { SLOT } from '../model/inputs.ts';
import type { RigTemplate } from '../model/study.ts';
import { createCoil } from './coil.ts';

/** What whoever winds a winding must know, SI. */
export interface WindingGuide {
  readonly turns: number;
  /** Wires in hand. */
  readonly strands: number;
  /** Wires side by side in one layer, the last layer excepted; NaN for a section fixed by hand without layers. */
  readonly wiresPerLayer: number;
  readonly layers: number;
  /** Wires in the last layer. */
  readonly wiresInLastLayer: number;
  readonly wire: number;
  /** Over the insulation. */
  readonly overall: number;
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly height: number;
  /** Of one wire in hand; as many are to be cut as there are. */
  readonly wireLength: number;
  /** Conductor and insulation of all wires in hand. */
  readonly wireMass: number;
  /** Dc, at the temperature of the surroundings: what a meter reads from start to end. */
  readonly coldResistance: number;
}

/** The windings of a design that can be built, in the study's order. */
export function windingGuides(
  { windings }: Pick<RigTemplate, 'windings'>,
  slots: Float64Array,
): WindingGuide[] {
  const coil = createCoil(windings);
  coil.fill(slots);
  const surroundings = slots[SLOT.surroundings]!;
  return coil.windings.slice(0, coil.count).map((wound) => {
    const { input, winding, section } = wound;
    const { turns, strands, layers, wire } = input;
    const wires = turns * strands;
    const wiresPerLayer = Math.ceil(wires / layers);
    // a few layers may be left over when the wires of the others are rounded up
    const filled = Math.ceil(wires / wiresPerLayer);
    const rho = resistivityAt(wound.resistivity, wound.temperatureCoefficient, surroundings);
    return {
      turns,
      strands,
      wiresPerLayer,
      layers: filled,
      wiresInLastLayer: wires - wiresPerLayer * (filled - 1),
      wire,
      overall: wire + 2 * input.insulation,
      innerRadius: section.innerRadius,
      outerRadius: section.outerRadius,
      height: section.height,
      wireLength: winding.length,
      wireMass: winding.mass - input.extraMass,
      coldResistance: (winding.length / winding.conductorArea) * rho,
    };
  });
}
