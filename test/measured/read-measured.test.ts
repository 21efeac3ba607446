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
    [
      'a point among decimal commas',
      'current_A;height_mm\n12;19,9\n12;1.234\n',
      ['not-a-number', '1.234', 3],
    ],
    ['a quote that does not close', 'current_A,height_mm\n"12,9\n', ['not-csv', '"', 2]],
    ['no rows', 'current_A,height_mm\n', ['empty', 'c', 1]],
    ['nothing', '', ['empty', '', 1]],
    ['a NUL byte', 'current_A\n\0', ['binary', '\0', 2]],
  ])('names %s with its line', (_, text, expected) => {
    expect(problem(text)).toEqual(expected);
  });

  it('refuses bytes that are no text, and files of another kind by their size', () => {
    expect(problem(Uint8Array.of(0x61, 0xff, 0x01, 0x0a))[0]).toBe('not-utf8');
    expect(problem(new Uint8Array(1_000_001).fill(0x31))[0]).toBe('too-large');
    expect(problem(`current_A,height_mm\n${'12,9\n'.repeat(2001)}`)[0]).toBe('too-large');
  });

  it('tells all bad rows together', () => {
    const result = read('current_A,height_mm\n12,x\n13,y\n14,9\n');
    expect('problems' in result && result.problems).toHaveLength(2);
  });

  const AS_WRITTEN = 'current_A,height_mm,height_mm_u\n0.5,19.9,0.3\n12.25,25,\n';
  const western = (text: string) => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

  it.each([
    ['semicolons and decimal commas', 'current_A;height_mm;height_mm_u\n0,5;19,9;0,3\n12,25;25;\n'],
    ['tabs', 'current_A\theight_mm\theight_mm_u\n0.5\t19.9\t0.3\n12.25\t25\t\n'],
    ['a byte order mark', '\ufeffcurrent_A;height_mm;height_mm_u\r\n0,5;19,9;0,3\r\n12,25;25;\r\n'],
    ['other units of the same kind', 'current_mA,height_um,height_um_u\n500,19900,300\n12250,25000,\n'],
    ['units in brackets', 'current (A),Height [mm],height_mm_u\n0.5,19.9,0.3\n12.25,25,\n'],
    ['lines above the header', 'Bench 2;;\n;;\ncurrent_A;height_mm;height_mm_u\n0,5;19,9;0,3\n12,25;25;\n'],
    ['empty columns and rows', 'current_A;height_mm;height_mm_u;;\n0,5;19,9;0,3;;\n;;;;\n12,25;25;;;\n'],
    [
      'columns of other things',
      'Datum;current_A;height_mm;Bemerkung;height_mm_u\n3. Mai;0,5;19,9;kalt;0,3\n;12,25;25;;\n',
    ],
  ])('reads a table with %s as it is', (_, text) => {
    const quiet = (bytes: Uint8Array) => readMeasured(bytes, () => '');
    const got = quiet(new TextEncoder().encode(text));
    const wanted = quiet(new TextEncoder().encode(AS_WRITTEN));
    if ('problems' in got || 'problems' in wanted) throw new Error(JSON.stringify(got));
    // fifteen digits: another unit rounds otherwise
    const told = (points: typeof got.points) =>
      JSON.stringify(points, (key, value) =>
        key === 'line' ? undefined : typeof value === 'number' ? Number(value.toPrecision(15)) : value,
      );
    expect(told(got.points)).toBe(told(wanted.points));
  });

  it('reads what spreadsheets save in 8 bits and in UTF-16, and takes what --column says', () => {
    const text = 'Strom (A);Höhe (mm)\n12,5;19,9\n';
    const renamed = new Map([
      ['Strom (A)', 'current_A'],
      ['Höhe (mm)', 'height_mm'],
    ]);
    const wide = new Uint8Array([
      0xff,
      0xfe,
      ...Array.from(text).flatMap((letter) => [letter.charCodeAt(0), 0]),
    ]);
    for (const bytes of [new TextEncoder().encode(text), western(text), wide]) {
      const got = readMeasured(bytes, () => '', renamed);
      if ('problems' in got) throw new Error(JSON.stringify(got.problems));
      expect(got.points[0]!.drive).toEqual({ kind: 'current', value: 12.5 });
      // to rounding: 19.9 over 1000
      expect(got.points[0]!.readings[0]!.value).toBeCloseTo(0.0199, 15);
    }
  });

  it.each([
    ['Höhe (mm)', "--column 'Höhe (mm)=height_mm', or 'Höhe (mm)=note' to leave it out"],
    ['Schwebehöhe [cm]', "--column 'Schwebehöhe [cm]=height_cm', or"],
    ['Leistung W', "--column 'Leistung W=power_W', or"],
    ['cos phi', "--column 'cos phi=power_factor', or"],
    ['U (V)', "--column 'U (V)=voltage_V', or"],
    ['Temperatur (°C)', "--column 'Temperatur (°C)=coil_temperature_degC', or"],
  ])('says exactly how to name %s', (name, hint) => {
    const got = readMeasured(new TextEncoder().encode(`current_A;${name};height_mm\n12;1;2\n`), () => '');
    if (!('problems' in got)) throw new Error('no problem');
    expect(got.problems[0]!.wanted.startsWith(hint)).toBe(true);
  });

  it('tells which columns it leaves out, and that a renamed one is not there', () => {
    const bytes = new TextEncoder().encode('Datum,current_A,height_mm\nx,12,20\n');
    const got = readMeasured(bytes, () => '');
    expect('unused' in got && got.unused).toEqual(['Datum']);
    const missing = readMeasured(bytes, () => '', new Map([['Höhe', 'height_mm']]));
    expect('problems' in missing && missing.problems[0]!.found).toBe('no column `Höhe`');
  });
});
