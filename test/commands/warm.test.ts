import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, it } from 'vitest';
import { type WarmOptions, warm } from '../../src/commands/warm.ts';
import { UsageError } from '../../src/errors.ts';
import { Q } from '../../src/model/quantities.ts';
import { column } from '../../src/model/rows.ts';
import type { Study } from '../../src/model/study.ts';
import { createDesignReader } from '../../src/rig/design.ts';
import { followWarming } from '../../src/rig/follow-warming.ts';
import { EXIT } from '../../src/session/io.ts';
import { reportOn, studyFrom } from '../support/finished-study.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

const SHOW = join(PROJECT, 'studies/all-day-show.yaml');
const PAN = join(PROJECT, 'studies/pan-heater.yaml');
const folder = mkdtempSync(join(tmpdir(), 'warm-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The winner of the demo study: 360 turns of 2 mm aluminium, loose, at 80 V. */
const OPTIONS: WarmOptions = { design: 41, seconds: null, out: null, json: false, png: false };

async function run(options: Partial<WarmOptions>, place = SHOW) {
  const io = testIo({ cwd: folder });
  const code = await warm(place, { ...OPTIONS, ...options }, io);
  return { code, text: io.out() };
}

function table(name: string): Record<string, string>[] {
  return parse(readFileSync(join(folder, name, 'warm.csv'), 'utf8'), { columns: true });
}

describe('eddylift warm', () => {
  it('prints and writes how current and height fall while winding and plate warm', async () => {
    const { code, text } = await run({ seconds: '20min', out: 'w', png: true });
    expect(code).toBe(EXIT.done);
    expect(text).toContain('design 41, set cold, supply voltage left alone');
    expect(text).toMatch(/about \d+ min +the hottest place of the winding is at its thermal class/);
    expect(text).toMatch(/end +followed for as long as requested/);
    const rows = table('w');
    const column = (name: string) => rows.map((row) => Number(row[name]));
    const falls = (values: readonly number[]) => values.every((v, i) => i === 0 || v <= values[i - 1]!);
    expect(falls(column('current_A'))).toBe(true);
    expect(falls(column('height_mm'))).toBe(true);
    expect(falls(column('coil_hot_spot_degC').map((v) => -v))).toBe(true);
    expect(falls(column('plate_temperature_degC').map((v) => -v))).toBe(true);
    const last = rows.at(-1)!;
    expect(Number(last.time_s)).toBe(1200);
    expect(Number(last.coil_hot_spot_degC)).toBeGreaterThan(Number(last.coil_temperature_degC));
    const metadata = JSON.parse(readFileSync(join(folder, 'w', 'warm.csv-metadata.json'), 'utf8'));
    expect(metadata.tableSchema.columns.map(({ name }: { name: string }) => name)).toEqual(
      Object.keys(rows[0]!),
    );
    expect(readFileSync(join(folder, 'w', 'warm.svg'), 'utf8')).toContain('temperature (°C)');
    expect(
      readFileSync(join(folder, 'w', 'warm.png'))
        .subarray(1, 4)
        .toString(),
    ).toBe('PNG');
  });

  it('ends by itself where nothing changes any more, and gives machines the same bytes', async () => {
    const one = await run({ design: 5, out: 'a', json: true });
    await run({ design: 5, out: 'b' });
    const read = (name: string) => readFileSync(join(folder, name, 'warm.csv'), 'utf8');
    expect(read('b')).toBe(read('a'));
    const { held, end, last, rows } = JSON.parse(one.text);
    expect([held, end]).toEqual(['voltage', 'steady']);
    expect(table('a').length).toBe(rows);
    // SI for machines, degrees in the table
    expect(Number(table('a').at(-1)!.coil_hot_spot_degC)).toBeCloseTo(last.hottest - 273.15, 4);
  });

  it('says when the water is warm, over a load', async () => {
    const { text } = await run({ design: 1008, out: 'p' }, PAN);
    expect(text).toMatch(/about [\d.]+ (min|s) +the water is warm/);
    expect(text).not.toContain('height');
  });

  it.each([
    ['--for 0s', { seconds: '0s' }],
    ['--for 2days', { seconds: '2days' }],
    ['--for -5min', { seconds: '-5min' }],
  ] as const)('refuses %s in one line and writes nothing', async (words, options) => {
    const failed = run({ ...options, out: 'none' });
    await expect(failed).rejects.toThrow(UsageError);
    await expect(failed).rejects.toThrow(words);
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });
});

describe('the demo study of a show all day', () => {
  const study = studyFrom(new URL('../../studies/all-day-show.yaml', import.meta.url));
  const rows = reportOn(study).front;

  it('is answered by a loose aluminium coil, cool enough all day and high at the end of each show', () => {
    expect(Array.from(rows.designs)).toContain(41);
    const at = rows.designs.indexOf(41);
    const quantity = (q: number) => rows.quantities[q * rows.count + at]!;
    // the highest of those that stay below 130 degC and above 8 mm
    const least = column(rows, rows.objectives, 0);
    expect(Math.max(...least)).toBe(least[at]);
    expect(quantity(Q.height_least)).toBeCloseTo(0.0213, 3);
    expect(quantity(Q.coil_peak) - 273.15).toBeGreaterThan(105);
    expect(quantity(Q.coil_peak) - 273.15).toBeLessThan(120);
    // a day of shows is hotter and lower than one show from cold, and far from being left on
    const slots = slotsOfRow(study, rows.values.subarray(at * study.vary.length));
    const oneShow = followWarming(study.rig, slots, 300)!.moments.at(-1)!;
    expect(quantity(Q.coil_peak)).toBeGreaterThan(oneShow.hottest + 5);
    expect(quantity(Q.height_least)).toBeLessThan(oneShow.height);
    expect(quantity(Q.coil_peak)).toBeLessThan(quantity(Q.coil_hot_spot) - 50);
  });
});

function slotsOfRow(study: Study, values: Float64Array): Float64Array {
  const reader = createDesignReader(study);
  reader.read(values, 0);
  return reader.slots;
}
