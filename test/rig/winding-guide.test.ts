import { describe, expect, it } from 'vitest';
import { windingGuides } from '../../src/rig/winding-guide.ts';
import { type Design, evaluateRig, FOYER, slotsOf } from '../support/design.ts';

const guideOf = (change: Design) => windingGuides({ windings: 0 }, slotsOf({ ...FOYER, ...change }))[0]!;

describe('windingGuides', () => {
  it('lays the turns into full layers where they divide, and says what is left for the last', () => {
    expect(guideOf({})).toMatchObject({ layers: 8, wiresPerLayer: 55, wiresInLastLayer: 55 });
    // 57 + 6 x 57 + 51
    expect(guideOf({ 'coil.turns': 450 })).toMatchObject({
      layers: 8,
      wiresPerLayer: 57,
      wiresInLastLayer: 51,
    });
    expect(guideOf({ 'coil.strands': 2 })).toMatchObject({ wiresPerLayer: 110, wiresInLastLayer: 110 });
  });

  it('leaves a layer out that rounding up leaves empty', () => {
    // 9 turns in 6 layers: 2 a layer fill 5
    expect(guideOf({ 'coil.turns': 9, 'coil.layers': 6 })).toMatchObject({ layers: 5, wiresInLastLayer: 1 });
  });

  it('agrees with the quantities of the rig', () => {
    const rig = evaluateRig({ ...FOYER, 'coil.strands': 2 });
    const guide = guideOf({ 'coil.strands': 2 });
    expect(guide.coldResistance).toBeCloseTo(rig.resistance_cold, 12);
    expect(guide.wireLength).toBe(rig.wire_length);
    // without the former and the leads
    expect(guide.wireMass).toBeCloseTo(rig.coil_mass - 0.15, 12);
    // 2 mm and twice 0.056 mm
    expect(guide.overall).toBeCloseTo(2.112e-3, 12);
  });
});
