import { readFileSync } from 'node:fs';
import type { CoilWinding } from '../../src/kernel/disc/coil-source.ts';
import type { PlateCoupling } from '../../src/kernel/plate-coupling.ts';
import type { PlateLayer } from '../../src/kernel/plate-reflection.ts';
import { type Coil, createCoil } from '../../src/rig/coil.ts';
import { WidePlate } from '../../src/rig/wide-plate.ts';

/** A rig of `test/fixtures/wide-plate-reference.json`; layers are [resistivity, permeability, thickness or null]. */
export interface ReferenceRig {
  family: 'usual' | 'wide' | 'broad';
  innerRadius: number;
  outerRadius: number;
  height: number;
  gap: number;
  omega: number;
  layers: [number, number, number | null][];
  free: number;
  inductance: [number, number];
  slope: [number, number];
  curvature: [number, number];
}

export function referenceRigs(): ReferenceRig[] {
  return JSON.parse(
    readFileSync(new URL('../fixtures/wide-plate-reference.json', import.meta.url), 'utf8'),
  ) as ReferenceRig[];
}

export interface AskedPlate {
  innerRadius: number;
  outerRadius: number;
  height: number;
  turns?: number;
  gap: number;
  omega: number;
  layers: PlateLayer[];
}

/** A fresh plate, asked at one gap. */
export function computePlate(rig: AskedPlate): { free: number; coupling: PlateCoupling } {
  const plate = new WidePlate();
  plate.prepare(
    coilOf([{ ...rig, offset: 0, sense: 1, turns: rig.turns ?? 1 }]),
    { layers: rig.layers, layerCount: rig.layers.length, omega: rig.omega },
    rig.gap,
    Math.max(1.5 * rig.gap, 2.5 * rig.outerRadius),
  );
  plate.coupling.evaluate(rig.gap);
  return { free: plate.freeInductance, coupling: plate.coupling };
}

/** A coil of windings given by their sections alone, as the field laws see it. */
export function coilOf(sections: readonly CoilWinding[]): Coil {
  const coil = createCoil(sections.length);
  sections.forEach(({ innerRadius, outerRadius, height, turns, offset, sense }, w) => {
    Object.assign(coil.windings[w]!.section, { innerRadius, outerRadius, height, turns, offset, sense });
    coil.outerRadius = Math.max(coil.outerRadius, outerRadius);
    coil.height = Math.max(coil.height, offset + height);
  });
  return coil;
}

export function layer(conductivity: number, thickness: number, relativePermeability = 1): PlateLayer {
  return { resistivity: 1 / conductivity, relativePermeability, thickness };
}
