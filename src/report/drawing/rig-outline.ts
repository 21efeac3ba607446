import { FLOATS, inputByPath, LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../../model/inputs.ts';
import { Q, type QuantityName } from '../../model/quantities.ts';
import type { TableRows } from '../../model/rows.ts';
import type { Study } from '../../model/study.ts';
import { enamelThickness } from '../../model/wires.ts';
import { INK } from '../charts/palette.ts';
import { shortText } from '../text/clean-text.ts';

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
    /** 0 without a central hole. */
    readonly innerRadius: number;
    /** W */
    readonly loss: number;
    /** The plate lies over the coil: it floats, or it is a pan. */
    readonly isAbove: boolean;
  };
  readonly gap: number;
  readonly standoff: number;
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

/** The outline of one row, whose inputs are `slots`. */
export function rigOutline(
  study: Pick<Study, 'vary' | 'rig'>,
  rows: TableRows,
  row: number,
  slots: Float64Array,
): RigOutline {
  const quantity = (name: QuantityName) => rows.quantities[Q[name] * rows.count + row]!;
  const optional = (path: string) => slots[inputByPath(path)?.slot ?? -1] ?? Number.NaN;
  const metal = (path: string) => metalName(study, rows, row, path);
  const turns = slots[SLOT.turns]!;
  const layers = slots[SLOT.layers]!;
  const grade = slots[SLOT.insulationGrade]!;
  const wire = slots[SLOT.wire]!;
  const insulation = Number.isNaN(grade) ? slots[SLOT.insulationThickness]! : enamelThickness(wire, grade);
  const isByHand = !Number.isNaN(slots[SLOT.sectionOuterRadius]!);
  const height = quantity('winding_height');
  return {
    windings: [
      {
        innerRadius: slots[SLOT.innerRadius]!,
        outerRadius: quantity('coil_outer_radius'),
        height,
        offset: 0,
        sense: 1,
        metal: metal('coil.metal'),
        ink: metalInk(slots, SLOT.coilMetal),
        turns,
        layers: isByHand ? Number.NaN : layers,
        wire,
        wound: isByHand
          ? null
          : { pitch: wire + 2 * insulation, perLayer: perLayer(turns * slots[SLOT.strands]!, layers) },
      },
    ],
    coilHeight: height,
    coilLoss: quantity('coil_loss'),
    plate: {
      layers: Array.from({ length: study.rig.plateLayers }, (_, layer) => {
        const at = SLOT.plateLayers + layer * LAYER_SLOTS;
        return {
          thickness: slots[at + LAYER_THICKNESS]!,
          metal: metal(`plate.layers.${layer}.metal`),
          ink: metalInk(slots, at),
        };
      }),
      radius: optional('plate.radius'),
      innerRadius: optional('plate.inner_radius') || 0,
      loss: quantity('plate_loss'),
      isAbove: slots[SLOT.floats] !== FLOATS.coil,
    },
    gap: quantity('gap'),
    standoff: slots[SLOT.standoff]!,
  };
}

/** Wires in each layer when they are dealt out as evenly as they can be. */
function perLayer(wires: number, layers: number): number[] {
  const longest = Math.ceil(wires / layers);
  const short = longest * layers - wires;
  return Array.from({ length: layers }, (_, layer) => (layer < layers - short ? longest : longest - 1));
}

function metalName(study: Pick<Study, 'vary' | 'rig'>, rows: TableRows, row: number, path: string): string {
  const v = study.vary.findIndex((varied) => varied.path === path);
  const varied = study.vary[v];
  const name =
    varied?.kind === 'choice'
      ? varied.levels[rows.values[row * study.vary.length + v]!]?.label
      : study.rig.texts[path];
  return shortText(name ?? '', 32);
}

/** Copper looks like copper: told by the numbers, since a study may name its own metals. */
function metalInk(slots: Float64Array, at: number): string {
  const density = slots[at + METAL_SLOTS.density]!;
  if (slots[at + METAL_SLOTS.relativePermeability]! > 1.5) return INK.steel;
  if (density < 4000) return INK.aluminium;
  return slots[at + METAL_SLOTS.resistivity]! < 3e-8 ? INK.copper : INK.metal;
}
