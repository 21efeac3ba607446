import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type TableColumn, tableColumns } from '../../src/model/table-columns.ts';
import { createCsvText, csvField, csvNumber } from '../../src/store/csv-text.ts';
import { markFront } from '../../src/store/front-rows.ts';
import { batchOf, type Row, workshopStudy } from '../support/batches.ts';

describe('csvNumber', () => {
  it('reads back as exactly the number, and is the shortest text that does', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(Number(csvNumber(value))).toBe(value + 0);
        expect(csvNumber(value)).toBe(String(value));
      }),
    );
  });

  it('writes infinity as INF and an empty cell as nothing', () => {
    expect([Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NaN].map(csvNumber)).toEqual([
      'INF',
      '-INF',
      '',
    ]);
  });

  it('leaves a negative number a number', () => {
    expect(csvNumber(-1.5)).toBe('-1.5');
  });
});

describe('csvField', () => {
  const SIGNS = ['=', '+', '-', '@', '\t', '\r', '\n', '"', ',', ' ', "'", 'a', ';', '|'];
  const nasty = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.string({ unit: fc.constantFrom(...SIGNS), maxLength: 12 }),
  );

  it('reads back through a CSV parser as the text, save for apostrophes', () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const [[first, second]] = parse(`${csvField(text)},x\n`, { record_delimiter: '\n' }) as [
          [string, string],
        ];
        expect(second).toBe('x');
        expect(first.replaceAll("'", '')).toBe(text.replaceAll("'", ''));
        expect(first).not.toMatch(/^\s*[=+\-@]|^[\t\r\n]/);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  it('begins no formula in a spreadsheet that splits at something else, and knows no quote there', () => {
    fc.assert(
      fc.property(nasty, (text) => {
        const line = `1,${csvField(text)},2`;
        for (const piece of line.split(/[;\t|\r\n]/)) expect(piece).not.toMatch(/^[\s"]*[=+\-@]/);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });

  it.each([
    ['=HYPERLINK("x")', `"'=HYPERLINK(""x"")"`],
    ['+1', "'+1"],
    ['-1', "'-1"],
    ['@SUM(A1)', "'@SUM(A1)"],
    [' =1+1', "' =1+1"],
    ['\uFF1D1+1', "'\uFF1D1+1"],
    ['\tx', "'\tx"],
    ['a;=1+1', "a;'=1+1"],
    ['a\t =1+1', "a\t' =1+1"],
    ['a|@SUM(A1)', "a|'@SUM(A1)"],
    ['a;"=1+1', `"a;'""=1+1"`],
    ['a\n+1', `"a\n'+1"`],
    ['\rx', '"\'\rx"'],
  ])('makes %j harmless', (text, field) => {
    expect(csvField(text)).toBe(field);
  });

  it.each(['aluminium-1050', "5' board", 'a=b', 'x - y', 'a;b', "'=1"])('leaves %j as it is', (text) => {
    expect(csvField(text)).toBe(text);
  });
});

describe('createCsvText', () => {
  const study = workshopStudy();
  const rows: Row[] = Array.from({ length: 700 }, (_, i) => ({
    values: [i % 2, 320 + (i % 5), 0.0011],
    quantities: { height: i / 7, coil_mass: 2 },
  }));
  const table = markFront(batchOf(study, rows), [3]);
  const csv = createCsvText(tableColumns(study));

  it('gives the same lines in any pieces', () => {
    const lines = (from: number, to: number) => new TextDecoder().decode(csv.lines(table, from, to));
    const whole = lines(0, 700);
    expect(lines(0, 1) + lines(1, 300) + lines(300, 700)).toBe(whole);
    expect(whole.match(/\n/g)).toHaveLength(700);
    expect(lines(5, 5)).toBe('');
  });

  it('ends lines in LF and writes a row as the contract says', () => {
    const study = workshopStudy({ keep: ['height'] });
    const csv = createCsvText(tableColumns(study));
    expect(csv.header).toBe(
      'design,coil_metal,coil_turns,plate_thickness_mm,status,reason,feasible,height_mm,on_front\n',
    );
    expect(new TextDecoder().decode(csv.lines(table, 3, 5))).toBe(
      '3,copper,323,1.1,lifts,,true,428.57142857142856,true\n4,aluminium,324,1.1,lifts,,true,571.4285714285714,false\n',
    );
  });

  /** So many columns of numbers; `cell` counts row after row. */
  function numberColumns(width: number, cell: (index: number) => number): TableColumn[] {
    const [like] = tableColumns(study);
    return Array.from({ length: width }, (_, index) => ({
      ...like!,
      kind: 'number',
      fill: (_rows, from, to, into, at) => {
        for (let i = from; i < to; i++) into[at + i - from] = cell(i * width + index);
      },
    }));
  }

  it('writes each number as csvNumber does, whatever stands above and beside it', () => {
    const number = fc.oneof(
      fc.constantFrom(0, -0, 1, 0.1, 5e-324, 1.7976931348623157e308, -1.25e-300, 1e21),
      fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
      fc.double(),
      // the longest texts
      fc.double({ min: -9e-6, max: -1e-6 }),
    );
    // a few values, so that cells repeat, over more rows than are made at a time
    const grid = fc
      .array(number, { minLength: 1, maxLength: 9 })
      .chain((values) => fc.array(fc.constantFrom(...values), { minLength: 1, maxLength: 600 }));
    fc.assert(
      fc.property(grid, fc.integer({ min: 1, max: 4 }), (cells, width) => {
        const count = Math.floor(cells.length / width);
        fc.pre(count > 0);
        const columns = numberColumns(width, (i) => cells[i]!);
        const lines = Array.from(
          { length: count },
          (_, i) =>
            `${cells
              .slice(i * width, (i + 1) * width)
              .map(csvNumber)
              .join(',')}\n`,
        );
        const text = createCsvText(columns);
        expect(new TextDecoder().decode(text.lines(table, 0, count))).toBe(lines.join(''));
        // what stands there already says nothing of what comes next
        expect(new TextDecoder().decode(text.lines(table, count - 1, count))).toBe(lines.at(-1));
      }),
    );
  });

  it('writes numbers, flags and words beside each other, over more rows than are made at a time', () => {
    const shown = tableColumns(study).filter(({ name }) =>
      ['design', 'coil_metal', 'coil_turns', 'status', 'feasible', 'height_mm', 'on_front'].includes(name),
    );
    const expected = rows.map(({ values, quantities }, i) => {
      const [metal, turns] = values as [number, number];
      const height = 1000 * (quantities!.height as number);
      return `${i},${['aluminium', 'copper'][metal]},${turns},lifts,true,${height},${i === 3}\n`;
    });
    expect(new TextDecoder().decode(createCsvText(shown).lines(table, 0, 700))).toBe(expected.join(''));
  });

  it('has room for the longest numbers in every cell', () => {
    const cell = (i: number) => -1.2345678901234567e-6 - i * 1e-12;
    const columns = numberColumns(3, cell);
    const lines = Array.from({ length: 200 }, (_, i) =>
      [0, 1, 2].map((k) => String(cell(3 * i + k))).join(','),
    );
    expect(Math.max(...lines.map(({ length }) => length))).toBe(3 * 25 + 2);
    expect(new TextDecoder().decode(createCsvText(columns).lines(table, 0, 200))).toBe(
      `${lines.join('\n')}\n`,
    );
  });

  it('writes UTF-8, whatever the labels of a choice are made of', () => {
    const metal = { ...workshopStudy().vary[0]!, levels: [{ label: 'Größe 浮 🧲', settings: [] }] };
    const study = workshopStudy({ vary: [metal] as never });
    const text = createCsvText(tableColumns(study));
    const bytes = text.lines(markFront(batchOf(study, [{}]), []), 0, 1);
    expect(new TextDecoder('utf-8', { fatal: true }).decode(bytes)).toMatch(/^0,Größe 浮 🧲,lifts,/);
  });
});
