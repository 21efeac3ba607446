import { describe, expect, it } from 'vitest';
import type { Design } from '../support/design.ts';
import { nightly } from '../support/nightly.ts';
import { extremeRig, usualRig } from '../support/random-rig.ts';
import { createJudge } from '../support/rig-faults.ts';

/**
 * Random rigs, seeded: no row that cannot be, no rig without an answer that a builder would expect one for, no disc that
 * takes more work than a second's. The short form takes some ten seconds of processor time, most of it discs.
 */
const SHORT = { usual: 600, extreme: 1000 };
const LONG = { usual: 30_000, extreme: 20_000 };
const { usual: USUAL, extreme: EXTREME } = nightly ? LONG : SHORT;

/** Multiplications to set up one disc: less than a second on the machine that was measured, loaded (1.7 ns each). */
const MOST_WORK = 8e8;

function judgeAll(rigs: (number: number) => Design, count: number) {
  const judge = createJudge();
  const faults: string[] = [];
  const fates = new Map<string, number>();
  let work = 0;
  for (let number = 0; number < count; number++) {
    const judged = judge(rigs(number));
    const fate = `${judged.status} ${judged.reason}`;
    fates.set(fate, (fates.get(fate) ?? 0) + 1);
    work = Math.max(work, judged.work);
    for (const fault of judged.faults) faults.push(`rig ${number} (${judged.status}): ${fault}`);
  }
  if (nightly) process.stdout.write(`${JSON.stringify({ ...Object.fromEntries(fates), work })}\n`);
  return { faults: faults.slice(0, 20), fates, work };
}

describe('random rigs', () => {
  const seed = 2026;

  it(`${USUAL} usual ones have rows that can be, and an answer`, () => {
    const { faults, fates, work } = judgeAll((number) => usualRig(seed, number), USUAL);
    expect(faults).toEqual([]);
    expect(work).toBeLessThan(MOST_WORK);
    // they are of every kind
    for (const fate of ['lifts none', 'rests weak', 'clamped none', 'rests attracted']) {
      expect(fates.get(fate) ?? 0, fate).toBeGreaterThan(USUAL / 100);
    }
    const failed = [...fates].filter(([fate]) => fate.startsWith('failed'));
    const count = failed.reduce((sum, [, number]) => sum + number, 0);
    expect(count, JSON.stringify(failed)).toBeLessThanOrEqual(MOST_FAILED * Math.max(USUAL, 1000));
    // not converged: thin steel that repels while it is saturated and pulls while it is not (see rig/saturated-drive)
    const known = ['failed tooHigh', 'failed edgeUnresolved', 'failed notConverged'];
    for (const [fate] of failed) expect(known).toContain(fate);
  }, 1_800_000);

  it(`${EXTREME} with inputs from anywhere in the accepted ranges have rows that can be`, () => {
    const { faults, work } = judgeAll((number) => extremeRig(seed, number), EXTREME);
    expect(faults).toEqual([]);
    expect(work).toBeLessThan(MOST_WORK);
  }, 1_800_000);
});

it('rigs that once had no numbers or took seconds', () => {
  // a hole under a narrow hoop at 63 kHz: 128 polynomials did not factorise
  const { faults, work } = judgeAll(() => usualRig(2026, 2489), 1);
  expect(faults).toEqual([]);
  expect(work).toBeLessThan(MOST_WORK);
});

it('usual rigs that once had no answer', () => {
  // hoops close over discs, with a hole, over eight layers; a rim layer of a five-thousandth; a coil that floats over a metre
  for (const number of [1159, 2319, 4888, 8289, 11395, 119]) {
    const { faults, fates } = judgeAll(() => usualRig(2026, number), 1);
    expect(faults).toEqual([]);
    expect([...fates.keys()].join(), `rig ${number}`).not.toMatch('failed');
  }
});

/** Of usual rigs. Of so few as the short form has, one. */
const MOST_FAILED = 1e-3;
