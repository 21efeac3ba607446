import { describe, expect, it } from 'vitest';
import { didYouMean } from '../../src/expression/suggest.ts';
import { readMeasured } from '../../src/measured/read-measured.ts';
import { Q } from '../../src/model/quantities.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { nightly } from '../support/nightly.ts';

/**
 * Measured points as spreadsheets, loggers, hands and enemies write them. Whatever is read is what was measured; all
 * else is refused with its place. Never a crash, never another number. Past 300 lines: every kind of harm stands in one
 * table, beside what must come of it.
 */
const FILES = nightly ? 10_000 : 330;
/** ms */
const LONGEST_MS = 600_000;

/** Numbers in [0, 1), the same for the same seed (mulberry32, a public-domain generator; from memory). */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}
type Random = () => number;
const whole = (random: Random, below: number) => Math.floor(random() * below);
const pick = <T>(from: readonly T[], random: Random): T => from[whole(random, from.length)]!;

/** Columns, the quantity of each, and SI for one of its unit. */
const COLUMNS = [
  ['current_A', Q.current, 1],
  ['height_mm', Q.height, 1e-3],
  ['voltage_V', Q.voltage, 1],
  ['resistance_cold_ohm', Q.resistance_cold, 1],
] as const;

interface Table {
  readonly header: string[];
  readonly rows: string[][];
}

function tableFrom(random: Random): Table {
  const rows = Array.from({ length: 2 + whole(random, 6) }, () =>
    COLUMNS.map((_, c) =>
      c > 1 && random() < 0.2 ? '' : String(Math.round((1 + 40 * random()) * 1e3) / 1e3),
    ),
  );
  return { header: COLUMNS.map(([name]) => name), rows };
}

const csv = ({ header, rows }: Table, separator = ',', end = '\n') =>
  [header, ...rows].map((cells) => cells.join(separator) + end).join('');
const map = ({ header, rows }: Table, change: (cell: string) => string): Table => ({
  header,
  rows: rows.map((cells) => cells.map((cell) => (cell === '' ? '' : change(cell)))),
});
/** One cell of a current, which no row lacks, in place of another. */
function oneCell(table: Table, random: Random, cell: (old: string) => string): string {
  const at = whole(random, table.rows.length);
  return csv({
    ...table,
    rows: table.rows.map((cells, r) => (r === at ? [cell(cells[0]!), ...cells.slice(1)] : cells)),
  });
}
const withNotes = (table: Table, notes: readonly string[]): string =>
  csv({
    header: [...table.header, 'note'],
    rows: table.rows.map((cells, r) => [...cells, notes[r % notes.length]!]),
  });

type Hostile = readonly [
  what: string,
  /** `same`: must read as meant; `refused`: must not be read; `either`: if it is read, then as meant. */
  expected: 'same' | 'refused' | 'either',
  make: (table: Table, random: Random) => string | Uint8Array,
];

const ODD_CELLS = [
  '1,5',
  '1.234,5',
  '1 234',
  "1'234",
  '12 mm',
  '12mm',
  '=1+1',
  '@SUM(A1)',
  '+1+1',
  '-',
  '--1',
  '0x1F',
  '1e999',
  '-1e999',
  'NaN',
  'INF',
  'Infinity',
  '1_000',
  '\u221212',
  '\uff11\uff12',
  '\u0661\u0662',
  '1\u00a0234',
  '1e',
  '.',
  '1.2.3',
  'n/a',
  '?',
  '#REF!',
  'true',
  '12;13',
  '12\t13',
  '1/2',
  '5e-',
  '\u200b12',
  '',
  '0',
  '-3',
];

