import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { type Design, evaluateRig, FOYER, SOCKET } from '../support/design.ts';

const CELSIUS = 273.15;

describe('cold metals', () => {
  it('a winding or a plate so cold that its resistivity would be negative is impossible, with the reason', () => {
    const coil = evaluateRig({ ...FOYER, 'coil.at_temperature': CELSIUS - 240 });
    expect([coil.status, coil.reason]).toEqual(['impossible', 'coilResistivity']);
    const plate = evaluateRig({ ...FOYER, 'plate.at_temperature': CELSIUS - 240 });
    expect([plate.status, plate.reason]).toEqual(['impossible', 'plateResistivity']);
    const room = evaluateRig({ ...FOYER, 'surroundings.temperature': CELSIUS - 240 });
    expect([room.status, room.reason]).toEqual(['impossible', 'coilResistivity']);
    // a negative coefficient, as of carbon, in the heat
    const own = { 'coil.metal.temperature_coefficient': -0.01, 'coil.at_temperature': CELSIUS + 130 };
    expect(evaluateRig({ ...FOYER, ...own }).reason).toBe('coilResistivity');
  });

  it('at -190 degC aluminium still has a sixth of its resistivity, and floats on', () => {
    const rig = evaluateRig({
      ...FOYER,
      'plate.at_temperature': CELSIUS - 100,
      'coil.at_temperature': CELSIUS - 190,
    });
    expect(rig.status).toBe('lifts');
    expect(rig.resistance).toBeGreaterThan(0);
  });

  it('a plate colder than its room may keep the coil below it: the class is then never reached', () => {
    const rig = evaluateRig({
      ...FOYER,
      ...SOCKET,
      'drive.current': 9,
      'plate.at_temperature': CELSIUS - 100,
      'plate.radius': Number.NaN,
      'coil.metal.resistivity': 1e-9,
    });
    expect(rig.status).toBe('lifts');
    expect(rig.coil_temperature).toBeLessThan(295.15);
    expect(rig.coil_on_time).toBe(Number.POSITIVE_INFINITY);
  });

  it('a plate held, or a room, below 100 K is not taken as one of 100 K', () => {
    const cold: Design = {
      ...FOYER,
      floats: 2,
      'coil.metal.temperature_coefficient': 0,
      'plate.layers.0.metal.temperature_coefficient': 0,
      'drive.current': 0.1,
    };
    const over = (plate: number) => evaluateRig({ ...cold, 'plate.at_temperature': plate }).coil_temperature;
    expect(over(100) - over(55)).toBeGreaterThan(2);
    const room = evaluateRig({
      ...cold,
      ...SOCKET,
      'surroundings.temperature': 55,
      'plate.at_temperature': 55,
    });
    expect(room.coil_temperature).toBeGreaterThan(55);
    expect(room.coil_temperature).toBeLessThan(60);
  });

  it('a thermal class below the room is impossible', () => {
    const rig = evaluateRig({ ...FOYER, 'coil.thermal_class': CELSIUS + 10 });
    expect([rig.status, rig.reason]).toEqual(['impossible', 'classBelowSurroundings']);
  });
});

describe('heights', () => {
  it('a rig that would float higher than what has been checked has no answer, with the reason', () => {
    const hoop = {
      ...FOYER,
      'coil.turns': 2,
      'coil.layers': 1,
      'coil.inner_radius': 1.5,
      'coil.extra_mass': 0,
    };
    for (const current of [100_000, 1_000_000]) {
      const rig = evaluateRig({ ...hoop, 'drive.current': current });
      expect([rig.status, rig.reason]).toEqual(['failed', 'tooHigh']);
      expect(rig.gap).toBeNaN();
    }
    const limited = evaluateRig({
      ...hoop,
      'drive.current': Number.NaN,
      'supply.max_current': 100_000,
      'supply.series_resistance': 0,
    });
    expect([limited.status, limited.reason]).toEqual(['failed', 'tooHigh']);
    expect(evaluateRig({ ...hoop, 'drive.current': 80 }).gap).toBeLessThan(1);
  });
});

describe('what a study states', () => {
  const STUDY = readFileSync(new URL('../fixtures/foyer-table.yaml', import.meta.url), 'utf8');
  const problemsOf = (from: string, to: string) => {
    expect(STUDY).toContain(from);
    const text = STUDY.replace(from, to);
    const result = readStudy(text);
    return 'problems' in result ? drawProblems('study.yaml', text, result.problems) : '';
  };

  it('is refused with a caret where no design can have it', () => {
    expect(problemsOf('at_temperature: 22 degC', 'at_temperature: -240 degC')).toMatchInlineSnapshot(`
      "study.yaml:17:21: found the coil at a temperature where its metal would have less than none of its resistivity at 20 degC; wanted a temperature at which the temperature coefficient still holds: a tenth of the resistivity or more
        17 |     at_temperature: -240 degC
           |                     ^^^^^^^^^"
    `);
    expect(problemsOf('thermal_class: 130', 'thermal_class: 5')).toMatchInlineSnapshot(`
      "study.yaml:13:20: found a thermal class below the temperature of the surroundings; wanted the class of the winding's insulation, such as 130 degC
        13 |     thermal_class: 5
           |                    ^"
    `);
  });
});
