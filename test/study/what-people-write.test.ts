import { describe, expect, it } from 'vitest';
import { LAYER_THICKNESS, SLOT } from '../../src/model/inputs.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { readStudy } from '../../src/study/read-study.ts';

const TEXT = `study: One coil
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, thermal_class: 130 degC, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
  surroundings: {temperature: 22 degC}
drive: {current: 12 A}
`;

function said(from: string, to: string): string {
  expect(TEXT).toContain(from);
  const text = TEXT.replace(from, to);
  const reading = readStudy(text);
  return 'problems' in reading
    ? reading.problems.map(({ found, wanted }) => `${found}; ${wanted}`).join('\n')
    : drawProblems('coil.yaml', text, reading.warnings, 'warning:');
}

function slots(from: string, to: string): Float64Array {
  const reading = readStudy(TEXT.replace(from, to));
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  return reading.study.rig.slots;
}

describe('what people write', () => {
  it.each([
    [
      'thickness: 12 mm',
      'thickness: 12 mm, width: 0.3 m',
      '`sides: [400 mm, 300 mm]` for its length and width',
    ],
    ['thickness: 12 mm', 'thickness: 12 mm, length: 0.3 m', '`square: 400 mm`'],
    ['turns: 440', 'turns: 440, duty: 0.3', '`limits: [coil_on_time >= 10 min]`'],
    ['turns: 440', 'turns: 440, available_mass: 3', '`limits: [coil_mass <= 3 kg]`'],
    ['thermal_class: 130 degC', 'thermal_class: Q', 'or its letter: Y, A, E, B, F, H, N, R'],
    ['standoff: 2 mm', 'standoff 2 mm', 'a line without a key; a key, a colon, a blank'],
    ['standoff: 2 mm', 'standoff:2 mm', 'such as turns: 440'],
    ['standoff: 2 mm', 'standoff: 2 MM', 'did you mean `mm`?'],
    ['current: 12 A', 'current: 12 Amp', 'did you mean `A`?'],
    ['drive:', 'limits: [height => 8 mm]\ndrive:', '`=>`; >='],
  ])('%s as %s has an answer', (from, to, hint) => {
    expect(said(from, to)).toContain(hint);
  });

  it.each([
    ['A', 105],
    ['E', 120],
    ['B', 130],
    ['F', 155],
    ['class H', 180],
  ])('thermal class %s is %d degC (IEC 60085)', (letter, degC) => {
    expect(slots('thermal_class: 130 degC', `thermal_class: ${letter}`)[SLOT.thermalClass]).toBe(
      degC + 273.15,
    );
  });

  it.each([
    ['temperature: 22 degC', 'temperature: 22 °C', SLOT.surroundings, 295.15],
    ['frequency: 50 Hz', 'frequency: 50 Hz, series_resistance: 0.5 Ω', SLOT.seriesResistance, 0.5],
    ['frequency: 50 Hz', 'frequency: 50 Hz, series_capacitance: 300 µF', SLOT.seriesCapacitance, 300e-6],
    ['thickness: 12 mm', 'thickness: 12000 μm', SLOT.plateLayers + LAYER_THICKNESS, 0.012],
  ])('%s may be written as the tool prints it: %s', (from, to, slot, value) => {
    expect(slots(from, to)[slot]).toBe(value);
  });
});

describe('a plain number', () => {
  it.each([
    [
      'standoff: 2 mm',
      'standoff: 1',
      '`standoff` is 1,000 mm: a plain number is in SI units; wanted a unit where that is not meant, such as 1 mm',
    ],
    ['inner_radius: 50 mm', 'inner_radius: 5', '`coil.inner_radius` is 5,000 mm'],
    ['standoff: 2 mm', 'standoff: {thickness: 2 mm, breakdown: 20}', '`standoff.breakdown` is 0.00002 kV/mm'],
    [
      'drive: {current: 12 A}',
      'drive: {current: 12 A}\nvary: {plate.thickness: [0.012, 1]}',
      '`plate.thickness` is 1,000 mm',
    ],
  ])('of an odd size is warned of: %s as %s', (from, to, warning) => {
    expect(said(from, to)).toContain(warning);
    expect(said(from, to).match(/warning:/g)).toHaveLength(1);
  });

  it.each([
    ['standoff: 2 mm', 'standoff: 0.002'],
    ['standoff: 2 mm', 'standoff: 1 m'],
    ['turns: 440', 'turns: 12'],
    ['temperature: 22 degC', 'temperature: 30'],
    ['drive: {current: 12 A}', 'drive: {current: 12 A}\nvary: {coil.turns: {from: 100, to: 400, count: 4}}'],
  ])('of a usual size is not, nor one with its unit: %s as %s', (from, to) => {
    expect(said(from, to)).toBe('');
  });

  it('beyond the range is told with its size, the input and the range', () => {
    expect(said('inner_radius: 50 mm', 'inner_radius: 50')).toBe(
      '`50`, which is 50,000 mm; a value above 0 mm and at most 10,000 mm for coil.inner_radius',
    );
  });
});
