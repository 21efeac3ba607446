import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance, version as duckdbVersion } from '@duckdb/node-api';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cli, scratchFolder } from '../support/cli.ts';
import { nightly, whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

/**
 * Other people's readers read one finished result, as docs/reading-tables.md shows it: its examples are what runs here.
 * pandas reads where system tests run whole; R and LibreOffice take longer to install and read every night.
 */

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const RESULT = 'results/foyer';
const PAGE = readFileSync(join(PROJECT, 'docs/reading-tables.md'), 'utf8');

/** What the examples compute: designs that last half an hour, those that last for good, the highest and its height. */
let expected: readonly number[] = [];

beforeAll(async () => {
  mkdirSync(join(folder, 'results'));
  symlinkSync(join(PROJECT, 'node_modules'), join(folder, 'node_modules'));
  const study = readFileSync(join(PROJECT, 'studies/metal-and-turns.yaml'), 'utf8');
  writeFileSync(join(folder, 'study.yaml'), study.replace('to: 600, step: 10}', 'to: 600, step: 60}'));
  const { code, err } = await cli(['run', 'study.yaml', '--out', RESULT, '--quiet'], folder);
  expect(`${code} ${err}`).toBe('0 ');
  const designs = records('designs.csv');
  const time = (row: Record<string, string>) => Number(row.coil_on_time_s!.replace('INF', 'Infinity'));
  const lasting = designs.filter((row) => time(row) >= 1800);
  const [highest] = lasting.sort((a, b) => Number(b.height_mm) - Number(a.height_mm));
  const forGood = lasting.filter((row) => row.coil_on_time_s === 'INF');
  expected = [lasting.length, forGood.length, Number(highest!.design), Number(highest!.height_mm)];
  // the question is one that shows how a reader takes INF
  expect(Math.min(...expected.slice(0, 2), lasting.length - forGood.length)).toBeGreaterThan(0);
});

function records(name: string): Record<string, string>[] {
  return parse(readFileSync(join(folder, RESULT, name)), { columns: true });
}

/** The page's examples in a language, in their order. */
function examples(language: string): string[] {
  return Array.from(
    PAGE.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\``, 'gm')),
    ([, code]) => code!,
  );
}

function output(program: string, args: readonly string[], input?: string): string {
  const { stdout, stderr, status, error } = spawnSync(program, args, {
    cwd: folder,
    encoding: 'utf8',
    input,
  });
  if (error) throw error;
  expect(status, stderr).toBe(0);
  return stdout;
}

function expectAnswer(printed: string): void {
  const numbers = printed.trim().split(/\s+/).map(Number);
  expect(numbers.slice(0, 3)).toEqual(expected.slice(0, 3));
  // R prints seven digits
  expect(numbers[3]! / expected[3]!).toBeCloseTo(1, 6);
}

/** The first interpreter in which a package is; null without one. Debian's packages are in /usr/bin/python3 alone. */
function pythonWith(name: string): { program: string; version: string } | null {
  for (const program of [process.env.EDDYLIFT_PYTHON ?? 'python3', '/usr/bin/python3']) {
    const { stdout, status } = spawnSync(program, ['-c', `import ${name}; print(${name}.__version__)`], {
      encoding: 'utf8',
    });
    if (status === 0) return { program, version: stdout.trim() };
  }
  return null;
}

function versionOf(name: string): string {
  return JSON.parse(readFileSync(join(PROJECT, 'node_modules', name, 'package.json'), 'utf8')).version;
}

describe(`DuckDB ${duckdbVersion()}`, () => {
  async function rows(sql: string): Promise<unknown[][]> {
    const connection = await (await DuckDBInstance.create()).connect();
    const reader = await connection.runAndReadAll(sql.replaceAll("'results/", `'${folder}/results/`));
    return reader.getRows();
  }

  it.each(examples('sql').map((sql) => [/(?:FROM|from) (.*)/.exec(sql)![1]!, sql]))(
    'runs %s',
    async (_, sql) => {
      const [row] = await rows(sql);
      if (sql.includes('parquet_kv_metadata')) {
        expect(row).toEqual(['Which metal and how many turns for the foyer table?']);
      } else expectAnswer(row!.map(String).join(' '));
    },
  );

  it('takes every number of the Parquet file for a number, and as many rows as there are designs', async () => {
    const types = await rows(`SELECT column_type FROM (DESCRIBE FROM '${RESULT}/designs.parquet')`);
    const kinds = types.flat().map(String);
    expect(kinds).toHaveLength(Object.keys(records('designs.csv')[0]!).length);
    expect(new Set(kinds)).toEqual(new Set(['DOUBLE', 'INTEGER', 'BOOLEAN', 'VARCHAR']));
    const metadata = JSON.parse(readFileSync(join(folder, RESULT, 'designs.csv-metadata.json'), 'utf8'));
    const doubles = metadata.tableSchema.columns.filter(
      (column: { datatype: unknown }) => column.datatype === 'double',
    );
    expect(kinds.filter((kind) => kind === 'DOUBLE')).toHaveLength(doubles.length);
    const [[count]] = (await rows(`SELECT count(*) FROM '${RESULT}/designs.parquet'`)) as [[bigint]];
    expect(Number(count)).toBe(records('designs.csv').length);
  });
});

