import type { RigOutline } from './rig-outline.ts';
import { WIDTH } from './strokes.ts';

/** Beside the rig, px. */
export const SIDES = { left: 150, right: 24 } as const;
/** Room for the rig itself, px. */
export const ROOM = { width: WIDTH - SIDES.left - SIDES.right, height: 300 } as const;
/** An infinitely wide plate is drawn to this many outer radii, a thick one to this many deep. */
const WIDE = 1.14;
const DEEP = 0.3;

/**
 * How large a rig is drawn: px per m, and how much of its plate (m).
 * @param room kept from the plate's face to the coil's far face, m
 */
export function drawingScale(rig: RigOutline, room = 0) {
  const { windings, coilHeight, plate, gap, sideways = null } = rig;
  const widest = Math.max(...windings.map(({ outerRadius }) => outerRadius));
  const isWide = !(plate.radius > 0);
  const reach = Math.max(widest, isWide ? widest * WIDE : plate.radius);
  const total = plate.layers.reduce((sum, { thickness }) => sum + thickness, 0);
  const depth = Math.min(total, DEEP * reach);
  // with room for where it would go
  const span = Math.max(reach, sideways === null ? 0 : movedEdge(rig, widest) + sideways.shift);
  const tall = Math.max(gap + coilHeight, room);
  const scale = Math.min(ROOM.width / (2 * span), ROOM.height / (tall + depth));
  return { widest, isWide, reach, depth, tall, scale };
}

/** Outer edge of what floats. */
export function movedEdge({ plate }: RigOutline, widest: number): number {
  return plate.isAbove ? plate.radius : widest;
}
