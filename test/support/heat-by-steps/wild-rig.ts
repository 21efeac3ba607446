import { createRandom } from '../../../src/math/random.ts';
import type { Design } from '../design.ts';
import { usualRig } from '../random-rig.ts';

/**
 * A usual random rig whose heat is not: rooms and plates from 55 K to 700 K, plates of foil, much faster than their winding,
 * windings that conduct well or hardly, gaps of a hair or of a hand, limits a few kelvin or hundreds above the room.
 */
export function wildRig(seed: number, number: number): Design {
  const random = createRandom(seed, number, 5);
  const rig: Record<string, number> = { ...usualRig(seed, number) };
  const often = (share: number) => random.unit() < share;
  const between = (low: number, high: number) => low * (high / low) ** random.unit();
  if (often(0.3)) {
    rig['surroundings.temperature'] = [55, 77, 120, 200, 330, 400][random.below(6)]!;
    const from = rig['plate.load.from'];
    if (from !== undefined) rig['plate.load.from'] = Math.max(rig['surroundings.temperature'], 274);
  }
  if (often(0.3)) rig['plate.at_temperature'] = between(55, 700);
  if (often(0.4)) {
    for (const path of Object.keys(rig)) {
      if (/^plate\.layers\.\d\.thickness$/.test(path)) rig[path] = between(5e-6, 3e-4);
    }
  }
  const inner = rig['coil.inner_radius'] ?? 0.1;
  if (often(0.5)) rig['plate.radius'] = inner * between(0.5, 10);
  if (often(0.3)) rig['coil.metal.temperature_coefficient'] = (random.unit() - 0.3) * 0.012;
  if (often(0.3)) rig['coil.metal.specific_heat'] = between(50, 5000);
  if (often(0.3)) rig['coil.winding.conductivity'] = between(0.03, 30);
  if (often(0.3)) rig['standoff.conductivity'] = between(0.02, 5);
  if (often(0.3)) rig.standoff = between(2e-5, 0.2);
  rig['coil.thermal_class'] = rig['surroundings.temperature']! + between(3, 800);
  return rig;
}
