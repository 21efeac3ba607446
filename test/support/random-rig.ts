import { createRandom, type Random } from '../../src/math/random.ts';
import { INPUTS, inputByPath, METAL_KEYS, type MetalNumber } from '../../src/model/inputs.ts';
import { METALS, metalByName } from '../../src/model/metals.ts';
import type { Design } from './design.ts';

/**
 * Random rigs, a function of seed and number alone, as paths and SI values: every drive, what floats, wide plates and
 * discs, holes, several windings and layers, magnetic metals, loads, capacitors. `usual` rigs are such as builders
 * and teachers might ask for; `extreme` ones are usual ones of which up to four inputs are anything that a study accepts.
 */
export function usualRig(seed: number, number: number): Design {
  return draw(createRandom(seed, number));
}

export function extremeRig(seed: number, number: number): Design {
  const random = createRandom(seed, number, 1);
  const rig: Record<string, number> = { ...draw(random) };
  const paths = Object.keys(rig).filter((path) => !CHOICES.has(path));
  for (let left = 1 + random.below(4); left > 0; left--) {
    const path = paths[random.below(paths.length)]!;
    rig[path] = anythingFor(path, random);
  }
  return rig;
}

const CHOICES: ReadonlySet<string> = new Set([
  'floats',
  'plate.edge',
  'supply.fuse.kind',
  'supply.fuse.side',
]);

/** Anything in the accepted range of an input, evenly over its logarithm where it has one. */
function anythingFor(path: string, random: Random): number {
  const { minimum, maximum, integer } = INPUTS[inputByPath(path)!.slot]!;
  const top = Math.min(maximum, 10);
  if (path.endsWith('temperature_coefficient')) return between(random, minimum, maximum);
  if (path.endsWith('sense')) return random.below(2) * 2 - 1;
  if (integer) return Math.round(logarithmic(random, Math.max(1, minimum), maximum));
  return logarithmic(random, Math.max(minimum, 1e-9 * top), Number.isFinite(maximum) ? maximum : 10);
}

function between(random: Random, low: number, high: number): number {
  return low + (high - low) * random.unit();
}

function logarithmic(random: Random, low: number, high: number): number {
  return low * (high / low) ** random.unit();
}

function chance(random: Random, share: number): boolean {
  return random.unit() < share;
}

function pick<T>(random: Random, list: readonly T[]): T {
  return list[random.below(list.length)]!;
}

const CELSIUS = 273.15;
const COIL_METALS = ['copper', 'aluminium'];

function draw(random: Random): Design {
  const rig: Record<string, number> = {};
  rig.floats = pick(random, [0, 0, 0, 0, 1, 2]);
  const room = CELSIUS + between(random, -10, 40);
  rig['surroundings.temperature'] = room;
  rig['supply.frequency'] = chance(random, 0.6) ? pick(random, [50, 60, 400]) : logarithmic(random, 10, 1e5);
  rig.standoff = logarithmic(random, 0.6e-3, 0.02);
  const outerRadius = drawCoil(random, rig, room);
  drawPlate(random, rig, room, outerRadius);
  drawSupply(random, rig);
  if (chance(random, 0.3)) rig['surroundings.visitor_distance'] = logarithmic(random, 0.2, 5);
  if (chance(random, 0.2)) rig['standoff.breakdown'] = logarithmic(random, 1e6, 1e8);
  return rig;
}

/** Returns the outer radius, about. */
function drawCoil(random: Random, rig: Record<string, number>, room: number): number {
  metal(rig, 'coil.metal', pick(random, COIL_METALS), random);
  rig['coil.extra_mass'] = chance(random, 0.5) ? 0 : logarithmic(random, 0.01, 2);
  rig['coil.at_temperature'] = chance(random, 0.5) ? room : CELSIUS + between(random, 0, 150);
  if (chance(random, 0.7)) {
    rig['coil.thermal_class'] = CELSIUS + pick(random, [105, 120, 130, 155, 180, 200, 220]);
  }
  wireOf(random, rig, 'coil');
  const count = chance(random, 0.2) ? 2 + random.below(3) : 0;
  if (count === 0) return windingOf(random, rig, 'coil', rig['coil.wire']!);
  let most = 0;
  for (let w = 0; w < count; w++) {
    const path = `coil.windings.${w}`;
    const own = chance(random, 0.3);
    if (own) wireOf(random, rig, path);
    if (chance(random, 0.2)) metal(rig, `${path}.metal`, pick(random, COIL_METALS), random);
    most = Math.max(most, windingOf(random, rig, path, rig[own ? `${path}.wire` : 'coil.wire']!));
    rig[`${path}.offset`] = chance(random, 0.5) ? 0 : logarithmic(random, 1e-3, 0.1);
    rig[`${path}.sense`] = chance(random, 0.25) ? -1 : 1;
  }
  return most;
}

