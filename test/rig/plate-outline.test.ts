import { describe, expect, it } from 'vitest';
import { equalDiscRadius } from '../../src/kernel/plate-outline.ts';
import { FLOATS } from '../../src/model/inputs.ts';
import { evaluateRig, FOYER } from '../support/design.ts';

const BASE = { ...FOYER, 'plate.extra_mass': 0, 'drive.current': 12 };

describe('a plate that is no disc', () => {
  it('is evaluated as the disc that lifts alike, edge resolved', () => {
    const square = evaluateRig({ ...BASE, 'plate.square': 0.3 });
    const disc = evaluateRig({ ...BASE, 'plate.radius': equalDiscRadius(0.3, 0.3) });
    expect(square.plate_model).toBe(1);
    expect(square.height).toBe(disc.height);
    expect(square.plate_loss).toBe(disc.plate_loss);
  });

  it('weighs what its own outline weighs', () => {
    const plate = { ...BASE, floats: FLOATS.plate, 'plate.layers.0.thickness': 2e-3, 'drive.current': 20 };
    const rectangle = evaluateRig({ ...plate, 'plate.sides.0': 0.3, 'plate.sides.1': 0.25 });
    const disc = evaluateRig({ ...plate, 'plate.radius': equalDiscRadius(0.3, 0.25) });
    const [liftoff, lighter] = [rectangle.liftoff_current ** 2, disc.liftoff_current ** 2];
    const areas = (0.3 * 0.25) / (Math.PI * equalDiscRadius(0.3, 0.25) ** 2);
    // at one gap the current squared goes with the weight
    expect(liftoff / lighter).toBeCloseTo(areas, 6);
  });

  it('is refused where no disc lifts alike', () => {
    expect(evaluateRig({ ...BASE, 'plate.sides.0': 0.5, 'plate.sides.1': 0.3 }).reason).toBe('oblong');
    expect(evaluateRig({ ...BASE, 'plate.sides.0': 0.45, 'plate.sides.1': 0.3 }).status).toBe('lifts');
  });
});