describe(`arquero ${versionOf('arquero')}`, () => {
  it('runs its example', () => {
    const [code] = examples('js');
    writeFileSync(join(folder, 'example.mjs'), code!);
    expectAnswer(output(process.execPath, ['example.mjs']));
  });
});

const pandas = whole ? pythonWith('pandas') : null;
const openpyxl = whole ? pythonWith('openpyxl') : null;

describe.runIf(whole)(`pandas ${pandas?.version}, openpyxl ${openpyxl?.version}`, () => {
  it('runs its examples', () => {
    const [tables, metadata] = examples('python');
    expectAnswer(output(pandas!.program, ['-'], tables));
    const columns = Object.keys(records('designs.csv')[0]!).length;
    expect(output(pandas!.program, ['-'], metadata)).toBe(`${columns} mm \n`);
  });

  it('reads front.xlsx as front.csv: the same numbers, and no column of numbers as text', () => {
    const program = `
import json, pandas as pd
sheet = pd.read_excel("${RESULT}/front.xlsx")
table = pd.read_csv("${RESULT}/front.csv", float_precision="round_trip")
table.columns = sheet.columns
pd.testing.assert_frame_equal(sheet, table, check_exact=True, check_dtype=False)
print(json.dumps([list(sheet.columns[:5]), sorted(set(map(str, sheet.dtypes)))]))
`;
    const [headings, types] = JSON.parse(output(pandas!.program, ['-'], program));
    expect(headings).toEqual(['design', 'coil metal', 'coil turns', 'coil layers', 'drive current (A)']);
    // pandas 3 calls texts str
    expect(types.filter((type: string) => type !== 'object' && type !== 'str')).toEqual([
      'bool',
      'float64',
      'int64',
    ]);
  });
});

const pyarrow = nightly ? pythonWith('pyarrow') : null;

// not in Debian: read where somebody has installed it
describe.runIf(pyarrow !== null)(`pandas with pyarrow ${pyarrow?.version}`, () => {
  it('reads the Parquet file as it reads the CSV', () => {
    const program = `
import pandas as pd
parquet = pd.read_parquet("${RESULT}/designs.parquet")
csv = pd.read_csv("${RESULT}/designs.csv", float_precision="round_trip")
pd.testing.assert_frame_equal(parquet, csv, check_exact=True, check_dtype=False)
print(len(parquet))
`;
    expect(Number(output(pyarrow!.program, ['-'], program))).toBe(records('designs.csv').length);
  });
});

/** What a program says of its version, in a line. */
function said(program: string): string {
  return nightly ? spawnSync(program, ['--version'], { encoding: 'utf8' }).stdout.split('\n')[0]! : program;
}

describe.runIf(nightly)(`${said('Rscript')}, ${said('soffice')}`, () => {
  it('R runs its example', () => {
    const [code] = examples('r');
    expectAnswer(output('Rscript', ['-'], code));
  });

  it('a German LibreOffice finds the numbers of front.csv in front.xlsx, each with a comma', () => {
    const profile = join(folder, 'office');
    mkdirSync(join(profile, 'user'), { recursive: true });
    writeFileSync(join(profile, 'user/registrymodifications.xcu'), GERMAN);
    const filter = 'csv:Text - txt - csv (StarCalc):59,34,76,1,,0,false,false,false,false,false,1';
    const open = ['--headless', '--convert-to', filter, '--outdir', 'opened', `${RESULT}/front.xlsx`];
    output('soffice', [`-env:UserInstallation=file://${profile}`, ...open]);
    const text = readFileSync(join(folder, 'opened/front-Front.csv'));
    const [, ...rows] = parse(text, { delimiter: ';' }) as string[][];
    const own = records('front.csv').map((record) => Object.values(record));
    expect(rows).toHaveLength(own.length);
    const german: Record<string, string> = { true: 'WAHR', false: 'FALSCH' };
    rows.forEach((row, i) => {
      row.forEach((cell, k) => {
        const wanted = own[i]![k]!;
        const number = Number(wanted);
        if (wanted === '' || Number.isNaN(number)) expect(cell).toBe(german[wanted] ?? wanted);
        else {
          expect(cell).not.toContain('.');
          // LibreOffice writes fifteen digits
          expect(Math.abs(Number(cell.replace(',', '.')) - number)).toBeLessThanOrEqual(
            1e-14 * Math.abs(number),
          );
        }
      });
    });
    expect(rows.flat().filter((cell) => cell.includes(',')).length).toBeGreaterThan(own.length);
  });
});

/** A profile whose decimal mark is a comma. */
const GERMAN = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>de-DE</value></prop></item>
</oor:items>
`;
