import { performance } from 'node:perf_hooks';
import { GRAVITY } from '../../src/kernel/constants.ts';
import { Q } from '../../src/model/quantities.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { FOYER, slotsOf } from '../support/design.ts';
import { evaluateAdaptively } from './adaptive.ts';

/** Microseconds a design: the median of several rounds, and how far the rounds lie apart. */
export interface Timing {
  readonly name: string;
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

/** Designs in which everything differs from one to the next: nothing can be shared. */
function freshDesigns(count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) =>
    slotsOf({
      ...FOYER,
      'coil.turns': 300 + 3 * i,
      'coil.inner_radius': 0.04 + i * 1e-4,
      'plate.layers.0.thickness': (1 + i * 0.2) * 1e-3,
      'drive.current': 12 + i * 0.1,
    }),
  );
}

/** Designs that differ in the drive alone: coil and plate repeat. */
function sharedDesigns(count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) => slotsOf({ ...FOYER, 'drive.current': 9 + i * 0.1 }));
}

export function benchKernel(): Timing[] {
  const laws = createLaws(1);
  const fresh = freshDesigns(64);
  const shared = sharedDesigns(64);
  const everyLaw = (designs: Float64Array[]) => () => {
    for (const design of designs) laws.ask(design);
    return designs.length;
  };
  const adaptive = () => {
    for (const design of fresh.slice(0, 4)) {
      laws.ask(design);
      evaluateAdaptively(sameIntegrals(design, laws.results));
    }
    return 4;
  };
  return [
    time('fresh design: winding, plate, lift-off, equilibrium, circuit', everyLaw(fresh)),
    time('coil and plate repeat: lift-off, equilibrium, circuit', everyLaw(shared)),
    time('fresh design by adaptive Simpson, 1e-6', adaptive),
  ];
}

/** The rig that the kernel just evaluated, for the adaptive evaluation. */
function sameIntegrals(design: Float64Array, results: Float64Array) {
  const foyer = (path: string) => FOYER[path]!;
  const thickness = slotsOf({ ...FOYER, 'plate.layers.0.thickness': -1 }).indexOf(-1);
  const innerRadius = slotsOf({ ...FOYER, 'coil.inner_radius': -1 }).indexOf(-1);
  const turns = slotsOf({ ...FOYER, 'coil.turns': -1 }).indexOf(-1);
  return {
    innerRadius: design[innerRadius]!,
    outerRadius: results[Q.coil_outer_radius]!,
    height: results[Q.winding_height]!,
    turns: design[turns]!,
    conductivity: 1 / foyer('plate.layers.0.metal.resistivity'),
    thickness: design[thickness]!,
    omega: 2 * Math.PI * foyer('supply.frequency'),
    weight: results[Q.coil_mass]! * GRAVITY,
    // a drive that surely lifts, so that the search for the gap is part of the work
    current: Math.max(results[Q.current]!, 1.3 * results[Q.liftoff_current]!),
    standoff: foyer('standoff'),
  };
}

function time(name: string, round: () => number, rounds = 9, milliseconds = 150): Timing {
  const samples: number[] = [];
  round();
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    let designs = 0;
    while (performance.now() - start < milliseconds) designs += round();
    samples.push(((performance.now() - start) * 1e3) / designs);
  }
  samples.sort((a, b) => a - b);
  return { name, median: samples[rounds >> 1]!, least: samples[0]!, most: samples.at(-1)! };
}