const HOSTILE: readonly Hostile[] = [
  ['plain', 'same', (table) => csv(table)],
  ['a byte order mark', 'same', (table) => `\ufeff${csv(table)}`],
  ['CR LF', 'same', (table) => csv(table, ',', '\r\n')],
  ['CR alone', 'either', (table) => csv(table, ',', '\r')],
  ['mixed line ends', 'either', (table) => csv(table).replace('\n', '\r\n')],
  ['mixed line ends, LF first', 'either', (table) => csv(table).replace(/\n(?=[^\n]*\n$)/, '\r\n')],
  ['no last line end', 'same', (table) => csv(table).trimEnd()],
  ['empty lines', 'same', (table) => csv(table, ',', '\n\n')],
  ['remarks', 'same', (table) => `# 1,2,3\n${csv(table)}# the end, 5\n`],
  ['everything quoted', 'same', (table) => csv(map(table, (cell) => `"${cell}"`))],
  ['blanks about', 'same', (table) => csv(table, ' , ')],
  ['exponents', 'same', (table) => csv(map(table, (cell) => `${cell}e0`))],
  ['plus signs', 'same', (table) => csv(map(table, (cell) => `+${cell}`))],
  [
    'notes',
    'same',
    (table) => withNotes(table, ['', 'it hummed', '"a, b"', '5', '=1+1', 'a ""b"" c'.slice(0, 1)]),
  ],
  ['semicolons', 'same', (table) => csv(table, ';')],
  ['tabs', 'same', (table) => csv(table, '\t')],
  [
    'semicolons and decimal commas',
    'same',
    (table) =>
      csv(
        map(table, (c) => c.replace('.', ',')),
        ';',
      ),
  ],
  ['decimal commas', 'either', (table) => csv(map(table, (cell) => cell.replace('.', ',')))],
  [
    'quoted decimal commas',
    'refused',
    (table) => csv(map(table, (cell) => `"${cell.includes('.') ? cell.replace('.', ',') : `${cell},0`}"`)),
  ],
  [
    'an odd cell',
    'refused',
    (table, random) => oneCell(table, random, () => `"${pick(ODD_CELLS.slice(0, -3), random)}"`),
  ],
  [
    'a current of nothing or less',
    'refused',
    (table, random) => oneCell(table, random, () => pick(['0', '-3', '-0'], random)),
  ],
  [
    'an odd cell in front',
    'refused',
    (table, random) => oneCell(table, random, (old) => `${pick(['=', '\u2212', '$'], random)}${old}`),
  ],
  [
    'a cell too few',
    'refused',
    (table, random) => oneCell(table, random, () => '').replace(/\n,([^,]*),/, '\n$1,'),
  ],
  ['a cell too many', 'refused', (table, random) => oneCell(table, random, (old) => `${old},1`)],
  [
    'a quote that swallows lines',
    'refused',
    (table) => {
      const last = table.rows.length - 1;
      return withNotes(
        table,
        table.rows.map((_, r) => (r === 0 ? '"ok' : r === last ? 'end"' : 'x')),
      );
    },
  ],
  ['a quote that never ends', 'refused', (table) => withNotes(table, ['"ok', 'x'])],
  [
    'a quote in the middle of a number',
    'refused',
    (table, random) => oneCell(table, random, (old) => `${old[0]}"${old}`),
  ],
  [
    'a column twice',
    'refused',
    (table) => csv({ ...table, header: ['current_A', 'current_A', 'voltage_V', 'resistance_cold_ohm'] }),
  ],
  [
    'a column that is nearly one',
    'refused',
    (table, random) =>
      csv({
        ...table,
        header: [
          pick(['height', 'Height_mm', 'current', 'curent_A', 'Strom (A)', 'voltage_kV'], random),
          ...table.header.slice(1),
        ],
      }),
  ],
  ['the header in the middle', 'refused', (table) => `${csv(table)}${csv(table)}`],
  ['no rows', 'refused', (table) => csv({ ...table, rows: [] })],
  ['nothing', 'refused', () => ''],
  ['remarks alone', 'refused', () => '# nothing\n#\n'],
  ['UTF-16', 'same', (table) => Buffer.from(`\ufeff${csv(table)}`, 'utf16le')],
  ['a NUL', 'refused', (table) => csv(table).replace('\n', '\0\n')],
  [
    'bytes that are no UTF-8',
    'refused',
    (table) => Buffer.concat([Buffer.from(csv(table)), Buffer.from([0xff, 0xfe])]),
  ],
  ['too many columns', 'refused', () => `${Array.from({ length: 5000 }, (_, i) => `c${i}`).join(',')}\n1\n`],
  ['too many rows', 'refused', (table) => csv(table) + '1,2,3,4\n'.repeat(3000)],
  ['megabytes', 'refused', (table) => csv(table) + ' '.repeat(1_100_000)],
  ['a cell without end', 'refused', (table, random) => oneCell(table, random, () => '9'.repeat(100_000))],
  ['a binary file', 'refused', (_, random) => Uint8Array.from({ length: 300 }, () => whole(random, 256))],
  ['escapes for a terminal', 'refused', (table, random) => oneCell(table, random, () => '\u001b[2J\u202e12')],
  [
    'cut off',
    'either',
    (table, random) => {
      const text = csv(table);
      // at the end of a line: within a number nobody could tell
      const ends = [...text.matchAll(/\n/g)].map(({ index }) => index + 1);
      return text.slice(0, pick(ends, random));
    },
  ],
];

