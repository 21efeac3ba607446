import { describe, expect, it } from 'vitest';
import { Q } from '../../src/model/quantities.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { STATUS, STATUSES } from '../../src/model/status.ts';
import type { Work } from '../../src/plan/plan.ts';
import { differenceOf, singleDesign } from '../../src/queue/recompute.ts';
import { fromFields, type Returned, toFields } from '../../src/queue/result.ts';
import { createSigner } from '../../src/queue/signature.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { digest } from '../../src/store/part-checksum.ts';
import { packingOf, studyOf } from '../support/queue-scene.ts';

const SECRET = 'a secret of the workshop';
const study = studyOf('A result on its way', '', (text) =>
  text
    .replace(/coil.inner_radius: .*/, 'coil.metal: [aluminium, copper]')
    .replace('coil: {metal: aluminium,', 'coil: {inner_radius: 50 mm,'),
);
const packing = { ...packingOf(study, SECRET), wholePart: 4 };
const evaluate = createEvaluator(study);
const NUMBER = 7;

/** Thickness of the plate, m; turns; metal: five designs, the first of which rests. */
const VALUES = [0.0001, 300, 1, 0.004, 360, 0, 0.006, 420, 0, 0.008, 480, 0, 0.012, 540, 0];
const batch: Work = { first: 0, count: 5, values: Float64Array.from(VALUES) };
const rows = evaluate(batch);
const report = { best: 2, feasible: true, end: 'settled' } as const;
const descent: Work = {
  ...{ start: 0, seed: 1, objective: 0, caps: [1, 1], extents: [1, 1] },
  from: { id: 9, design: rows.values.slice(0, 3), costs: new Float64Array(2), violation: 0 },
  settings: { evaluations: 40, tolerance: 0, resolution: 0 },
};

/** As Redis gives it. */
function sent(done: Parameters<typeof toFields>[0], fault: string | null = null, by = packing) {
  const { bytes, checksum, note, signature } = toFields(done, NUMBER, fault, 'bench-pc:12', by);
  return {
    bytes,
    checksum: Buffer.from(checksum),
    note: Buffer.from(note),
    signature: Buffer.from(signature),
  };
}

/** The rows with one of their columns changed, at row `i`. */
function changed(key: 'status' | 'reason' | 'feasible' | 'unmet' | 'violation', i: number, value: number) {
  const cells = rows[key].slice();
  cells[i] = value;
  return { ...rows, [key]: cells } as RowBatch;
}

function withQuantity(quantity: number, i: number, value: number): RowBatch {
  return { ...rows, quantities: rows.quantities.with(quantity * 5 + i, value) };
}

