import { SLOT } from '../model/inputs.ts';
import type { RigState } from './state.ts';

/** One number that coil and plate are to each other by, in SI units: what the field laws see of a rig beside the gap. */
export interface Coordinate {
  read(rig: RigState): number;
  /** Into a rig that is used for nothing but its field. */
  write(rig: RigState, value: number): void;
}

/**
 * Of the sections of all windings, the layers of the plate, its radii and the frequency. The turns of a coil's one winding are
 * none: inductances go with their square. A section is its inner radius, its width and its height, in whose logarithms narrow
 * hoops are smooth. An inner radius is written with the width as it is.
 */
export function coordinatesOf({ coil, layerCount }: RigState): readonly Coordinate[] {
  return [
    ...coil.windings.flatMap((_, w) => [
      innerRadius(w),
      width(w),
      ofSection(w, 'height'),
      ofSection(w, 'offset'),
      ...(coil.count === 1 ? [] : [ofSection(w, 'turns')]),
    ]),
    ...Array.from({ length: layerCount }, (_, j) =>
      LAYER.map(
        (key): Coordinate => ({
          read: (rig) => rig.layers[j]![key],
          write: (rig, value) => {
            rig.layers[j]![key] = value;
          },
        }),
      ),
    ).flat(),
    ...[SLOT.plateRadius, SLOT.plateInnerRadius].map(
      (slot): Coordinate => ({
        read: (rig) => rig.slots[slot]!,
        write: (rig, value) => {
          rig.slots[slot] = value;
        },
      }),
    ),
    {
      read: (rig) => rig.omega,
      write: (rig, value) => {
        rig.omega = value;
      },
    },
  ];
}

function ofSection(w: number, key: 'height' | 'offset' | 'turns'): Coordinate {
  return {
    read: (rig) => rig.coil.windings[w]!.section[key],
    write: (rig, value) => {
      rig.coil.windings[w]!.section[key] = value;
    },
  };
}

function innerRadius(w: number): Coordinate {
  return {
    read: (rig) => rig.coil.windings[w]!.section.innerRadius,
    write({ coil }, value) {
      const { section } = coil.windings[w]!;
      section.outerRadius += value - section.innerRadius;
      section.innerRadius = value;
    },
  };
}

function width(w: number): Coordinate {
  return {
    read({ coil }) {
      const { innerRadius, outerRadius } = coil.windings[w]!.section;
      return outerRadius - innerRadius;
    },
    write({ coil }, value) {
      const { section } = coil.windings[w]!;
      section.outerRadius = section.innerRadius + value;
    },
  };
}

const LAYER = ['resistivity', 'thickness'] as const;
