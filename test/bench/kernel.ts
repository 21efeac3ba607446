import { performance } from 'node:perf_hooks';
import { GRAVITY } from '../../src/kernel/constants.ts';
import { equilibriumGap } from '../../src/kernel/equilibrium.ts';
import { liftoffCurrent } from '../../src/kernel/lift.ts';
import { EDGES, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { createGeometry } from '../../src/rig/geometry.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { WidePlate } from '../../src/rig/wide-plate.ts';
import { type Design, FOYER, SOCKET, slotsOf } from '../support/design.ts';
import { evaluateAdaptively } from './adaptive.ts';
import { timeInC } from './in-c.ts';

/** Microseconds a design: the median of several rounds, and how far the rounds lie apart. */
export interface Timing {
  readonly name: string;
  readonly median: number;
  readonly least: number;
  readonly most: number;
  readonly target: string;
}

/** The foyer table with all that a study may ask about. */
const EVERYTHING: Design = { ...FOYER, ...SOCKET };

/** Designs in which everything differs from one to the next: nothing can be shared. */
function freshDesigns(count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) =>
    slotsOf({
      ...EVERYTHING,
      'coil.turns': 300 + 3 * i,
      'coil.inner_radius': 0.04 + i * 1e-4,
      'plate.layers.0.thickness': (1 + i * 0.2) * 1e-3,
      'drive.current': 12 + i * 0.1,
    }),
  );
}

/** Designs that differ in the drive alone: coil and plate repeat. */
function sharedDesigns(count: number): Float64Array[] {
  return Array.from({ length: count }, (_, i) => slotsOf({ ...EVERYTHING, 'drive.current': 9 + i * 0.1 }));
}

export function benchKernel(): Timing[] {
  const laws = createLaws(1);
  const fresh = freshDesigns(64);
  const shared = sharedDesigns(64);
  const everyLaw = (designs: Float64Array[]) => () => {
    for (const design of designs) laws.evaluate(design);
    return designs.length;
  };
  const everyNewLaw = (designs: Float64Array[]) => {
    const wide = designs.map((design) => design.slice());
    for (const design of wide) design[SLOT.plateEdge] = EDGES.ignored;
    return () => {
      for (const design of wide) {
        // no plate comes back
        design[SLOT.plateLayers + LAYER_THICKNESS]! *= 1 + 1e-7;
        laws.evaluate(design);
      }
      return wide.length;
    };
  };
  const adaptive = () => {
    for (const design of fresh.slice(0, 4)) {
      laws.evaluate(design);
      evaluateAdaptively(sameIntegrals(design, laws.results));
    }
    return 4;
  };
  return [
    time(
      'lift and circuit of a fresh design (winding, plate, lift-off, gap)',
      liftAlone(fresh),
      '1.2 x the same in C',
    ),
    ...timeC(),
    time('the same where coil and plate repeat', liftAlone(shared), '< 5 us'),
    time('the same fresh by adaptive Simpson, 1e-6', adaptive, ''),
    time('every law, fresh design over a wide plate', everyNewLaw(fresh), '< 25 us'),
    time('every law, 64 designs that come back', everyLaw(fresh), ''),
    time('every law, coil and plate repeat', everyLaw(shared), '< 8 us'),
    ...timeSteel(),
    ...timeWires(),
    time(
      'every law and a duty cycle at a held voltage, fresh design',
      everyDay(fresh),
      '100 us for the cycle',
    ),
  ];
}

/** The work of the first row in C, in the same minute. */
function timeC(): Timing[] {
  const taken = timeInC();
  return taken
    ? [{ name: 'the same in C (cc -O3)', ...taken, target: '10 to 11 us where aims of times hold' }]
    : [];
}

/** A wide steel plate, linear and saturating, each design fresh. */
function timeSteel(): Timing[] {
  const laws = createLaws(1);
  const over = (saturation: number) =>
    Array.from({ length: 64 }, (_, i) =>
      slotsOf({
        ...EVERYTHING,
        floats: 2,
        'plate.edge': 0,
        'plate.layers.0.metal.resistivity': 6e-7,
        'plate.layers.0.metal.relative_permeability': 800,
        'plate.layers.0.metal.saturation': saturation,
        'plate.layers.0.thickness': (1 + i * 0.05) * 1e-3,
        'coil.turns': 300 + 3 * i,
        'coil.inner_radius': 0.04 + i * 1e-4,
        'drive.current': 12 + i * 0.1,
      }),
    );
  const all = (designs: Float64Array[]) => () => {
    for (const design of designs) laws.evaluate(design);
    return designs.length;
  };
  return [
    time('every law over a wide steel plate, linear, fresh design', all(over(Number.NaN)), ''),
    time('the same, saturating', all(over(1.5)), '< 10 x the linear one'),
  ];
}

