import { describe, expect, it } from 'vitest';
import { readMeasured } from '../../src/measured/read-measured.ts';
import { inputByPath } from '../../src/model/inputs.ts';
import { Q } from '../../src/model/quantities.ts';

const read = (text: string | Uint8Array) =>
  readMeasured(typeof text === 'string' ? new TextEncoder().encode(text) : text, (name) => `; ${name}?`);

function points(text: string) {
  const result = read(text);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return result.points;
}

/** Of the one problem: its code, the text under the caret, and its line. */
function problem(text: string | Uint8Array): readonly [code: string, marked: string, line: number] {
  const result = read(text);
  if (!('problems' in result)) throw new Error('no problem');
  expect(result.problems).toHaveLength(1);
  const { code, offset, length } = result.problems[0]!;
  const whole = typeof text === 'string' ? text : new TextDecoder().decode(text);
  return [code, whole.slice(offset, offset + length), whole.slice(0, offset).split('\n').length];
}

describe('readMeasured', () => {
  it('reads values in the units of the header as SI, with uncertainties and empty cells', () => {
    const [first, second] = points(
      'current_A,height_mm,height_mm_u,coil_temperature_degC,coil_temperature_degC_u,note\n12,20,0.3,40,2,"as found, cold"\n13,25,,,,\n',
    );
    expect(first).toEqual({
      line: 2,
      drive: { kind: 'current', value: 12 },
      driveUncertainty: 0,
      settings: [],
      readings: [
        { quantity: Q.height, value: 0.02, uncertainty: 0.0003 },
        { quantity: Q.coil_temperature, value: 313.15, uncertainty: 2 },
      ],
    });
    expect(second!.readings).toEqual([{ quantity: Q.height, value: 0.025, uncertainty: Number.NaN }]);
  });

  it('takes the current for the drive before a voltage, and a voltage beside it for a reading', () => {
    const [both, outlet, terminals, none] = points(
      'current_A,supply_voltage_V,voltage_V,voltage_V_u,liftoff_current_A\n12,,96,0.5,\n,100,96,,\n,,96,0.5,8.9\n,,,,8.9\n',
    );
    expect(both!.drive).toEqual({ kind: 'current', value: 12 });
    expect(both!.readings[0]).toEqual({ quantity: Q.voltage, value: 96, uncertainty: 0.5 });
    expect(outlet!.drive).toEqual({ kind: 'outlet voltage', value: 100 });
    expect(terminals!.drive).toEqual({ kind: 'terminal voltage', value: 96 });
    expect(terminals!.driveUncertainty).toBe(0.5);
    expect(none!.drive).toEqual({ kind: 'own' });
  });

  it('sets an input for a row where a column gives it', () => {
    const [point] = points('drive_current_A,current_A,coil_at_temperature_degC,standoff_mm\n12,11.9,80,3\n');
    const slot = (path: string) => inputByPath(path)!.slot;
    expect(point!.settings).toEqual([
      [slot('coil.at_temperature'), 353.15],
      [slot('standoff'), 0.003],
    ]);
    // driven by the one, the other is measured
    expect(point!.readings).toEqual([{ quantity: Q.current, value: 11.9, uncertainty: Number.NaN }]);
  });

  it('takes a byte order mark, line ends of other systems, empty lines and remarks', () => {
    const rows = points('\ufeff# bench 2\r\ncurrent_A,height_mm\r\n\r\n12,19.9\r\n# evening\r\n13,25.1\r\n');
    expect(rows.map(({ line }) => line)).toEqual([4, 6]);
  });

  it.each([
    ['a word', 'current_A,height_mm\n12,19.9\n13,tall\n', ['not-a-number', 'tall', 3]],
    ['a decimal comma', 'current_A,height_mm\n12,19,9\n', ['columns', '12', 2]],
    ['a formula', 'current_A,height_mm\n12,=1+2\n', ['formula', '=1+2', 2]],
    ['an overflow', 'current_A,height_mm\n12,1e999\n', ['not-a-number', '1e999', 2]],
    ['an infinity', 'current_A,height_mm\n12,Infinity\n', ['not-a-number', 'Infinity', 2]],
    ['a missing value', 'current_A,height_mm\n12\n', ['columns', '12', 2]],
    ['nothing measured', 'current_A,height_mm\n12,\n', ['nothing-measured', '12', 2]],
    ['an uncertainty of zero', 'current_A,height_mm,height_mm_u\n12,9,0\n', ['uncertainty', '0', 2]],
    ['a current of zero', 'current_A,height_mm\n0,9\n', ['out-of-range', '0', 2]],
    ['a standoff below zero', 'current_A,height_mm,standoff_mm\n12,9,-1\n', ['out-of-range', '-1', 2]],
    ['an unknown column', 'current_A,heigth_mm\n12,9\n', ['unknown-column', 'heigth_mm', 1]],
    ['a column without unit', 'current_A,height\n12,9\n', ['unknown-column', 'height', 1]],
    ['a column twice', 'height_mm,height_mm\n12,9\n', ['same-column', 'height_mm', 1]],
    ['a column of words', 'plate_model,height_mm\n1,9\n', ['unknown-column', 'plate_model', 1]],
    ['an uncertainty of nothing', 'height_mm,gap_mm_u\n12,9\n', ['uncertain-nothing', 'gap_mm_u', 1]],
    ['inputs alone', 'standoff_mm\n12\n', ['no-readings', 'standoff_mm', 1]],
    ['semicolons', 'current_A;height_mm\n12;19,9\n', ['separator', 'current_A;height_mm', 1]],
    ['a quote that does not close', 'current_A,height_mm\n"12,9\n', ['not-csv', '"', 2]],
    ['no rows', 'current_A,height_mm\n', ['empty', 'c', 1]],
    ['nothing', '', ['empty', '', 1]],
    ['a NUL byte', 'current_A\n\0', ['binary', '\0', 2]],
  ])('names %s with its line', (_, text, expected) => {
    expect(problem(text)).toEqual(expected);
  });

  it('refuses bytes that are no text, and files of another kind by their size', () => {
    expect(problem(Uint8Array.of(0x61, 0xff, 0x0a))[0]).toBe('not-utf8');
    expect(problem(new Uint8Array(1_000_001).fill(0x31))[0]).toBe('too-large');
    expect(problem(`current_A,height_mm\n${'12,9\n'.repeat(2001)}`)[0]).toBe('too-large');
  });

  it('tells all bad rows together', () => {
    const result = read('current_A,height_mm\n12,x\n13,y\n14,9\n');
    expect('problems' in result && result.problems).toHaveLength(2);
  });
});
