import {
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { UsageError } from '../../src/errors.ts';
import type { RowBatch } from '../../src/model/rows.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { findDesign } from '../../src/session/find-design.ts';
import { findResult } from '../../src/session/find-result.ts';
import { origin } from '../../src/session/origin.ts';
import { createPartFormat } from '../../src/store/part-bytes.ts';
import { covering, listParts, readRows } from '../../src/store/parts.ts';
import { finishResult, openResult, stampOf } from '../../src/store/result-folder.ts';
import { cli, scratchFolder } from '../support/cli.ts';
import { studyFrom } from '../support/finished-study.ts';
import { nightly } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';
import { testIo } from '../support/test-io.ts';

/**
 * Results whose files were flipped, torn, swapped or lost. Whatever is done to one, its rows are those that were
 * computed, or it is refused in one line: never another table.
 */
const DAMAGES = nightly ? 1500 : 60;
/** By the command line itself, which takes a second each. */
const COMMANDS = nightly ? 60 : 1;

const study = studyFrom(new URL('../fixtures/old-result/study.yaml', import.meta.url));
const scratch = scratchFolder();
const sound = join(scratch, 'sound');
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** ms; the long form reads some thousand results. */
const LONGEST_MS = nightly ? 1_800_000 : 600_000;
/** Designs whose values a card would ask for. */
const CARDS = nightly ? [0, 6, 13] : [6];
/** Three designs a part. */
const ROWS = 3;
const FACTS = {
  version: '0.1.0',
  origin: origin(),
  node: process.version,
  threads: 1,
  seed: null,
  started: '2026-01-01T08:00:00.000Z',
};
const DESIGNS = 14;

beforeAll(async () => {
  const evaluate = createEvaluator(study);
  const { parts, close } = await openResult(sound, study, FACTS, () => {});
  for (let first = 0, batch = 0; first < DESIGNS; first += ROWS, batch++) {
    const count = Math.min(ROWS, DESIGNS - first);
    const turns = study.vary[1]!;
    const width = turns.levels.length;
    const values = Float64Array.from({ length: 2 * count }, (_, i) => {
      const design = first + (i >> 1);
      return i % 2 === 0 ? Math.floor(design / width) : (turns.levels[design % width] as number);
    });
    await parts.write(batch, [{ rows: evaluate({ first, count, values }), report: null }]);
  }
  await close();
  const statuses = { lifts: 0, rests: 0, clamped: 0, impossible: 0, failed: 0 };
  const counts = { designs: DESIGNS, statuses, feasible: 0, front: 0 };
  await finishResult(sound, study, FACTS, counts, {
    search: null,
    front: null,
    finished: '2026-01-01T08:00:09.000Z',
    seconds: 9,
  });
});

/** All that a result holds; throws UsageError where it is refused. */
async function readWhole(place: string): Promise<{ readonly text: string; readonly rows: RowBatch }> {
  const result = await findResult(place, testIo({ cwd: scratch }));
  if (!result) throw new UsageError('its study has problems, which stand on stderr');
  const { folder, record } = result;
  if (!record.finished || !record.origin) throw new UsageError('not finished');
  const parts = await listParts(folder);
  const stamp = stampOf(record.hash, record.origin, record.format);
  const total = record.designs ?? DESIGNS;
  const rows = await readRows(
    folder,
    covering(folder, parts, 0, total),
    createPartFormat(result.study, stamp),
    0,
    total,
  );
  if ('damaged' in rows) throw new UsageError(rows.damaged);
  return { text: result.study.text, rows };
}

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

type Damage = readonly [what: string, act: (folder: string, random: () => number) => void];

const pick = <T>(from: readonly T[], random: () => number): T => from[Math.floor(random() * from.length)]!;
const partsOf = (folder: string) => readdirSync(join(folder, 'parts')).sort();
const filesOf = (folder: string) => [
  'study.yaml',
  'run.json',
  ...partsOf(folder).map((name) => join('parts', name)),
];

function inFile(change: (bytes: Buffer, random: () => number) => Uint8Array): Damage[1] {
  return (folder, random) => {
    const path = join(folder, pick(filesOf(folder), random));
    writeFileSync(path, change(readFileSync(path), random));
  };
}

function twoParts(folder: string, random: () => number): [string, string] {
  const names = partsOf(folder);
  const first = Math.floor(random() * names.length);
  const second = (first + 1 + Math.floor(random() * (names.length - 1))) % names.length;
  return [join(folder, 'parts', names[first]!), join(folder, 'parts', names[second]!)];
}

function swap(a: string, b: string, asA: string, asB: string): void {
  const [bytesA, bytesB] = [readFileSync(a), readFileSync(b)];
  rmSync(a);
  rmSync(b);
  writeFileSync(asA, bytesA);
  writeFileSync(asB, bytesB);
}

const inStudy = (change: (text: string) => string) => (folder: string) => {
  const path = join(folder, 'study.yaml');
  writeFileSync(path, change(readFileSync(path, 'utf8')));
};

const DAMAGE: readonly Damage[] = [
  [
    'a bit flipped',
    inFile((bytes, random) => {
      bytes[Math.floor(random() * bytes.length)]! ^= 1 << Math.floor(random() * 8);
      return bytes;
    }),
  ],
  ['torn', inFile((bytes, random) => bytes.subarray(0, Math.floor(random() * bytes.length)))],
  ['emptied', inFile(() => new Uint8Array(0))],
  ['put on', inFile((bytes, random) => Buffer.concat([bytes, bytes.subarray(0, 1 + random() * 64)]))],
  [
    'a sector of zeros',
    inFile((bytes, random) => bytes.fill(0, Math.floor((random() * bytes.length) / 512) * 512).subarray(0)),
  ],
  [
    'parts that changed names',
    (folder, random) => {
      const [a, b] = twoParts(folder, random);
      renameSync(a, `${a}.away`);
      renameSync(b, a);
      renameSync(`${a}.away`, b);
    },
  ],
  [
    'parts that changed places, checksums and all',
    (folder, random) => {
      const [a, b] = twoParts(folder, random);
      const sum = /-([0-9a-f]{32})\.arrow$/;
      const [sumA, sumB] = [sum.exec(a)![1]!, sum.exec(b)![1]!];
      swap(a, b, b.replace(sumB, sumA), a.replace(sumA, sumB));
    },
  ],
  ['a part that is gone', (folder, random) => rmSync(twoParts(folder, random)[0])],
  ['a file that is gone', (folder, random) => rmSync(join(folder, pick(['study.yaml', 'run.json'], random)))],
  [
    'a part twice',
    (folder, random) => {
      const [a, b] = twoParts(folder, random);
      cpSync(a, b);
    },
  ],
  [
    'a part of an earlier result',
    (folder) => {
      const place = join(PROJECT, 'test/fixtures/old-result/parts');
      cpSync(join(place, readdirSync(place)[0]!), join(folder, 'parts', readdirSync(place)[0]!));
      for (const name of partsOf(folder).filter((part) => /-3-/.test(part)))
        rmSync(join(folder, 'parts', name));
    },
  ],
  ['swapped metals', inStudy((text) => text.replace('[aluminium, copper]', '[copper, aluminium]'))],
  ['another standoff', inStudy((text) => text.replace('thickness: 2 mm', 'thickness: 1 mm'))],
  ['another range', inStudy((text) => text.replace('from: 280', 'from: 240'))],
  [
    'a study of the same hash in the record',
    (folder) => {
      const path = join(folder, 'run.json');
      writeFileSync(
        path,
        readFileSync(path, 'utf8').replaceAll('[aluminium, copper]', '[copper, aluminium]'),
      );
      inStudy((text) => text.replace('[aluminium, copper]', '[copper, aluminium]'))(folder);
    },
  ],
];

function damaged(seed: number): { readonly what: string; readonly folder: string } {
  const random = randomFrom(seed);
  const folder = mkdtempSync(join(scratch, 'damaged-'));
  cpSync(sound, folder, { recursive: true });
  const [what, act] = DAMAGE[seed % DAMAGE.length]!;
  act(folder, random);
  return { what, folder };
}

describe('a damaged result', () => {
  it(
    `gives the rows that were computed or is refused in a line, ${DAMAGES} times`,
    async () => {
      const truth = await readWhole(sound);
      const designs = await Promise.all(CARDS.map((design) => findDesign(sound, design, testIo())));
      const refusals = new Map<string, number>();
      for (let seed = 0; seed < DAMAGES; seed++) {
        const { what, folder } = damaged(seed);
        const problem = (error: unknown) => {
          expect(error, `${what} (seed ${seed})`).toBeInstanceOf(UsageError);
          expect((error as Error).message).not.toMatch(/\p{Cc}/u);
          return null;
        };
        const read = await readWhole(folder).catch(problem);
        if (read === null) refusals.set(what, (refusals.get(what) ?? 0) + 1);
        else expect({ what, seed, read }).toEqual({ what, seed, read: truth });
        for (const [i, design] of CARDS.entries()) {
          const found = await findDesign(folder, design, testIo()).catch(problem);
          if (found !== null) {
            expect([what, seed, found.study.text]).toEqual([what, seed, truth.text]);
            expect(found.values).toEqual(designs[i]!.values);
          }
        }
        rmSync(folder, { recursive: true });
      }
      // every kind was noticed at least once: the test would hold nothing if damage did no harm
      expect([...refusals.keys()].sort()).toEqual(DAMAGE.map(([what]) => what).sort());
    },
    LONGEST_MS,
  );

  it(
    `has no other front at the command line, ${COMMANDS} times`,
    async () => {
      const front = (folder: string) => cli(['front', folder, '--json', '--threads', '1'], scratch);
      const fileOf = (out: string) => readFileSync(join(scratch, JSON.parse(out).file), 'utf8');
      const truth = await front('sound');
      expect(truth.code).toBe(0);
      for (let seed = 0; seed < COMMANDS; seed++) {
        const { what, folder } = damaged(seed);
        const { code, out, err } = await front(folder.slice(scratch.length + 1));
        if (code === 0) expect([what, seed, fileOf(out)]).toEqual([what, seed, fileOf(truth.out)]);
        else {
          expect([what, seed, code]).toEqual([what, seed, 2]);
          expect(err).not.toContain('unexpected');
          expect(JSON.parse(out)).toMatchObject({ document: 'error', exit_code: 2 });
        }
        expect(existsSync(join(scratch, 'sound'))).toBe(true);
        rmSync(folder, { recursive: true });
      }
    },
    LONGEST_MS,
  );
});
