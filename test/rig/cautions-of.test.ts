import { describe, expect, it } from 'vitest';
import { CAUTION_RULES, type Judgement } from '../../src/model/cautions/judge.ts';
import { FUSE_SIDES } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';
import { cautionResults } from '../../src/rig/caution-results.ts';
import { cautionsOf } from '../../src/rig/cautions-of.ts';
import { atOwnDrive } from '../../src/rig/lift-curve.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';

/** The foyer table with all that a study may say of it, at 12 A: floats 19.9 mm high at 82 V. */
const TABLE: Design = {
  ...FOYER,
  'coil.thermal_class': 403.15,
  'standoff.breakdown': 20e6,
  'plate.radius': 0.35,
  'plate.edge': 0,
  'plate.extra_mass': 0,
  'supply.line_voltage': 230,
  'supply.fuse.rating': 16,
  'supply.series_resistance': 0,
  'surroundings.visitor_distance': 1.5,
  'surroundings.operator_distance': 1.5,
};

const SIDEWAYS = [Q.centring_stiffness, Q.sideways_force];
const layout = { plateLayers: 1, windings: 0 };
function judgements(change: Design, without: readonly string[] = []): Judgement[] {
  const design = Object.fromEntries(
    Object.entries({ ...TABLE, ...change }).filter(([path]) => !without.includes(path)),
  );
  const slots = slotsOf(design);
  return cautionsOf(
    layout,
    slots,
    cautionResults(layout, slots, atOwnDrive(layout, slots, SIDEWAYS).results),
  );
}
const verdict = (id: string, change: Design, without?: readonly string[]) =>
  judgements(change, without).find(({ rule }) => rule.id === id)!;

const none = Number.NaN;
const PAN: Design = { floats: 2, 'plate.radius': 0.17, 'plate.layers.0.thickness': 2e-3 };
const WATER: Design = { 'plate.load.water': 0.1, 'plate.load.from': 293, 'plate.load.to': 363 };
const STEEL: Design = {
  'plate.layers.0.metal.relative_permeability': 200,
  'plate.layers.0.metal.resistivity': 1.43e-7,
};
const FERRITIC: Design = {
  'plate.layers.0.metal.relative_permeability': 800,
  'plate.layers.0.metal.resistivity': 6e-7,
  'plate.layers.0.metal.saturation': 1.5,
};
const ALLOY: Design = { 'plate.layers.0.metal.specific_heat': 920 };
const IN_SECTION: Design = { 'coil.section.outer_radius': 0.166, 'coil.section.height': 0.0169 };
/** Alone on a bench: a generator at 400 Hz, a few volts. */
const WEAK: Design = { 'supply.frequency': 400, 'supply.line_voltage': none, 'drive.current': 0.02 };
/** At a few volts from a line of 8 V. */
const LOW: Design = { 'supply.frequency': 400, 'supply.line_voltage': 8, 'drive.current': 0.3 };
/** Wires that do not fit: no answer. */
const NO_ANSWER: Design = { 'coil.section.outer_radius': 0.04, 'coil.section.height': 0.02 };
const NONE = 'the design has no answer';
const NO_LINE = 'no `line_voltage` given';
const NO_RADIUS = 'no `plate.radius` given';
const TUNED: Design = { 'supply.series_capacitance': 300e-6 };