describe('a result on its way back', () => {
  it('arrives whole, with its report or fault, and with its bytes where they are a part of their own', () => {
    const back = fromFields(sent({ rows }, 'too\u001b[2J hot'), NUMBER, batch, packing) as Returned;
    const { packed, ...found } = back.rows;
    expect(found).toEqual(rows);
    expect(packed!.checksum).toBe(packing.checksum(packed!.bytes));
    // others can be made for a checksum, so that it is not what is signed
    expect(`${sent({ rows }).checksum}`).toBe(digest(packed!.bytes));
    expect(back).toMatchObject({ report: null, fault: 'too [2J hot', worker: 'bench-pc:12' });
    expect(fromFields(sent({ rows, report }), NUMBER, descent, packing)).toMatchObject({
      report,
      fault: null,
    });
    // the cases below mean what they say
    expect([...rows.status].slice(0, 2)).toEqual([STATUS.rests, STATUS.lifts]);
  });

  const other = evaluate({ ...batch, values: batch.values.with(0, 0.002) });
  const open = { ...packing, signer: createSigner(null) };
  const noteOf = (changes: object) =>
    Buffer.from(JSON.stringify({ count: 5, report: null, fault: null, worker: 'x', ...changes }));
  /** With another note, signed as the worker would. */
  const note = (changes: object) => {
    const fields = { ...sent({ rows }), note: noteOf(changes) };
    const parts = ['result', packing.stamp, `${NUMBER}`, `${fields.checksum}`, `${fields.note}`];
    return { ...fields, signature: Buffer.from(packing.signer.sign(...parts)) };
  };
  const unsigned = { ...sent({ rows }, null, open) };
  const height = withQuantity(Q.height, 1, rows.quantities[Q.height * 5 + 1]! * 10);
  const empty = { ...rows, quantities: rows.quantities.map(() => Number.NaN) };

  it.each([
    ['nothing is there', {}, batch, 'it is incomplete'],
    ['its note has no worker', note({ worker: 1 }), batch, 'it is incomplete'],
    ['its report is made up', note({ report: { best: -1 } }), descent, 'it is incomplete'],
    ['it is that of a start', sent({ rows, report }), batch, 'it is that of other work'],
    ['it has other rows', note({ count: 4 }), batch, 'it has 4 rows'],
    ['it is of other designs', sent({ rows: other }), batch, 'it is of other designs'],
    [
      'a bit is flipped',
      { ...sent({ rows }), bytes: flipped(sent({ rows }).bytes) },
      batch,
      'its checksum does not fit',
    ],
    ['nobody signed it', unsigned, batch, 'it is not signed'],
    [
      'it is signed with another secret',
      sent({ rows }, null, { ...packing, signer: createSigner('a secret of another workshop') }),
      batch,
      'it is signed with another secret',
    ],
    [
      'its note was changed on the way',
      { ...sent({ rows }), note: noteOf({}) },
      batch,
      'it is signed with another secret',
    ],
    [
      'all is empty and said to lift',
      sent({ rows: { ...empty, status: rows.status.map(() => STATUS.lifts) } }),
      batch,
      'its row 0 lifts without wire_length',
    ],
    [
      'a height is missing',
      sent({ rows: withQuantity(Q.height, 2, Number.NaN) }),
      batch,
      'its row 2 lifts without height',
    ],
    [
      'what rests is high above its plate',
      sent({ rows: withQuantity(Q.height, 0, 0.01) }),
      batch,
      'its row 0 rests at another height',
    ],
    [
      'a mass is negative',
      sent({ rows: withQuantity(Q.coil_mass, 3, -1) }),
      batch,
      'its row 3 has a coil_mass that is not above 0',
    ],
    [
      'a voltage is infinite',
      sent({ rows: withQuantity(Q.voltage, 3, Number.POSITIVE_INFINITY) }),
      batch,
      'its row 3 has an infinite voltage',
    ],
    [
      'a status does not exist',
      sent({ rows: changed('status', 1, STATUSES.length) }),
      batch,
      'its row 1 has a status or reason that does not exist',
    ],
    [
      'a design failed for no reason',
      sent({ rows: changed('status', 1, STATUS.failed) }),
      batch,
      'its row 1 is failed without a reason',
    ],
    [
      'what is feasible breaks a limit',
      sent({ rows: changed('unmet', 1, rows.unmet[1]! ^ 1) }),
      batch,
      'its row 1 is feasible and breaks a limit, or neither',
    ],
    [
      'a limit is broken by nothing',
      sent({ rows: changed('violation', 1, rows.unmet[1] === 0 ? 1 : 0) }),
      batch,
      'its row 1 breaks its limits by another amount',
    ],
    [
      'a word of it is unheard of',
      sent({ rows: withQuantity(Q.plate_model, 4, 9) }),
      batch,
      'it has words that nobody knows',
    ],
    [
      'a descent came to a choice that there is not',
      sent({ rows: { ...rows, values: rows.values.with(3 * 4 + 2, 2) }, report }),
      descent,
      'it is of designs that the study does not have',
    ],
    [
      'a descent came to no number',
      sent({ rows: { ...rows, values: rows.values.with(3 * 4, Number.NaN) }, report }),
      descent,
      'it is of designs that the study does not have',
    ],
    [
      'its best is none of its rows',
      sent({ rows, report: { ...report, best: 5 } }),
      descent,
      'its report is of other rows',
    ],
  ] as const)('is refused when %s', (_, fields, work, why) => {
    expect(fromFields(fields, NUMBER, work, packing)).toBe(why);
  });

  it('is refused when it is of another study, or of another piece of work', () => {
    const elsewhere = { ...packing, format: createPartFormat(study, 'another stamp') };
    expect(fromFields(sent({ rows }), NUMBER, batch, elsewhere)).toBe('it is of another study or version');
    expect(fromFields(sent({ rows }), NUMBER + 1, batch, packing)).toBe('it is signed with another secret');
  });

  it('is taken unsigned where there is no secret, and signed only where there is one', () => {
    expect(fromFields(unsigned, NUMBER, batch, open)).toMatchObject({ worker: 'bench-pc:12' });
    expect(fromFields(sent({ rows }), NUMBER, batch, open)).toBe('it is signed, and there is no secret here');
  });

  it('passes with a height that only computing again finds wrong', () => {
    expect(fromFields(sent({ rows: height }), NUMBER, batch, packing)).toMatchObject({ report: null });
    for (let i = 0; i < 5; i++) {
      const here = evaluate(singleDesign(rows, i));
      expect(differenceOf(rows, i, here)).toBeNull();
      expect(differenceOf(height, i, here)).toEqual(
        i === 1 ? expect.stringMatching(/^height .* instead of/) : null,
      );
    }
    const here = evaluate(singleDesign(rows, 1));
    expect(differenceOf(changed('feasible', 1, 1 - rows.feasible[1]!), 1, here)).toMatch(/^feasible/);
    const objectives = rows.objectives.with(1, rows.objectives[1]! * (1 + Number.EPSILON));
    expect(differenceOf({ ...rows, objectives }, 1, here)).toMatch(/^objectives column 1/);
  });
});

function flipped(bytes: Buffer): Buffer {
  const other = Buffer.from(bytes);
  other[other.length >> 1]! ^= 1;
  return other;
}
