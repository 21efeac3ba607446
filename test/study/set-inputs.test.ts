import { describe, expect, it } from 'vitest';
import { LAYER_THICKNESS, SLOT } from '../../src/model/inputs.ts';
import type { Study } from '../../src/model/study.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import { createDesignReader } from '../../src/rig/design.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { setInputs } from '../../src/study/set-inputs.ts';

const TEXT = `study: One coil
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm, radius: 300 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz, max_current: 16 A, fuse: 16 A}
drive: {current: 12 A}
`;

function read(text: string) {
  const reading = readStudy(text);
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  return reading.study;
}

function changed(text: string, values: readonly number[], settings: readonly string[]) {
  const set = setInputs(read(text), values, settings);
  if ('problems' in set) throw new Error(JSON.stringify(set.problems));
  return { ...set, study: read(set.text) };
}

/** As a rig is computed, with what follows from other inputs. */
function slotsOf(study: Study): Float64Array {
  const reader = createDesignReader(study);
  reader.read(new Float64Array(0), 0);
  return Float64Array.from(reader.slots);
}

describe('an input that is set', () => {
  it.each([
    ['a number', 'coil.turns=300', SLOT.turns, 300],
    ['a length', 'plate.thickness=8 mm', SLOT.plateLayers + LAYER_THICKNESS, 0.008],
    ['the standoff', 'standoff=3 mm', SLOT.standoff, 0.003],
    ['a part beside a plain standoff', 'standoff.breakdown=20 kV/mm', SLOT.standoffBreakdown, 2e7],
    ['a part beside a plain fuse', 'supply.fuse.side=line', SLOT.fuseSide, 1],
    ['a voltage in place of the current', 'drive.voltage=100 V', SLOT.driveVoltage, 100],
    ['a square in place of the radius', 'plate.square=0.5 m', SLOT.plateSquare, 0.5],
    ['a grade', 'coil.insulation=grade 1', SLOT.insulationGrade, 1],
    ['a thickness in place of the grade', 'coil.insulation=6e-5', SLOT.insulationThickness, 6e-5],
    ['a metal', 'coil.metal=copper', SLOT.coilMetal + 2, 8890],
    [
      'a metal by its own numbers',
      'coil.metal={resistivity: 3e-8 ohm m, temperature_coefficient: 0.004 1/K, density: 2700, specific_heat: 900}',
      SLOT.coilMetal,
      3e-8,
    ],
    ['what the rig leaves out', 'surroundings.visitor_distance=1 m', SLOT.visitorDistance, 1],
  ])('is %s', (_, setting, slot, value) => {
    const { study } = changed(TEXT, [], [setting]);
    expect(study.rig.slots[slot]).toBe(value);
  });

  it('leaves every other input as it was', () => {
    const { study } = changed(TEXT, [], ['standoff.breakdown=20 kV/mm']);
    const expected = Float64Array.from(read(TEXT).rig.slots);
    expected[SLOT.standoffBreakdown] = 2e7;
    expect(study.rig.slots).toEqual(expected);
  });

  it('comes after the values of the design, whatever varies', () => {
    const text = `${TEXT.replace('turns: 440, ', '').replace('drive: {current: 12 A}\n', '')}vary:
  coil.turns: [300, 400]
  coil.metal: [aluminium, copper]
  plate.thickness: [10 mm, thick]
  drive.current: {from: 0.1 A, to: 0.3 A, step: 0.1 A}
  surroundings.temperature: [20.1 degC, 300.7 K]
`;
    const study = read(text);
    const plan = createPlan(study);
    const work = plan.next();
    if (!work || 'from' in work) throw new Error('no designs');
    const width = study.vary.length;
    const reader = createDesignReader(study);
    for (let design = 0; design < work.count; design += 5) {
      const values = work.values.slice(design * width, (design + 1) * width);
      reader.read(values, 0);
      const slots = Float64Array.from(reader.slots);
      expect(slotsOf(changed(text, [...values], []).study)).toEqual(slots);
      slots[SLOT.wire] = 0.001;
      expect(slotsOf(changed(text, [...values], ['coil.wire=1 mm']).study)).toEqual(slots);
    }
  });

  it('takes the place of a fitted one', () => {
    const text = `${TEXT}calibrated: {standoff: 2.4 mm}\n`;
    expect(changed(text, [], ['standoff=3 mm']).study.rig.slots[SLOT.standoff]).toBe(0.003);
    expect(changed(text, [], ['coil.turns=300']).study.rig.slots[SLOT.standoff]).toBe(0.0024);
  });
});
