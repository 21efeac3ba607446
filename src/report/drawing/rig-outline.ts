import { FLOATS, LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../../model/inputs.ts';
import { Q, QUANTITIES } from '../../model/quantities.ts';
import type { TableRows } from '../../model/rows.ts';
import type { Study } from '../../model/study.ts';
import { createCoil } from '../../rig/coil.ts';
import { MAGNETIC } from '../../rig/geometry.ts';
import { sidesOf } from '../../rig/plate-outline.ts';
import type { SidewaysPoint } from '../../rig/sideways-curve.ts';
import { shortText } from '../../text/clean-text.ts';
import { INK } from '../charts/palette.ts';
import type { HeatProfile } from '../report-input.ts';

/** What a cross-section shows of a rig: lengths in m. NaN where not known. */
export interface RigOutline {
  readonly windings: readonly WindingOutline[];
  /** From the coil's plate-side face to its far one. */
  readonly coilHeight: number;
  /** W */
  readonly coilLoss: number;
  readonly plate: {
    /** Coil side first; the last may be infinite. */
    readonly layers: readonly { readonly thickness: number; readonly metal: string; readonly ink: string }[];
    /** NaN: taken as infinitely wide. */
    readonly radius: number;
    /** Both sides of a plate that is no disc, of which `radius` is the equal disc's; left out or null for a disc. */
    readonly sides?: readonly [number, number] | null;
    /** 0 without a central hole. */
    readonly innerRadius: number;
    /** W */
    readonly loss: number;
    readonly heat: HeatProfile | null;
    /** The plate lies over the coil: it floats, or it is a pan. */
    readonly isAbove: boolean;
  };
  readonly gap: number;
  readonly standoff: number;
  /** Where what floats is looked at beside the axis; left out or null where nothing pushes it. */
  readonly sideways?: SidewaysPoint | null;
}

export interface WindingOutline {
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly height: number;
  /** From the coil's plate-side face. */
  readonly offset: number;
  /** -1: wound against the others. */
  readonly sense: 1 | -1;
  readonly metal: string;
  readonly ink: string;
  readonly turns: number;
  /** NaN where the section was fixed by hand. */
  readonly layers: number;
  /** Bare diameter. */
  readonly wire: number;
  /** Overall diameter and how many wires each layer holds; null where the section was fixed by hand. */
  readonly wound: { readonly pitch: number; readonly perLayer: readonly number[] } | null;
}

/** A design that could be evaluated. */
export interface DrawnDesign {
  /** Its varied inputs. */
  readonly values: Float64Array;
  /** All its inputs, SI, with their defaults. */
  readonly slots: Float64Array;
  /** One number per quantity, SI. */
  readonly results: Float64Array;
  readonly heat: HeatProfile | null;
  readonly sideways?: SidewaysPoint | null;
}

/** A design of a table. */
export function drawnRow(
  rows: TableRows,
  row: number,
  more: Pick<DrawnDesign, 'slots' | 'heat' | 'sideways'>,
): DrawnDesign {
  const width = rows.values.length / rows.count;
  return {
    values: rows.values.subarray(row * width, (row + 1) * width),
    results: Float64Array.from(QUANTITIES, ({ index }) => rows.quantities[index * rows.count + row]!),
    ...more,
  };
}

export function rigOutline(study: Pick<Study, 'vary' | 'rig'>, design: DrawnDesign): RigOutline {
  const { slots, results, heat, sideways = null } = design;
  const coil = createCoil(study.rig.windings);
  coil.fill(slots);
  const hole = slots[SLOT.plateInnerRadius]!;
  return {
    windings: coil.windings.map(
      ({ input, section, resistivity, relativePermeability }, w): WindingOutline => {
        const isByHand = !Number.isNaN(input.sectionOuterRadius);
        const own = metalName(study, design, `coil.windings.${w}.metal`);
        return {
          innerRadius: section.innerRadius,
          outerRadius: section.outerRadius,
          height: section.height,
          offset: section.offset,
          sense: section.sense,
          metal: own === '' ? metalName(study, design, 'coil.metal') : own,
          ink: metalInk(input.density, resistivity, relativePermeability),
          turns: input.turns,
          layers: isByHand ? Number.NaN : input.layers,
          wire: input.wire,
          wound: isByHand
            ? null
            : {
                pitch: input.wire + 2 * input.insulation,
                perLayer: perLayer(input.turns * input.strands, input.layers),
              },
        };
      },
    ),
    coilHeight: coil.height,
    coilLoss: results[Q.coil_loss]!,
    plate: {
      layers: Array.from({ length: study.rig.plateLayers }, (_, layer) => {
        const at = SLOT.plateLayers + layer * LAYER_SLOTS;
        return {
          thickness: slots[at + LAYER_THICKNESS]!,
          metal: metalName(study, design, `plate.layers.${layer}.metal`),
          ink: metalInk(
            slots[at + METAL_SLOTS.density]!,
            slots[at + METAL_SLOTS.resistivity]!,
            slots[at + METAL_SLOTS.relativePermeability]!,
          ),
        };
      }),
      radius: slots[SLOT.plateRadius]!,
      sides: sidesOf(slots),
      innerRadius: Number.isNaN(hole) ? 0 : hole,
      loss: results[Q.plate_loss]!,
      heat,
      isAbove: slots[SLOT.floats] !== FLOATS.coil,
    },
    gap: results[Q.gap]!,
    standoff: slots[SLOT.standoff]!,
    sideways,
  };
}

/** Wires in each layer: full ones and, last, what is left. */
function perLayer(wires: number, layers: number): number[] {
  const full = Math.ceil(wires / layers);
  const filled = Math.ceil(wires / full);
  return Array.from({ length: filled }, (_, layer) =>
    layer < filled - 1 ? full : wires - full * (filled - 1),
  );
}

/** Room for `aluminium-1050, resistivity fitted`. */
const LONGEST_NAME = 36;

/** Empty where the study does not give it. */
function metalName(study: Pick<Study, 'vary' | 'rig'>, { values }: DrawnDesign, path: string): string {
  const v = study.vary.findIndex((varied) => varied.path === path);
  const varied = study.vary[v];
  const name = varied?.kind === 'choice' ? varied.levels[values[v]!]?.label : study.rig.texts[path];
  return shortText(name ?? '', LONGEST_NAME);
}

/** Copper looks like copper: found by the numbers, since a study may name its own metals. SI. */
function metalInk(density: number, resistivity: number, relativePermeability: number): string {
  if (relativePermeability > MAGNETIC) return INK.steel;
  if (density < 4000) return INK.aluminium;
  return resistivity < 3e-8 ? INK.copper : INK.metal;
}
