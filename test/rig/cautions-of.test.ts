import { describe, expect, it } from 'vitest';
import { CAUTION_RULES } from '../../src/model/cautions.ts';
import { FUSE_SIDES } from '../../src/model/inputs.ts';
import { cautionsOf } from '../../src/rig/cautions-of.ts';
import { atOwnDrive } from '../../src/rig/lift-curve.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';

/** The foyer table with a named standoff at 12 A: floats 19.9 mm high at 82 V. */
const TABLE: Design = {
  ...FOYER,
  'standoff.breakdown': 20e6,
  'plate.extra_mass': 0,
  'supply.series_resistance': 0,
};

const layout = { plateLayers: 1, windings: 0 };
function cautions(change: Design, without: readonly string[] = []) {
  const design = Object.fromEntries(
    Object.entries({ ...TABLE, ...change }).filter(([path]) => !without.includes(path)),
  );
  const slots = slotsOf(design);
  return cautionsOf(layout, slots, atOwnDrive(layout, slots).results);
}
const ids = (change: Design, without?: readonly string[]) => cautions(change, without).map(({ id }) => id);

const PAN: Design = { floats: 2, 'plate.radius': 0.17, 'plate.edge': 0, 'plate.layers.0.thickness': 2e-3 };
const STEEL: Design = {
  'plate.layers.0.metal.relative_permeability': 200,
  'plate.layers.0.metal.resistivity': 1.43e-7,
};
const IN_SECTION: Design = { 'coil.section.outer_radius': 0.166, 'coil.section.height': 0.0169 };

/** Per rule a rig that raises it and, changed in one respect, one that does not. */
const CASES: Record<string, [raises: Design, doesNot: Design]> = {
  saturation: [
    { ...PAN, ...STEEL },
    { ...PAN, ...STEEL, 'drive.current': 1 },
  ],
  'bare-enamel': [{ 'standoff.breakdown': Number.NaN }, {}],
  // 325 V peak of the mains against 2 mm of a sheet that stands 200 V, or 40 kV
  'insulation-margin': [
    { 'supply.line_voltage': 230, 'standoff.breakdown': 0.1e6 },
    { 'supply.line_voltage': 230 },
  ],
  'field-public': [{ 'surroundings.visitor_distance': 0.3 }, { 'surroundings.visitor_distance': 1.5 }],
  'field-occupational': [{ 'surroundings.visitor_distance': 0.22 }, { 'surroundings.visitor_distance': 1.5 }],
  pacemaker: [{ 'surroundings.visitor_distance': 0.4 }, { 'surroundings.visitor_distance': 1.5 }],
  'hot-coil': [{}, { 'drive.current': 1 }],
  'hot-plate': [
    { 'plate.radius': 0.35, 'plate.edge': 0 },
    { 'plate.radius': 0.35, 'plate.edge': 0, 'drive.current': 1 },
  ],
  'touch-voltage': [{}, { 'drive.current': 5 }],
  'not-isolated': [{}, { 'supply.frequency': 400 }],
  'no-guidance': [{}, { floats: 2 }],
  'switch-on': [{}, { 'drive.current': 8 }],
  fuse: [{ 'supply.fuse.rating': 10 }, { 'supply.fuse.rating': 16 }],
  'thermal-class': [{ 'coil.thermal_class': 403.15 }, { 'coil.thermal_class': 403.15, 'drive.current': 3 }],
  runaway: [{ 'drive.current': 60, floats: 2 }, {}],
  packing: [
    { ...IN_SECTION, 'coil.turns': 480 },
    { ...IN_SECTION, 'coil.turns': 430 },
  ],
  'small-magnetic-plate': [
    { ...PAN, ...STEEL },
    { ...PAN, ...STEEL, 'plate.radius': 0.4 },
  ],
  rattles: [PAN, { ...PAN, 'drive.current': 1 }],
  'pan-floats': [PAN, { ...PAN, 'drive.current': 1 }],
};

describe('the cautions of a design', () => {
  it('have a case here for every rule', () => {
    expect(Object.keys(CASES).sort()).toEqual(CAUTION_RULES.map(({ id }) => id).sort());
  });

  it.each(Object.entries(CASES))('%s is raised by a rig, and not by another', (id, [raises, doesNot]) => {
    expect(ids(raises)).toContain(id);
    expect(ids(doesNot)).not.toContain(id);
  });

  it('do not call a drive that goes up to the fuse more than the fuse carries', () => {
    const supply = { 'supply.fuse.side': FUSE_SIDES.line, 'supply.line_voltage': 230 };
    const atLimit = { ...supply, 'supply.fuse.rating': 5, 'supply.max_voltage': 230 };
    expect(ids(atLimit, ['drive.current'])).not.toContain('fuse');
    expect(ids({ ...supply, 'supply.fuse.rating': 4 })).toContain('fuse');
  });

  it('do not call a winding in full layers packed too closely, whatever the rounding of its section', () => {
    for (const layers of [4, 5, 7, 8, 11]) {
      expect(ids({ 'coil.layers': layers, 'coil.turns': 40 * layers })).not.toContain('packing');
    }
  });

  it('take a rig of another frequency for mains-fed when it has a line voltage', () => {
    expect(ids({ 'supply.frequency': 400, 'supply.line_voltage': 230 })).toContain('not-isolated');
    expect(ids({ 'supply.frequency': 60 })).toContain('not-isolated');
  });

  it('count the voltage of a series capacitor as one that somebody may touch', () => {
    const tuned = cautions({ 'supply.series_capacitance': 300e-6, 'drive.current': 5 });
    const touch = tuned.find(({ id }) => id === 'touch-voltage');
    // I / (omega C): more than coil and supply have
    expect(touch?.value).toBeCloseTo(5 / (2 * Math.PI * 50 * 300e-6), 9);
  });

  it('are none for a design that cannot be built', () => {
    expect(cautions({ 'coil.section.outer_radius': 0.04, 'coil.section.height': 0.02 })).toEqual([]);
  });
});