function wireOf(random: Random, rig: Record<string, number>, path: string): void {
  rig[`${path}.wire`] = logarithmic(random, 0.2e-3, 4e-3);
  rig[`${path}.strands`] = chance(random, 0.8) ? 1 : 2 + random.below(10);
  if (chance(random, 0.5)) rig[`${path}.insulation.grade`] = 1 + random.below(3);
  else rig[`${path}.insulation.thickness`] = rig[`${path}.wire`]! * between(random, 0.01, 0.1);
}

function windingOf(random: Random, rig: Record<string, number>, path: string, wire: number): number {
  const turns = Math.ceil(logarithmic(random, 2, 2000));
  const wires = turns * (rig[`${path}.strands`] ?? rig['coil.strands']!);
  const layers = Math.min(wires, Math.ceil(logarithmic(random, 1, 2 + Math.sqrt(wires))));
  const inner = logarithmic(random, 0.005, 0.4);
  const side = 1.15 * wire;
  rig[`${path}.turns`] = turns;
  rig[`${path}.inner_radius`] = inner;
  const width = Math.ceil(wires / layers) * side;
  rig[`${path}.layers`] = layers;
  if (chance(random, 0.2)) {
    const loose = between(random, 1, 1.5);
    rig[`${path}.section.outer_radius`] = inner + width * loose;
    rig[`${path}.section.height`] = layers * side * loose;
    return inner + width * loose;
  }
  return inner + width;
}

function drawPlate(random: Random, rig: Record<string, number>, room: number, outerRadius: number): void {
  const floating = rig.floats === 1;
  const magnetic = !floating && chance(random, 0.1);
  const layers = chance(random, 0.75) ? 1 : 2 + random.below(5);
  const good = METALS.filter((one) => one.relativePermeability.value < 1.1).map(({ name }) => name);
  for (let i = 0; i < layers; i++) {
    const path = `plate.layers.${i}`;
    metal(rig, `${path}.metal`, pick(random, magnetic ? METALS.map(({ name }) => name) : good), random);
    rig[`${path}.thickness`] = logarithmic(random, 0.2e-3, 0.03);
  }
  if (!floating && chance(random, 0.05))
    rig[`plate.layers.${layers - 1}.thickness`] = Number.POSITIVE_INFINITY;
  rig['plate.extra_mass'] = chance(random, 0.7) ? 0 : logarithmic(random, 0.01, 2);
  rig['plate.at_temperature'] = chance(random, 0.6) ? room : CELSIUS + between(random, -10, 150);
  if (floating || chance(random, 0.5)) {
    rig['plate.radius'] = outerRadius * logarithmic(random, 0.3, 3);
    if (chance(random, 0.25)) rig['plate.inner_radius'] = rig['plate.radius'] * between(random, 0.02, 0.9);
    if (chance(random, 0.2)) rig['plate.edge'] = random.below(2);
  }
  if (rig.floats === 2 && chance(random, 0.5)) {
    rig['plate.load.water'] = logarithmic(random, 0.1, 5);
    rig['plate.load.from'] = room;
    rig['plate.load.to'] = CELSIUS + between(random, 45, 100);
  }
}

function drawSupply(random: Random, rig: Record<string, number>): void {
  const drive = random.below(3);
  const limited = drive === 2;
  const which = 1 + random.below(7);
  if (chance(random, 0.5) || limited) rig['supply.line_voltage'] = pick(random, [120, 230, 400]);
  if (limited ? which & 1 : chance(random, 0.3)) rig['supply.max_voltage'] = logarithmic(random, 10, 400);
  if (limited ? which & 2 : chance(random, 0.3)) rig['supply.max_current'] = logarithmic(random, 2, 63);
  if (limited ? which & 4 : chance(random, 0.3)) {
    rig['supply.fuse.rating'] = pick(random, [2, 4, 6, 10, 16, 20, 25, 32, 63]);
    rig['supply.fuse.kind'] = random.below(2);
    rig['supply.fuse.side'] = rig['supply.line_voltage'] === undefined ? 0 : random.below(2);
  }
  if (chance(random, 0.25)) {
    rig['supply.series_capacitance'] = logarithmic(random, 1e-7, 1e-2);
  }
  rig['supply.series_resistance'] = chance(random, 0.6) ? 0 : logarithmic(random, 0.01, 5);
  if (drive === 0) rig['drive.current'] = logarithmic(random, 0.5, 200);
  if (drive === 1) rig['drive.voltage'] = logarithmic(random, 1, 400);
}

function metal(rig: Record<string, number>, path: string, name: string, random: Random): void {
  const catalogued = metalByName(name)!;
  const own = chance(random, 0.15);
  for (const [number, key] of Object.entries(METAL_KEYS) as [MetalNumber, string][]) {
    // a builder's own numbers are within a tenth or so of those of the catalogue
    const off = own && number !== 'relativePermeability' ? between(random, 0.9, 1.2) : 1;
    rig[`${path}.${key}`] = (catalogued[number]?.value ?? Number.NaN) * off;
  }
}
