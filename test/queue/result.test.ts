import { describe, expect, it } from 'vitest';
import { Q } from '../../src/model/quantities.ts';
import { STATUSES } from '../../src/model/status.ts';
import type { Work } from '../../src/plan/plan.ts';
import { fromFields, toFields } from '../../src/queue/result.ts';
import { checksum, createPartFormat } from '../../src/store/part-bytes.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';

const study = workshopStudy();
const packing = { format: createPartFormat(study, 'a stamp'), checksum, wholePart: 4, vary: study.vary };

function rowsOf(count: number): Row[] {
  return Array.from({ length: count }, (_, i) => ({
    values: [i % 2, 320 + i, 0.0011],
    status: i % 3 ? 'lifts' : 'rests',
    quantities: { height: i / 7 },
    derived: [i],
    objectives: [i, -i],
  }));
}

const [rows] = batchesOf(study, rowsOf(5), [5]);
const batch: Work = { first: 0, count: 5, values: rows!.values };
const report = { best: 2, feasible: true, end: 'settled' } as const;
const descent: Work = {
  ...{ start: 0, seed: 1, objective: 0, caps: [1, 1], extents: [1, 1] },
  from: { id: 9, design: rows!.values.slice(0, 3), costs: new Float64Array(2), violation: 0 },
  settings: { evaluations: 40, tolerance: 0, resolution: 0 },
};

/** As Redis gives it. */
function sent(done: Parameters<typeof toFields>[0], fault: string | null = null) {
  const { bytes, checksum, note } = toFields(done, fault, 'bench-pc:12', packing);
  return { bytes, checksum: Buffer.from(checksum), note: Buffer.from(note) };
}

describe('a result on its way back', () => {
  it('arrives whole, with its report or fault, and with its bytes where they are a part of their own', () => {
    const back = fromFields(sent({ rows: rows! }, 'too\u001b[2J hot'), batch, packing);
    const { packed, ...found } = (back as { rows: typeof rows }).rows!;
    expect(found).toEqual(rows);
    expect(packed!.checksum).toBe(checksum(packed!.bytes));
    expect(back).toMatchObject({ report: null, fault: 'too [2J hot' });
    expect(fromFields(sent({ rows: rows!, report }), descent, packing)).toMatchObject({
      report,
      fault: null,
    });
  });

  const other = batchesOf(
    study,
    rowsOf(5).map((row) => ({ ...row, values: [1, 500, 0.002] })),
    [5],
  )[0]!;
  const unheard = { ...rows!, status: rows!.status.map(() => STATUSES.length) };
  /** The last row's plate model. */
  const worded = rows!.quantities.with(Q.plate_model * 5 + 4, 9);
  const note = (changes: object) =>
    Buffer.from(JSON.stringify({ count: 5, report: null, fault: null, worker: 'x', ...changes }));
  it.each([
    ['nothing is there', {}, batch, 'it is incomplete'],
    ['its note is none', { ...sent({ rows: rows! }), note: Buffer.from('[') }, batch, 'it is incomplete'],
    [
      'its note has no worker',
      { ...sent({ rows: rows! }), note: note({ worker: 1 }) },
      batch,
      'it is incomplete',
    ],
    [
      'its report is made up',
      { ...sent({ rows: rows! }), note: note({ report: { best: -1 } }) },
      descent,
      'it is incomplete',
    ],
    ['it is that of a start', sent({ rows: rows!, report }), batch, 'it is that of other work'],
    ['it has other rows', { ...sent({ rows: rows! }), note: note({ count: 4 }) }, batch, 'it has 4 rows'],
    [
      'a bit is flipped',
      { ...sent({ rows: rows! }), checksum: Buffer.from('0'.repeat(32)) },
      batch,
      'its checksum does not fit',
    ],
    ['it is of other designs', sent({ rows: other }), batch, 'it is of other designs'],
    ['its verdicts are unheard of', sent({ rows: unheard }), batch, 'it has verdicts that nobody knows'],
    [
      'a word of it is unheard of',
      sent({ rows: { ...rows!, quantities: worded } }),
      batch,
      'it has words that nobody knows',
    ],
    [
      'a descent came to a choice that there is not',
      sent({ rows: { ...rows!, values: rows!.values.with(3 * 4, 2) }, report }),
      descent,
      'it is of designs that the study does not have',
    ],
    [
      'a descent came to no number',
      sent({ rows: { ...rows!, values: rows!.values.with(3 * 4 + 1, Number.NaN) }, report }),
      descent,
      'it is of designs that the study does not have',
    ],
    [
      'its best is none of its rows',
      sent({ rows: rows!, report: { ...report, best: 5 } }),
      descent,
      'its report is of other rows',
    ],
  ] as const)('is refused when %s', (_, fields, work, why) => {
    expect(fromFields(fields, work, packing)).toBe(why);
  });

  it('is refused when it is of another study', () => {
    const elsewhere = { ...packing, format: createPartFormat(study, 'another stamp') };
    expect(fromFields(sent({ rows: rows! }), batch, elsewhere)).toBe('it is of another study or version');
  });
});
