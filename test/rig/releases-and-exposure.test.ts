import { describe, expect, it } from 'vitest';
import { evaluateRig, FOYER, SOCKET } from '../support/design.ts';

const OMEGA = 2 * Math.PI * 50;

describe('what a rig sets free', () => {
  const table = evaluateRig(FOYER);

  it('is the energy of its field at the peak of the current, as the reactive power tells it', () => {
    // Q = w L I^2 = sqrt(S^2 - P^2), by quantities that were computed on another way
    const reactive = Math.sqrt(table.apparent_power ** 2 - table.power ** 2);
    expect(table.stored_energy / (reactive / OMEGA)).toBeCloseTo(1, 9);
    expect(table.stored_energy).toBeGreaterThan(1);
  });

  it('is what falls: weight times height, nothing at rest, not applicable where it is clamped', () => {
    expect(table.fall_energy).toBeCloseTo(table.coil_mass * 9.80665 * table.height, 12);
    expect(evaluateRig({ ...FOYER, 'drive.current': 5 }).fall_energy).toBe(0);
    expect(evaluateRig({ ...FOYER, floats: 2 }).fall_energy).toBeNaN();
  });

  it('is what a series capacitor holds, and nothing is told without one', () => {
    const tuned = evaluateRig({ ...FOYER, 'supply.series_capacitance': 300e-6 });
    expect(tuned.capacitor_energy).toBeCloseTo(300e-6 * tuned.capacitor_voltage ** 2, 12);
    for (const name of ['capacitor_energy', 'resonance_ratio', 'voltage_rise'] as const) {
      expect(table[name]).toBeNaN();
    }
  });
});

describe('series resonance', () => {
  const LEADS = { floats: 2, 'supply.series_resistance': 0 };
  const free = evaluateRig({ ...FOYER, ...LEADS });
  const at = (detuning: number) =>
    evaluateRig({
      ...FOYER,
      ...LEADS,
      'supply.series_capacitance': detuning / (OMEGA ** 2 * free.inductance),
    });

  it('has a ratio of one where the reactances cancel, and the square root of the detuning elsewhere', () => {
    expect(at(1).resonance_ratio).toBeCloseTo(1, 12);
    expect(at(4).resonance_ratio).toBeCloseTo(0.5, 12);
    expect(at(0.25).resonance_ratio).toBeCloseTo(2, 12);
  });

  it('raises the coil by its quality factor: impedance over resistance', () => {
    const { voltage_rise, resistance, plate_resistance, inductance } = at(1);
    const impedance = Math.hypot(resistance + plate_resistance, OMEGA * inductance);
    expect(voltage_rise).toBeCloseTo(impedance / (resistance + plate_resistance), 9);
    // far below resonance the capacitor hardly matters
    expect(at(1e4).voltage_rise).toBeCloseTo(1, 2);
  });
});

describe('the field at people', () => {
  it('is the same law for operator and visitor, each at its own distance', () => {
    const both = evaluateRig({ ...FOYER, ...SOCKET, 'surroundings.operator_distance': 0.4 });
    const visitorThere = evaluateRig({ ...FOYER, ...SOCKET, 'surroundings.visitor_distance': 0.4 });
    expect(both.field_operator).toBe(visitorThere.field_visitor);
    expect(both.field_on_axis_operator).toBe(visitorThere.field_on_axis);
    expect(both.field_visitor).toBeLessThan(both.field_operator);
    expect(evaluateRig({ ...FOYER, ...SOCKET }).field_operator).toBeNaN();
  });

  it('in the middle of a flat thin coil is that of its loops: mu0 N I ln(r2/r1) / (2 (r2 - r1))', () => {
    const flat = { ...FOYER, 'coil.layers': 1, 'coil.turns': 60, 'coil.inner_radius': 0.2 };
    const { field_at_coil, coil_outer_radius } = evaluateRig(flat);
    const width = coil_outer_radius - 0.2;
    const thin = (4e-7 * Math.PI * 60 * 12 * Math.log(coil_outer_radius / 0.2)) / (2 * width);
    // 2 mm of height over 0.2 m of radius: (h / 2r)^2 / 2 at most
    expect(Math.abs(field_at_coil / thin - 1)).toBeLessThan(2e-5);
  });
});

describe('the hum', () => {
  it('is told of what floats, at twice the supply frequency', () => {
    const table = evaluateRig(FOYER);
    const acceleration = (2 * OMEGA) ** 2 * table.vibration;
    const rms = (1.2 * acceleration * table.coil_outer_radius ** 2) / 2 / Math.SQRT2;
    // A-weighting takes 19.1 dB off at 100 Hz
    expect(table.hum_level).toBeCloseTo(20 * Math.log10(rms / 20e-6) - 19.1, 0);
    expect(evaluateRig({ ...FOYER, floats: 2 }).hum_level).toBeNaN();
    expect(evaluateRig({ ...FOYER, 'drive.current': 5 }).hum_level).toBeNaN();
  });
});
