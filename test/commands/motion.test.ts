import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, it } from 'vitest';
import { type MotionOptions, motion } from '../../src/commands/motion.ts';
import { UsageError } from '../../src/errors.ts';
import { EXIT } from '../../src/session/io.ts';
import { testIo } from '../support/test-io.ts';

const BENCHMARK = fileURLToPath(new URL('../../studies/two-coil-benchmark.yaml', import.meta.url));
const PAN = fileURLToPath(new URL('../../studies/pan-heater.yaml', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'motion-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const OPTIONS: MotionOptions = {
  design: 6,
  switchOn: null,
  ramp: null,
  cutAt: null,
  phase: null,
  seconds: null,
  step: null,
  out: null,
  json: false,
  png: false,
};

async function run(options: Partial<MotionOptions>, place = BENCHMARK) {
  const io = testIo({ cwd: folder });
  const code = await motion(place, { ...OPTIONS, ...options }, io);
  return { code, text: io.out() };
}

describe('eddylift motion', () => {
  it('writes instants, what they are and a figure, and says what happened', async () => {
    const { code, text } = await run({ switchOn: '14.142A', seconds: '1s', out: 'm' });
    expect(code).toBe(EXIT.done);
    expect(text).toMatch(/highest point +15\.\d+ mm after 0\.077/);
    expect(text).toMatch(/bounce +6\.\d+ Hz, dies away at/);
    expect(text).toMatch(/settles +stays within a millimetre after/);
    const rows: Record<string, string>[] = parse(readFileSync(join(folder, 'm', 'motion.csv')), {
      columns: true,
    });
    // 20 a period of 50 Hz, and the first
    expect(rows.length).toBe(1001);
    expect(rows[0]).toMatchObject({ time_s: '0', gap_mm: '3.8', height_mm: '0', current_A: '0' });
    const metadata = JSON.parse(readFileSync(join(folder, 'm', 'motion.csv-metadata.json'), 'utf8'));
    expect(metadata.url).toBe('motion.csv');
    expect(metadata.tableSchema.columns.map(({ name }: { name: string }) => name)).toEqual(
      Object.keys(rows[0]!),
    );
    expect(readFileSync(join(folder, 'm', 'motion.svg'), 'utf8')).toContain('height above rest (mm)');
  });

  it('gives the same bytes twice, and machines the same numbers', async () => {
    await run({ switchOn: '12A', seconds: '0.3s', out: 'a' });
    const { text } = await run({ switchOn: '12A', seconds: '0.3s', out: 'b', json: true });
    const read = (name: string) => readFileSync(join(folder, name, 'motion.csv'), 'utf8');
    expect(read('b')).toBe(read('a'));
    const { summary, energy, status } = JSON.parse(text);
    expect(status).toBe('done');
    expect(summary.everLifted).toBe(true);
    expect(energy.supplied).toBeGreaterThan(energy.windingLoss + energy.plateLoss);
  });

  it('raises a drive evenly and tells the landing after a cut', async () => {
    const { text } = await run({ ramp: '0A..14A/1s', cutAt: '1.5s', out: 'r', json: true });
    const { summary, drive } = JSON.parse(text);
    expect(drive).toMatchObject({ from: 0, to: 14, rise: 1, cutAt: 1.5 });
    // a slow rise hardly overshoots, and the fall is free
    expect(summary.overshoot).toBeLessThan(3e-3);
    expect(summary.landingTime).toBeGreaterThan(1.5);
    expect(summary.landingSpeed).toBeCloseTo(Math.sqrt(2 * 9.80665 * summary.steadyHeight), 1);
  });

  it('says that a drive never lifts, and what would', async () => {
    const { code, text } = await run({ switchOn: '3A', seconds: '0.2s', out: 'n' });
    expect(code).toBe(EXIT.done);
    expect(text).toMatch(/it never lifts in 0\.2 s: it takes \d+(\.\d+)? A, \d+/);
  });

  it.each([
    [{ step: '2ms' }, /step of 2 ms is too long for 50 Hz: at most 0\.5 ms/],
    [{ phase: '90deg', ramp: '0V..100V/2s' }, /--phase is that of the mains at switch-on/],
    [{ phase: '90deg', switchOn: '3A' }, /--phase is that of the mains at switch-on/],
    [{ seconds: '10h' }, /36,000 s of motion are 360,000,000 steps: at most 6,000,000, here 600 s/],
    [{ ramp: '0V..3A/2s' }, /two voltages or two currents/],
    [{ ramp: '0V' }, /such as 0V\.\.120V\/3s/],
    [{ switchOn: '96V', ramp: '0V..1V/1s' }, /give one of them/],
    [{ switchOn: '3kg' }, /such as 96V or 12A/],
    [{ switchOn: '0V' }, /more than 0/],
    [{ switchOn: '96V', phase: 'north' }, /such as 90deg, or worst/],
    [{ cutAt: '5s', seconds: '2s' }, /comes after the end/],
    [{ cutAt: 'never' }, /such as 2s/],
  ])('refuses %o in one line and writes nothing', async (options, words) => {
    const refused = run({ ...options, out: 'refused' });
    await expect(refused).rejects.toThrow(UsageError);
    await expect(refused).rejects.toThrow(words);
    expect(existsSync(join(folder, 'refused'))).toBe(false);
  });

  it('refuses what is clamped', async () => {
    await expect(run({ design: 3, out: 'refused' }, PAN)).rejects.toThrow(/nothing floats/);
  });

  it('keeps what is there when it is interrupted', async () => {
    // once it has looked often enough to have moved for a second, however fast the machine is
    let looks = 0;
    let stopped = false;
    const timer = setInterval(() => {
      stopped = looks > 10;
    }, 1);
    const get = () => {
      looks++;
      return stopped;
    };
    const signal = Object.defineProperty(new AbortController().signal, 'aborted', { get });
    const io = testIo({ cwd: folder, signal });
    const code = await motion(BENCHMARK, { ...OPTIONS, switchOn: '14A', seconds: '500s', out: 'i' }, io);
    clearInterval(timer);
    expect(code).toBe(EXIT.interrupted);
    expect(io.out()).toMatch(/Interrupted: what follows is of the first [\d.]+ s\./);
    expect(readFileSync(join(folder, 'i', 'motion.csv'), 'utf8').split('\n').length).toBeGreaterThan(200);
  });
});