/** Per rule: a rig that raises it, one that does not, and one that cannot judge it, with the reason. */
const CASES: Record<string, [raises: Design, doesNot: Design, cannot: Design, missing: string]> = {
  'touch-voltage': [{}, LOW, WEAK, NO_LINE],
  'bare-live-parts': [{}, LOW, WEAK, NO_LINE],
  'bare-live-parts-wet': [{}, LOW, WEAK, NO_LINE],
  water: [{ ...PAN, ...WATER }, PAN, { ...PAN, ...WATER, ...WEAK }, NO_LINE],
  'not-isolated': [{}, { 'supply.isolated': 1 }, WEAK, NO_LINE],
  separated: [{ 'supply.isolated': 1 }, {}, NO_ANSWER, NONE],
  // 325 V peak to earth against 2 mm of a sheet that stands 200 V, or 40 kV
  'insulation-margin': [
    { 'standoff.breakdown': 0.1e6 },
    {},
    { 'standoff.breakdown': none },
    'no `standoff.breakdown` given',
  ],
  'bare-enamel': [{ 'standoff.breakdown': none }, {}, NO_ANSWER, NONE],
  'stored-energy': [{}, { 'drive.current': 1 }, NO_ANSWER, NONE],
  // 2.3 times the supply's voltage over a thin plate, and hardly more than it
  'series-resonance': [
    { 'supply.series_capacitance': 420e-6, floats: 2, 'plate.layers.0.thickness': 1e-4 },
    { 'supply.series_capacitance': 42e-3, floats: 2 },
    { ...NO_ANSWER, ...TUNED },
    NONE,
  ],
  'series-capacitor': [TUNED, {}, NO_ANSWER, NONE],
  'compensating-capacitor': [{}, { 'drive.current': 1 }, NO_ANSWER, NONE],
  runaway: [{ 'drive.current': 60, floats: 2 }, {}, NO_ANSWER, NONE],
  'winding-melts': [
    { 'drive.current': 60, floats: 2 },
    {},
    { 'drive.current': 60, floats: 2, 'coil.metal.density': 2704 },
    'no melting point known of the coil’s own metal',
  ],
  'plate-melts': [
    { ...PAN, ...ALLOY, 'drive.current': 60 },
    ALLOY,
    { ...ALLOY, 'plate.radius': none },
    NO_RADIUS,
  ],
  'fire-winding': [{ 'drive.current': 14 }, { 'drive.current': 3 }, NO_ANSWER, NONE],
  'fire-plate': [{ ...PAN, 'drive.current': 30 }, {}, { 'plate.radius': none }, NO_RADIUS],
  'dry-pan': [
    { ...PAN, ...WATER, 'drive.current': 30 },
    { ...PAN, ...WATER, 'drive.current': 1 },
    { ...PAN, ...WATER, 'plate.radius': none },
    NO_RADIUS,
  ],
  'thermal-class': [{}, { 'drive.current': 3 }, { 'coil.thermal_class': none }, 'no `thermal_class` given'],
  fuse: [{ 'supply.fuse.rating': 10 }, {}, { 'supply.fuse.rating': none }, 'no `fuse` given'],
  unattended: [{}, { 'drive.current': 1 }, { 'drive.current': 1, 'plate.radius': none }, NO_RADIUS],
  'stop-button': [{}, { 'drive.current': 1 }, NO_ANSWER, NONE],
  'hot-coil': [{}, { 'drive.current': 1 }, NO_ANSWER, NONE],
  'hot-plate': [{}, { 'drive.current': 1 }, { 'plate.radius': none }, NO_RADIUS],
  falls: [{}, { 'drive.current': 8 }, NO_ANSWER, NONE],
  'switch-on': [{}, { 'drive.current': 8 }, NO_ANSWER, NONE],
  ceiling: [{ 'surroundings.headroom': 0.01 }, { 'surroundings.headroom': 0.9 }, {}, 'no `headroom` given'],
  hops: [{}, { 'guides.drag': 5 }, NO_ANSWER, NONE],
  'no-guidance': [{}, { floats: 2 }, NO_ANSWER, NONE],
  'pushed-off': [{ 'plate.radius': 0.166, 'plate.edge': 1 }, {}, NO_ANSWER, NONE],
  'pan-floats': [PAN, { ...PAN, 'drive.current': 1 }, { ...PAN, 'plate.radius': none }, NO_RADIUS],
  'implants-visitor': [
    { 'surroundings.visitor_distance': 0.4 },
    {},
    { 'surroundings.visitor_distance': none },
    'no `visitor_distance` given',
  ],
  'implants-operator': [
    { 'surroundings.operator_distance': 0.4 },
    {},
    { 'surroundings.operator_distance': none },
    'no `operator_distance` given',
  ],
  'field-public': [
    { 'surroundings.visitor_distance': 0.3 },
    {},
    { 'surroundings.visitor_distance': none },
    'no `visitor_distance` given',
  ],
  'field-occupational': [
    { 'surroundings.visitor_distance': 0.22 },
    {},
    { 'surroundings.visitor_distance': none },
    'no `visitor_distance` given',
  ],
  'field-operator': [
    { 'surroundings.operator_distance': 0.22 },
    { 'surroundings.operator_distance': 0.4 },
    { 'surroundings.operator_distance': none },
    'no `operator_distance` given',
  ],
  'loose-metal': [
    {},
    { 'drive.current': 0.1 },
    { 'supply.frequency': 0.9 },
    'no reference level below 1 Hz and above 10 MHz',
  ],
  chatters: [{ 'drive.current': 8 }, { 'drive.current': 3 }, NO_ANSWER, NONE],
  rattles: [PAN, { ...PAN, 'drive.current': 1 }, { ...PAN, 'plate.radius': none }, NO_RADIUS],
  // 800 Hz, where the ear is keen, from a coil 0.74 m wide
  hum: [
    { 'supply.frequency': 400, 'coil.turns': 1200 },
    {},
    PAN,
    'the sound of a rig that does not float is not computed',
  ],
  saturation: [{ ...PAN, ...STEEL }, { ...PAN, ...STEEL, 'drive.current': 1 }, NO_ANSWER, NONE],
  'saturated-steel': [
    { ...PAN, ...FERRITIC },
    { ...PAN, ...FERRITIC, 'drive.current': 0.1 },
    NO_ANSWER,
    NONE,
  ],
  packing: [{ ...IN_SECTION, 'coil.turns': 480 }, { ...IN_SECTION, 'coil.turns': 430 }, NO_ANSWER, NONE],
  'strands-circulate': [
    { 'coil.strands': 2, 'coil.layers': 11, 'coil.wire': 1.4e-3, 'supply.frequency': 1000 },
    { 'coil.strands': 2, 'coil.layers': 11, 'coil.wire': 1.4e-3 },
    NO_ANSWER,
    NONE,
  ],
  'small-magnetic-plate': [
    { ...PAN, ...STEEL },
    { ...PAN, ...STEEL, 'plate.radius': 0.4 },
    { ...PAN, ...STEEL, 'plate.radius': none },
    NO_RADIUS,
  ],
};