/** Resistance of the windings alone: wires at mains frequency, as lone ones, and close ones at 25 kHz. */
function timeWires(): Timing[] {
  const laws = createLaws(1);
  const at = (frequency: number) =>
    freshDesigns(64).map((slots) => {
      slots[SLOT.frequency] = frequency;
      slots[SLOT.floats] = 2;
      return slots;
    });
  const all = (designs: Float64Array[]) => () => {
    for (const design of designs) laws.evaluate(design);
    return designs.length;
  };
  return [
    time('every law at 50 Hz, clamped, fresh design: lone wires', all(at(50)), ''),
    time('the same at 25 kHz: close wires', all(at(25e3)), 'no more than at 50 Hz'),
  ];
}

/** With the periodic state of five minutes on, twenty-five off. */
function everyDay(designs: readonly Float64Array[]): () => number {
  const laws = createLaws(1, 0, [Q.coil_peak]);
  const cycled = designs.map((design, i) => {
    const slots = design.slice();
    slots[SLOT.driveCurrent] = Number.NaN;
    slots[SLOT.driveVoltage] = 80 + i * 0.3;
    slots[SLOT.dutyOn] = 300;
    slots[SLOT.dutyOff] = 1500;
    return slots;
  });
  return () => {
    for (const design of cycled) laws.evaluate(design);
    return cycled.length;
  };
}

/** What lift and circuit take: spectrum, reflection, lift-off, equilibrium, reflected impedance. */
function liftAlone(designs: Float64Array[]): () => number {
  const geometry = createGeometry(1, 0);
  const plate = new WidePlate();
  const omega = 2 * Math.PI * FOYER['supply.frequency']!;
  const layers = [{ resistivity: 0, relativePermeability: 1, thickness: 0 }];
  const stack = { layers, layerCount: 1, omega };
  return () => {
    for (const design of designs) {
      geometry.fill(design);
      const { coil } = geometry;
      const standoff = design[SLOT.standoff]!;
      layers[0]!.resistivity = design[SLOT.plateLayers + METAL_SLOTS.resistivity]!;
      layers[0]!.thickness = design[SLOT.plateLayers + LAYER_THICKNESS]!;
      plate.prepare(coil, stack, standoff, 2.5 * coil.outerRadius);
      plate.coupling.evaluate(standoff);
      const weight = coil.mass * GRAVITY;
      const liftoff = liftoffCurrent(weight, plate.coupling.slopeRe);
      const current = design[SLOT.driveCurrent]!;
      if (current > liftoff) {
        const target = (2 * weight) / (current * current);
        plate.coupling.evaluate(equilibriumGap(plate.coupling, target, standoff, 1));
      }
    }
    return designs.length;
  };
}

/** The rig that the kernel just evaluated, for the adaptive evaluation. */
function sameIntegrals(design: Float64Array, results: Float64Array) {
  const foyer = (path: string) => FOYER[path]!;
  return {
    innerRadius: design[SLOT.innerRadius]!,
    outerRadius: results[Q.coil_outer_radius]!,
    height: results[Q.winding_height]!,
    turns: design[SLOT.turns]!,
    conductivity: 1 / foyer('plate.layers.0.metal.resistivity'),
    thickness: design[SLOT.plateLayers + LAYER_THICKNESS]!,
    omega: 2 * Math.PI * foyer('supply.frequency'),
    weight: results[Q.coil_mass]! * GRAVITY,
    // a drive that surely lifts, so that the search for the gap is part of the work
    current: Math.max(results[Q.current]!, 1.3 * results[Q.liftoff_current]!),
    standoff: foyer('standoff'),
  };
}

function time(name: string, round: () => number, target: string, rounds = 9, milliseconds = 150): Timing {
  const samples: number[] = [];
  round();
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    let designs = 0;
    while (performance.now() - start < milliseconds) designs += round();
    samples.push(((performance.now() - start) * 1e3) / designs);
  }
  samples.sort((a, b) => a - b);
  return { name, median: samples[rounds >> 1]!, least: samples[0]!, most: samples.at(-1)!, target };
}
