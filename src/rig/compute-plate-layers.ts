import { resistivityAt } from '../kernel/resistivity.ts';
import { skinDepth } from '../kernel/skin-depth.ts';
import { LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { MAGNETIC } from './geometry.ts';
import type { RigState } from './state.ts';

/** The plate's layers at their temperature, and how thick they are in skin depths. */
export function computePlateLayers(rig: RigState): void {
  const { slots, results, layers, layerCount } = rig;
  let depths = 0;
  for (let j = 0; j < layerCount; j++) {
    const at = SLOT.plateLayers + j * LAYER_SLOTS;
    const layer = layers[j]!;
    layer.resistivity = resistivityAt(
      slots[at + METAL_SLOTS.resistivity]!,
      slots[at + METAL_SLOTS.temperatureCoefficient]!,
      slots[SLOT.plateTemperature]!,
    );
    layer.relativePermeability = slots[at + METAL_SLOTS.relativePermeability]!;
    const isMagnetic = layer.relativePermeability > MAGNETIC;
    layer.saturation = isMagnetic ? slots[at + METAL_SLOTS.saturation]! : Number.NaN;
    layer.thickness = slots[at + LAYER_THICKNESS]!;
    const depth = skinDepth(layer.resistivity, layer.relativePermeability, rig.omega);
    if (j === 0) results[Q.skin_depth] = depth;
    depths += layer.thickness / depth;
  }
  // a half-space has no thickness to count
  if (depths !== Number.POSITIVE_INFINITY) results[Q.thickness_in_skin_depths] = depths;
}
