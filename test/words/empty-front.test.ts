import { describe, expect, it } from 'vitest';
import { createFrontArchive } from '../../src/front/front-archive.ts';
import { Q } from '../../src/model/quantities.ts';
import { REASON } from '../../src/model/status.ts';
import { createLimitTally } from '../../src/survey/limit-tally.ts';
import { explainEmptyFront } from '../../src/words/empty-front.ts';
import { batchesOf, limit, type Row, workshopStudy } from '../support/batches.ts';

/** Limits of the study: current <= 16 A is bit 0, coil_mass <= 3 kg bit 1. */
function words(rows: readonly Row[], changes = {}, size = 2): string[] {
  const study = workshopStudy(changes);
  const explained = explainEmptyFront(study);
  const tally = createLimitTally(study, () => createFrontArchive(study.objectives.map(({ sense }) => sense)));
  for (const batch of batchesOf(study, rows, [size])) {
    explained.add(batch);
    tally.add(batch);
  }
  return explained.words(tally.misses()).split('\n');
}

function missing(unmet: number, current: number): Row {
  const violation = (current > 16 ? current / 16 - 1 : 0) + (unmet & 2 ? 1 / 3 : 0);
  return { feasible: false, unmet, violation, quantities: { current, coil_mass: 4 } };
}

describe('explainEmptyFront', () => {
  it('names the limit that shuts most designs out and how near the nearest came, and the design nearest overall', () => {
    expect(words([missing(3, 20), missing(1, 17), missing(1, 16.4), missing(2, 12)])).toEqual([
      'The front is empty: no design of 4 meets every limit.',
      "The limit 'current <= 16 A' shuts most designs out: 3 of 4 miss it, 2 of them no other. The nearest, design 2, has current 16.4 A.",
      "Nearest to meeting all is design 2: it misses only 'current <= 16 A'.",
    ]);
  });

  it('takes for the nearest the least violation, of equals the better in the objectives, and none that rests', () => {
    const at = (row: Row, height: number, mass: number): Row => ({ ...row, objectives: [height, mass] });
    const nearest = (...rows: Row[]) => words(rows).find((line) => line.startsWith('Nearest'));
    const near = missing(1, 16.4);
    // many limits missed by little are nearer than one missed by much
    expect(nearest({ ...missing(3, 16.1), violation: 0.01 }, missing(1, 32))).toContain('design 0');
    expect(nearest(at(near, 0.01, 2), at(near, 0.02, 3))).toContain('design 1');
    expect(nearest(at(near, 0.02, 3), at(near, 0.02, 2))).toContain('design 1');
    expect(nearest({ ...near, status: 'rests' }, missing(1, 32))).toContain('design 1');
    expect(nearest({ ...near, status: 'rests' })).toMatch(/design 0: .*, and rests on the plate\.$/);
  });

  it('does not name one that rests as nearest to the worst limit while another floats', () => {
    const [, worst] = words([{ ...missing(1, 16.4), status: 'rests' }, missing(1, 32)]);
    expect(worst).toMatch(/The nearest, design 1, has current 32 A\.$/);
  });

  it('says the same however the rows are batched', () => {
    const rows = [missing(3, 20), missing(1, 17), missing(1, 16.4), missing(2, 12)];
    expect(words(rows, {}, 1)).toEqual(words(rows, {}, 4));
  });

  it('looks for the highest value below a floor, whichever side of the limit the quantity is on', () => {
    const floor = limit('height >= 30 mm', 'height', '>=', 0.03);
    const mirrored = {
      ...floor,
      text: '30 mm <= height',
      comparison: '<=',
      left: floor.right,
      right: floor.left,
    } as const;
    const rows: Row[] = [0.01, 0.02, 0.015].map((height) => ({
      feasible: false,
      unmet: 1,
      quantities: { height },
    }));
    for (const each of [floor, mirrored]) {
      expect(words(rows, { limits: [each] })[1]).toMatch(/The nearest, design 1, has height 20 mm\.$/);
    }
  });

  it('measures a derived quantity in its own unit', () => {
    const floor = {
      ...limit('height_per_ampere >= 5 mm/A', 'height', '>=', 0.005),
      left: [{ op: 'derived', index: 0 }] as const,
    };
    const rows: Row[] = [{ feasible: false, unmet: 1, derived: [0.004] }];
    expect(words(rows, { limits: [floor] })[1]).toMatch(/design 0, has height_per_ampere 4 mm\/A\.$/);
  });

  it('measures nothing where a limit compares two columns or the value is empty', () => {
    const moving = {
      ...limit('height >= gap', 'height', '>=', 0),
      right: [{ op: 'quantity', index: Q.gap }] as const,
    };
    const rows: Row[] = [{ feasible: false, unmet: 1, quantities: { height: 1, gap: 2 } }];
    expect(words(rows, { limits: [moving] })[1]).toMatch(/no other\.$/);
    expect(words([{ feasible: false, unmet: 1 }])[1]).toMatch(/no other\.$/);
  });

  it('blames no limit for designs that cannot be built, and counts them by reason, and those that rest', () => {
    const impossible = { status: 'impossible', feasible: false, unmet: 3 } as const;
    expect(
      words([
        { ...impossible, reason: REASON.layersOverTurns },
        { ...impossible, reason: REASON.sectionInverted },
        { ...impossible, reason: REASON.sectionInverted },
        { ...missing(2, 12), status: 'rests', reason: REASON.weak },
      ]),
    ).toEqual([
      'The front is empty: no design of 4 meets every limit.',
      "The limit 'coil_mass <= 3 kg' shuts most designs out: 1 of 4 miss it, 1 of them no other. The nearest, design 3, has coil mass 4 kg.",
      "Nearest to meeting all is design 3: it misses only 'coil_mass <= 3 kg', and rests on the plate.",
      'Impossible: 2 (the outer radius of the section is not larger than the inner radius), 1 (more layers than wires to fill them).',
      'Resting on the plate: 1 (drive too weak: less than the lift-off current).',
    ]);
  });

  it('says so when designs meet every limit but an objective is empty in each', () => {
    expect(words([{}, {}])).toEqual([
      'The front is empty: of 2 designs 2 meet every limit, but in each an objective has no value.',
    ]);
  });

  it('counts the 32nd limit and those after it together, since they share a bit', () => {
    const limits = Array.from({ length: 40 }, (_, i) => limit(`current <= ${i} A`, 'current', '<=', i));
    const [, worst] = words([{ feasible: false, unmet: 0x80000000, quantities: { current: 50 } }], {
      limits,
    });
    expect(worst).toBe(
      "The limit 'one of the last 9 limits' shuts most designs out: 1 of 1 miss it, 1 of them no other.",
    );
  });
});
