import { describe, expect, it } from 'vitest';
import { createPlan } from '../../src/plan/create-plan.ts';
import { threadsWorth } from '../../src/plan/threads-worth.ts';
import { studyFrom } from '../support/finished-study.ts';

function studyOf(count: number, plate = '', rest = 'plan: {grid: {}}') {
  return studyFrom(`study: Many
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 400, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 6 mm${plate}}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
vary: {drive.current: {from: 5 A, to: 15 A, count: ${count}}}
objectives: [{maximise: height}]
${rest}
`);
}

/** Threads for so many designs like those of a study. */
function worth(atMost: number, most: number, study = studyOf(100), shares = 1): number {
  const plan = createPlan(study);
  const many = { atMost, atOnce: 64, sample: (count: number) => plan.sample(count) };
  return threadsWorth(study, many, most, shares);
}

describe('threadsWorth', () => {
  it('is one for little work, and never more than there are', () => {
    expect(worth(1, 8)).toBe(1);
    expect(worth(10_000, 8)).toBe(1);
    expect(worth(100_000, 8)).toBe(2);
    expect(worth(1_000_000, 8)).toBe(8);
    expect(worth(1_000_000, 1)).toBe(1);
  });

  it('looks at how slow designs are, and at the share of them', () => {
    expect(worth(10_000, 8, studyOf(100, ', radius: 200 mm'))).toBeGreaterThan(2);
    expect(worth(10_000, 8, studyOf(100, '', 'tolerance: {standoff: 0.1 mm}'))).toBe(8);
    expect(worth(100_000, 8, studyOf(100), 4)).toBe(1);
  });

  it('is no more than there are pieces of work', () => {
    expect(worth(900_000, 99)).toBe(22);
    expect(worth(10_000_000, 99)).toBe(64);
  });
});
