import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { tableColumns } from '../../src/model/table-columns.ts';
import { collectFront, markFront } from '../../src/store/front-rows.ts';
import { frontWorkbook, MOST_ROWS } from '../../src/store/front-xlsx.ts';
import { batchOf, type Row, workshopStudy } from '../support/batches.ts';
import { readWorkbook } from '../support/workbook.ts';
import { expectedCells } from './tables-back.ts';
import { temporaryFolder } from './temporary-folder.ts';
import { writeRows } from './write-rows.ts';

const study = workshopStudy();
const columns = tableColumns(study);

const ROWS: Row[] = [
  {
    values: [1, 320, 0.0011],
    quantities: { height: 0.0341416, coil_mass: 3.056, fuse_holds: Number.POSITIVE_INFINITY },
    objectives: [3, 1],
  },
  { values: [0, 440, 0.000123], quantities: { height: 0.5e-3, coil_mass: 1 / 3 }, objectives: [2, 1] },
];

function rowsOf(own: typeof study, rows: readonly Row[]) {
  const ids = rows.map((_, i) => i);
  const collected = collectFront(own, ids.length);
  collected.add(markFront(batchOf(own, rows), ids));
  return collected.sorted();
}

async function sheetsOf(own = study, rows: readonly Row[] = ROWS) {
  return readWorkbook(await frontWorkbook(own, tableColumns(own), rowsOf(own, rows), 'front.csv'));
}

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllEnvs();
});

describe('front.xlsx', () => {
  it('holds the cells of front.csv, numbers as numbers and infinity as the word INF', async () => {
    const [header, ...rows] = (await sheetsOf()).get('Front')!;
    const expected = expectedCells(columns, rowsOf(study, ROWS)).map((cells) =>
      cells.map((cell) => (cell === Number.POSITIVE_INFINITY ? 'INF' : cell)),
    );
    const found = rows.map((cells) => columns.map((_, i) => cells[i]?.value ?? null));
    expect(found).toEqual(expected);
    expect(found.flat()).toContain('INF');
    for (const cells of rows) {
      cells.forEach((cell, i) => {
        if (typeof cell?.value === 'number') expect(cell.type, columns[i]!.name).toBeUndefined();
      });
    }
    expect(header).toHaveLength(columns.length);
  });

  it('has the unit of a column in its heading and its meaning on a sheet of its own', async () => {
    const sheets = await sheetsOf();
    const headings = sheets.get('Front')![0]!.map((cell) => cell!.value);
    expect(headings).toContain('height (mm)');
    expect(headings).toContain('coil mass (kg)');
    expect(headings.slice(0, 3)).toEqual(['design', 'coil metal', 'coil turns']);
    const described = sheets.get('Columns')!.map((cells) => cells.map((cell) => cell?.value ?? null));
    expect(described[0]).toEqual(['column', 'column in front.csv', 'unit', 'meaning']);
    expect(described.slice(1).map(([heading]) => heading)).toEqual(headings);
    expect(described.slice(1).map(([, name]) => name)).toEqual(columns.map(({ name }) => name));
    expect(described).toContainEqual(['height (mm)', 'height_mm', 'mm', 'gap minus standoff; 0 at rest']);
  });

  it('shows a column with the decimals that its numbers need', async () => {
    const [, first] = (await sheetsOf()).get('Front')!;
    const formatOf = (name: string) => first![columns.findIndex((column) => column.name === name)]!.format;
    expect(formatOf('height_mm')).toBe('0.00');
    expect(formatOf('coil_mass_kg')).toBe('0.000');
    expect(formatOf('coil_turns')).toBe('0');
    expect(formatOf('coil_metal')).toBe('@');
  });

  it('says what the study sought and what an empty cell means', async () => {
    const lines = (await sheetsOf()).get('Study')!.map((cells) => cells.map((cell) => cell!.value));
    expect(lines[0]).toEqual(['study', study.title]);
    expect(lines[1]).toEqual(['SHA-256', study.hash]);
    expect(lines).toContainEqual(['rows', 'all 2 of the front']);
    for (const { sense, text } of study.objectives) {
      expect(lines).toContainEqual(['objective', `${sense} ${text}`]);
    }
  });

  it.each([
    '=cmd|"/c calc"!A1',
    '+1',
    '-1',
    '@SUM(A1)',
    '\t=1',
    '=HYPERLINK("http://example.test","x")',
    '<f>1</f>&"\'',
    'constructor',
    '__proto__',
    '\u0000\u0008\ud800 control',
    '_x003D_1',
  ])('keeps %j a text wherever it stands', async (text) => {
    const metal = { ...study.vary[0]!, levels: [{ label: text, settings: [] }] } as (typeof study.vary)[0];
    const own = workshopStudy({ vary: [metal], title: text });
    const sheets = await sheetsOf(own, [{}]);
    const cells = [sheets.get('Front')![1]![1]!, sheets.get('Study')![0]![1]!];
    // the format has no room for control characters, and none for half a surrogate pair
    const clean = text.replace(/[\p{Cc}\p{Cs}]/gu, (character) => (character === '\t' ? character : ''));
    for (const { value, type, format } of cells) {
      expect(String(value).trimEnd()).toBe(clean);
      expect({ type, format }).toEqual({ type: 's', format: '@' });
    }
  });

  it('cuts a text that is too long for a cell', async () => {
    const sheets = await sheetsOf(workshopStudy({ title: 'x'.repeat(40_000) }));
    expect(sheets.get('Study')![0]![1]!.value).toHaveLength(32_767);
  });

  it('has the same bytes at any time of day and in any time zone', async () => {
    const front = rowsOf(study, ROWS);
    const bytes: Uint8Array[] = [];
    for (const [zone, time] of [
      ['Asia/Tokyo', '2026-01-01T08:00:00Z'],
      ['America/Lima', '2031-07-09T23:59:58Z'],
    ] as const) {
      vi.stubEnv('TZ', zone);
      vi.useFakeTimers({ now: new Date(time), toFake: ['Date'] });
      bytes.push(await frontWorkbook(study, columns, front, 'front.csv'));
    }
    expect(bytes[0]).toEqual(bytes[1]);
  });

  it('says how many rows it leaves out where the front is long', async () => {
    const rows = Array.from({ length: MOST_ROWS + 1 }, (_, i): Row => ({ objectives: [-i, i] }));
    const sheets = await sheetsOf(study, rows);
    expect(sheets.get('Front')).toHaveLength(1 + MOST_ROWS);
    const [, said] = sheets.get('Study')!.find(([key]) => key!.value === 'rows')!;
    expect(said!.value).toBe(`the first ${MOST_ROWS} of ${MOST_ROWS + 1}; front.csv holds all`);
  });

  it('is written beside front.csv', async () => {
    const folder = temporaryFolder();
    await writeRows(folder, { study, batches: [batchOf(study, ROWS)], front: [0, 1], csv: false });
    const [, ...rows] = readWorkbook(readFileSync(join(folder, 'front.xlsx'))).get('Front')!;
    expect(rows.map(([design]) => design!.value)).toEqual([0, 1]);
  });
});
