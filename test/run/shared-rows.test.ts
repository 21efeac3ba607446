import { afterEach, describe, expect, it } from 'vitest';
import type { DesignBatch } from '../../src/model/rows.ts';
import { createPlan } from '../../src/plan/create-plan.ts';
import type { Work } from '../../src/plan/plan.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import type * as Tabulate from '../../src/run/tabulate.ts';
import { createTimeLimit } from '../../src/run/time-limit.ts';
import { createLocalWorkforce, type Workforce } from '../../src/run/workforce.ts';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { checksum } from '../../src/store/part-checksum.ts';
import { covering, openParts } from '../../src/store/parts.ts';
import { createChunkMaker } from '../../src/store/table-chunk.ts';
import { temporaryFolder } from '../store/temporary-folder.ts';
import { batchesOf, type Row, workshopStudy } from '../support/batches.ts';
import { disturbedStudy } from '../support/disturbed-study.ts';
import { studyFrom } from '../support/finished-study.ts';

/** Workers as built: `npm test` builds first. */
const BUILT = new URL('../../dist/', import.meta.url);
const STAMP = 'a study, a program';

const stops: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const stop of stops.splice(0)) await stop();
});

describe('rows in shared memory', () => {
  const text = disturbedStudy('Shared').replace('count: 5', 'count: 60');
  const study = studyFrom(text);

  function workforce(): Workforce {
    const made = createLocalWorkforce({
      task: study,
      stamp: STAMP,
      threads: 1,
      timeLimit: createTimeLimit(Date.now),
      worker: new URL('workers/evaluate.js', BUILT),
    });
    stops.push(() => made.stop());
    return made;
  }

  function works(): Work[] {
    const plan = createPlan(study);
    return Array.from({ length: 5 }, () => plan.next()!);
  }

  it('are the same whether it is fresh or was given back, and the memory is the same', async () => {
    const first = workforce();
    const kept: Uint8Array[] = [];
    for (const [number, work] of works().entries()) {
      kept.push((await first.do(number, work)).rows.packed!.bytes.slice());
    }
    const second = workforce();
    let before: Uint8Array | null = null;
    for (const [number, work] of works().entries()) {
      const { rows } = await second.do(number, work);
      const { bytes, checksum: sum } = rows.packed!;
      expect(rows.count).toBeGreaterThan(2048);
      expect(Buffer.from(bytes).equals(kept[number]!)).toBe(true);
      expect(checksum(bytes)).toBe(sum);
      // who looks at rows that were given back sees those that came after them
      if (before) expect(Buffer.from(before).equals(bytes)).toBe(true);
      second.giveBack(rows);
      before = bytes;
    }
  });

  it('are the same likewise where they are too few for a part, however many follow one another', async () => {
    const [whole] = works() as DesignBatch[];
    const width = whole!.values.length / whole!.count;
    const few = [0, 300, 350, 750].map((from, i): DesignBatch => {
      const count = [300, 50, 400, 120][i]!;
      const values = whole!.values.slice(from * width, (from + count) * width);
      return { first: from, count, values };
    });
    const evaluate = createEvaluator(study);
    const made = workforce();
    let before: Float64Array | null = null;
    for (const [number, batch] of few.entries()) {
      const { rows } = await made.do(number, batch);
      expect(rows).toEqual(evaluate(batch));
      expect(rows.quantities.buffer).toBeInstanceOf(SharedArrayBuffer);
      expect(rows.objectives.buffer).toBeInstanceOf(ArrayBuffer);
      // the second, which is shorter, lies where the first was
      if (number === 1) expect([...before!.subarray(0, 50)]).toEqual([...rows.quantities.subarray(0, 50)]);
      made.giveBack(rows);
      before = rows.quantities;
    }
  });
});

describe('tables in shared memory', () => {
  const study = workshopStudy();
  const rows: Row[] = Array.from({ length: 2000 }, (_, i) => ({
    values: [i % 2, 320 + (i % 7), 0.0011],
    status: i % 3 ? 'lifts' : 'rests',
    unmet: i,
    quantities: { height: i / 7, coil_on_time: i % 11 ? i : Number.NaN },
    derived: [i % 5 ? i : Number.NaN],
    objectives: [i, -i],
  }));

  it('are those of fresh memory, however long the chunks that follow one another', async () => {
    const { tabulate } = (await import(new URL('src/run/tabulate.js', BUILT).href)) as typeof Tabulate;
    const folder = temporaryFolder();
    const format = createPartFormat(study, STAMP);
    const parts = await openParts({ folder, format, onDamage: () => {} });
    const [batch] = batchesOf(study, rows, [2000]);
    await parts.write(0, [{ rows: batch!, report: null }]);

    const counts = [3, 400, 1, 250, 700, 8, 100, 500, 38];
    const shape = { ...study, startRows: null };
    const requests = counts.map((count, i) => {
      const first = counts.slice(0, i).reduce((sum, one) => sum + one, 0);
      return {
        first,
        count,
        parts: covering(folder, parts.list(), first, count),
        front: Float64Array.of(first),
      };
    });
    const makeChunk = createChunkMaker(shape);
    const starts = batchesOf(study, rows, counts);
    let at = 0;
    const { signal } = new AbortController();
    for await (const reply of tabulate({
      folder,
      stamp: STAMP,
      shape,
      csv: true,
      requests,
      threads: 1,
      signal,
    })) {
      if ('damaged' in reply) throw new Error(reply.damaged);
      const expected = makeChunk(
        [{ rows: starts[at]!, from: 0, to: counts[at]! }],
        requests[at]!.front,
        true,
      );
      expect(reply.parquet.bytes.buffer).toBeInstanceOf(SharedArrayBuffer);
      expect(Buffer.from(reply.parquet.bytes).equals(expected.parquet.bytes)).toBe(true);
      expect(Buffer.from(reply.csv!).equals(expected.csv!)).toBe(true);
      expect(reply.parquet.columns).toEqual(expected.parquet.columns);
      at++;
    }
    expect(at).toBe(counts.length);
  });
});