describe('the cautions of a design', () => {
  it('have a case here for every rule', () => {
    expect(Object.keys(CASES).sort()).toEqual(CAUTION_RULES.map(({ id }) => id).sort());
  });

  it.each(Object.entries(CASES))(
    '%s is raised by a rig, not by another, and not judged of a third',
    (id, [raises, doesNot, cannot, missing]) => {
      expect(verdict(id, raises).verdict).toBe('raised');
      expect(verdict(id, doesNot).verdict).toBe('clear');
      expect(verdict(id, cannot)).toMatchObject({ verdict: 'not judged', missing });
    },
  );

  it('say what is missing of everything that they do not judge, and never compare with an empty value', () => {
    const rigs = [{}, PAN, { ...PAN, ...WATER }, WEAK, TUNED, NO_ANSWER, { 'drive.current': 60, floats: 2 }];
    const leftOut = Object.keys(TABLE).filter((path) =>
      /class|breakdown|radius$|line|fuse|distance/.test(path),
    );
    for (const rig of rigs) {
      for (const path of ['', ...leftOut]) {
        for (const judgement of judgements(path === '' ? rig : { ...rig, [path]: none })) {
          const where = `${judgement.rule.id} without ${path}`;
          if (judgement.verdict === 'not judged') expect(judgement.missing, where).not.toBe('');
          if (judgement.verdict !== 'raised') continue;
          expect(judgement.value, where).not.toBeNaN();
          expect(judgement.threshold, where).not.toBeNaN();
        }
      }
    }
  });

  it('lose none in silence when an input is left out: what was raised stays raised or is not judged', () => {
    for (const rig of [{}, PAN, { ...PAN, ...WATER }, { 'surroundings.visitor_distance': 0.22 }]) {
      const before = judgements(rig).filter((each) => each.verdict === 'raised');
      for (const path of [
        'plate.radius',
        'coil.thermal_class',
        'supply.line_voltage',
        'supply.fuse.rating',
      ]) {
        const after = judgements({ ...rig, [path]: none });
        for (const { rule } of before) {
          const now = after.find((each) => each.rule.id === rule.id)!;
          expect(now.verdict, `${rule.id} without ${path}`).not.toBe('clear');
        }
      }
    }
  });

  it('do not call a drive that goes up to the fuse more than the fuse carries', () => {
    const supply = { 'supply.fuse.side': FUSE_SIDES.line, 'supply.line_voltage': 230 };
    const atLimit = { ...supply, 'supply.fuse.rating': 5, 'supply.max_voltage': 230 };
    expect(verdict('fuse', atLimit, ['drive.current']).verdict).toBe('clear');
    expect(verdict('fuse', { ...supply, 'supply.fuse.rating': 4 }).verdict).toBe('raised');
    expect(verdict('fuse', { ...supply, 'supply.line_voltage': none })).toMatchObject({ missing: NO_LINE });
  });

  it('do not call a winding in full layers packed too closely, whatever the rounding of its section', () => {
    for (const layers of [4, 5, 7, 8, 11]) {
      const change = { 'coil.layers': layers, 'coil.turns': 40 * layers };
      expect(verdict('packing', change).verdict).toBe('clear');
    }
  });

  it('take a rig of another frequency for mains-fed when it has a line voltage', () => {
    expect(verdict('not-isolated', { 'supply.frequency': 400 }).verdict).toBe('raised');
    expect(verdict('not-isolated', { 'supply.frequency': 60, 'supply.line_voltage': none }).verdict).toBe(
      'raised',
    );
  });

  it('count line and series capacitor as voltages that somebody may touch', () => {
    expect(verdict('touch-voltage', { 'drive.current': 1 }).value).toBe(230);
    const tuned = verdict('touch-voltage', {
      'supply.series_capacitance': 30e-6,
      'drive.current': 5,
      floats: 2,
    });
    // I / (omega C) is more than the line has
    expect(tuned.value).toBeGreaterThanOrEqual(5 / (2 * Math.PI * 50 * 30e-6) - 1e-9);
  });

  it('raise the field above the coil also where beside it is too near to compute', () => {
    const near = { 'surroundings.visitor_distance': 0.15 };
    expect(verdict('field-occupational', near)).toMatchObject({ verdict: 'raised', atLeast: true });
    expect(verdict('field-occupational', { ...near, 'drive.current': 0.5 })).toMatchObject({
      verdict: 'not judged',
      missing: 'the visitor stands nearer than 1.2 coil radii',
    });
  });

  it('are stricter for implants at high frequency than for the public', () => {
    const weak = { 'supply.frequency': 25e3, 'surroundings.visitor_distance': 0.5, 'drive.current': 0.4 };
    expect(verdict('implants-visitor', weak).threshold).toBe(6.25e-6);
    expect(verdict('implants-visitor', weak).verdict).toBe('raised');
    expect(verdict('field-public', weak).verdict).toBe('clear');
  });

  it('call a plate of a fitted resistivity by its metal', () => {
    const fitted = { ...PAN, ...ALLOY, 'drive.current': 60, 'plate.layers.0.metal.resistivity': 2.9e-8 };
    expect(verdict('plate-melts', fitted).threshold).toBeCloseTo(646 + 273.15, 9);
  });
});