/** What was meant, by row: quantity and SI value. */
function meant({ rows }: Table): (readonly (readonly [number, number])[])[] {
  return rows.map((cells) =>
    COLUMNS.flatMap(([, quantity, si], c) =>
      c === 0 || cells[c] === '' ? [] : [[quantity, Number(cells[c]) * si] as const],
    ),
  );
}

describe('a file of measured points', () => {
  it(
    `is read as it was meant or refused with a place, ${FILES} times`,
    () => {
      const read = new Map<string, number>();
      for (let seed = 0; seed < FILES; seed++) {
        const random = randomFrom(seed);
        const [what, expected, make] = HOSTILE[seed % HOSTILE.length]!;
        const table = tableFrom(random);
        const made = make(table, random);
        const source = typeof made === 'string' ? new TextEncoder().encode(made) : made;
        const result = readMeasured(source, didYouMean);
        const about = `${what} (seed ${seed})`;
        if ('problems' in result) {
          expect(expected, about).not.toBe('same');
          expect(result.problems.length, about).toBeGreaterThan(0);
          const text = drawProblems('measured.csv', source, result.problems);
          expect(text, about).toMatch(/^measured\.csv:\d+:\d+: found /);
          // nothing of the file steers a terminal
          expect(/[^\P{Cc}\n]|\p{Bidi_Control}/u.test(text), about).toBe(false);
          expect(text.length, about).toBeLessThan(40_000);
          continue;
        }
        read.set(what, (read.get(what) ?? 0) + 1);
        expect(expected, about).not.toBe('refused');
        const rows = meant(table);
        expect(result.points.length, about).toBeLessThanOrEqual(rows.length);
        // a file that was cut off lacks its last points, and no other lacks any
        if (what !== 'cut off') expect(result.points.length, about).toBe(rows.length);
        result.points.forEach(({ drive, readings }, r) => {
          expect(drive, about).toEqual({ kind: 'current', value: Number(table.rows[r]![0]) });
          expect(
            readings.map(({ quantity, value }) => [quantity, value]),
            about,
          ).toEqual(rows[r]!.map(([quantity, si]) => [quantity, expect.closeTo(si, 12)]));
        });
      }
      expect([...read.keys()]).toEqual(expect.arrayContaining(['plain', 'remarks', 'notes']));
    },
    LONGEST_MS,
  );

  it(
    `is read or refused without a crash when its bytes are anything, ${FILES} times`,
    () => {
      const characters = [
        ',',
        '"',
        '\n',
        '\r',
        '#',
        ';',
        '\t',
        ' ',
        '=',
        '-',
        '.',
        'e',
        '1',
        '9',
        '\u00e9',
        '\ufeff',
      ];
      for (let seed = 0; seed < FILES; seed++) {
        const random = randomFrom(1e6 + seed);
        const text = [...csv(tableFrom(random))];
        for (let k = 0; k < 1 + whole(random, 8); k++) {
          const remove = whole(random, 3);
          text.splice(
            whole(random, text.length),
            remove,
            ...(random() < 0.8 ? [pick(characters, random)] : []),
          );
        }
        const source = new TextEncoder().encode(text.join(''));
        const result = readMeasured(source, didYouMean);
        if ('problems' in result) {
          expect(drawProblems('m.csv', source, result.problems)).toMatch(/^m\.csv:\d+:\d+: found /);
          continue;
        }
        for (const { readings, drive } of result.points) {
          expect(readings.length).toBeGreaterThan(0);
          for (const { value } of readings) expect(value).toBeTypeOf('number');
          for (const { value } of readings) expect(Number.isFinite(value)).toBe(true);
          if (drive.kind !== 'own') expect(drive.value).toBeGreaterThan(0);
        }
      }
    },
    LONGEST_MS,
  );
});
