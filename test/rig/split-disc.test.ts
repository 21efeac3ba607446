import { describe, expect, it } from 'vitest';
import { SplitCoupling } from '../../src/kernel/disc/split-coupling.ts';
import { Q } from '../../src/model/quantities.ts';
import { createLaws } from '../../src/rig/laws.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';

/** A hoop of a few turns close over a thin, wide disc: 200 polynomials would follow all of its field. */
const HOOP: Design = {
  ...FOYER,
  'coil.turns': 6,
  'coil.layers': 3,
  'coil.inner_radius': 0.36,
  'plate.layers.0.thickness': 0.4e-3,
  'plate.radius': 0.6,
  'plate.extra_mass': 0,
  standoff: 0.6e-3,
};

describe('a rig whose disc answers the coarse part of the field alone', () => {
  const laws = createLaws(1);
  laws.evaluate(slotsOf(HOOP));
  const omega = 2 * Math.PI * HOOP['supply.frequency']!;

  it('is split, and has an operating point', () => {
    expect(laws.coupling).toBeInstanceOf(SplitCoupling);
    expect(laws.operatingPoint).not.toBeNull();
  });

  it('answers at j w as in the steady state', () => {
    const { rig, over, respond } = laws.operatingPoint!;
    over.evaluate(rig.gap);
    const response = respond();
    response.evaluate(0, omega);
    const modulus = Math.hypot(over.inductanceRe, over.inductanceIm);
    // modes leave out what fades at once
    expect(Math.abs(response.valueRe - over.inductanceRe) / modulus).toBeLessThan(1e-4);
    expect(Math.abs(response.valueIm - over.inductanceIm) / modulus).toBeLessThan(1e-4);
    const slope = Math.hypot(over.slopeRe, over.slopeIm);
    expect(Math.abs(2 * response.slopeRe - over.slopeRe) / slope).toBeLessThan(1e-4);
    expect(Math.abs(2 * response.slopeIm - over.slopeIm) / slope).toBeLessThan(1e-4);
  });

  it('turns into heat, all over the disc, what it takes', () => {
    const count = 4000;
    const step = 0.6 / count;
    const radii = Float64Array.from({ length: count }, (_, i) => (i + 0.5) * step);
    const density = new Float64Array(count);
    const { rig } = laws.operatingPoint!;
    laws.lossDensity(rig.gap, rig.current, radii, density);
    const total = radii.reduce((sum, r, i) => sum + 2 * Math.PI * r * density[i]! * step, 0);
    // the wide plate's profile leaves out the averaged tail of its nodes (see wide-plate-heat)
    expect(Math.abs(total / laws.results[Q.plate_loss]! - 1)).toBeLessThan(0.03);
    const peak = radii[density.indexOf(Math.max(...density))]!;
    expect(peak).toBeGreaterThan(0.35);
    expect(peak).toBeLessThan(0.375);
  });

  it('has no modes for motion in time', () => {
    expect(laws.operatingPoint!.modes(1)).toBeNull();
  });
});
