import { readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createRandom } from '../../src/math/random.ts';
import { checksum } from '../../src/store/part-checksum.ts';
import { parsePartName, placedChecksum } from '../../src/store/part-name.ts';
import { cli, scratchFolder, start } from '../support/cli.ts';
import { designsKept, disturbedStudy, partFiles, tableDigests } from '../support/disturbed-study.ts';
import { whole } from '../support/nightly.ts';

/** `npm run test:nightly` asks for 200. */
const KILLS = Number(process.env.EDDYLIFT_KILLS ?? (whole ? 10 : 1));
/** Every so many kills a part is spoilt, too. */
const SPOIL_EVERY = whole ? 4 : 1;

const folder = scratchFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let undisturbed: Record<string, string | null>;
/** ms in which a run is killed; at first what the undisturbed one took. */
let duration: number;

beforeAll(async () => {
  writeFileSync(join(folder, 'study.yaml'), disturbedStudy('Disturbed'));
  const began = Date.now();
  const { code } = await cli(['run', 'study.yaml', '--out', 'undisturbed', '--quiet'], folder);
  duration = Date.now() - began;
  expect(code).toBe(0);
  undisturbed = tableDigests(join(folder, 'undisturbed'));
  expect(Object.values(undisturbed)).not.toContain(null);
});

function isSound(folder: string, name: string): boolean {
  const part = parsePartName(name)!;
  return placedChecksum(part, checksum(readFileSync(join(folder, name)))) === part.checksum;
}

function spoil(path: string, how: number): void {
  const bytes = readFileSync(path);
  if (how < 0.5) {
    truncateSync(path, Math.floor(bytes.length * how));
  } else {
    const at = Math.floor(bytes.length * (how - 0.5));
    bytes[at]! ^= 1;
    writeFileSync(path, bytes);
  }
}

describe('a run that is killed', () => {
  it(
    `at ${KILLS} random moments, its parts spoilt now and then, ends with the tables of an undisturbed one`,
    async () => {
      const random = createRandom(20260101, 0);
      let kills = 0;
      let finished = 0;
      /** Sound parts after all kills together. */
      let kept = 0;
      for (let result = 0; kills < KILLS; result++) {
        const out = `killed-${result}`;
        const place = join(folder, out);
        /** Parts whose bytes are what their name promises. */
        let sound: string[] = [];
        for (;;) {
          const { child, ended } = start(['run', 'study.yaml', '--out', out, '--quiet'], folder);
          let over = false;
          void ended.then(() => {
            over = true;
          });
          // at the end of the night what is left may run through
          if (kills < KILLS) {
            // every other from when it has finished something more, which on a busy machine takes a multiple of `duration`
            if (kills % 2 === 0) {
              const had = designsKept(place);
              while (!over && designsKept(place) <= had) await pause(5);
            }
            await Promise.race([ended, pause(random.unit() * duration)]);
            child.kill('SIGKILL');
          }
          const { code, err } = await ended;
          // what else the machine has to do changes: kills shall come neither at the start alone nor after the end
          duration *= code === 0 ? 0.7 : 1.1;
          if (code === 0) break;
          expect(code).toBeNull();
          kills++;
          // what was finished stays finished
          const parts = partFiles(place);
          expect(parts).toEqual(expect.arrayContaining(sound));
          if (err !== '')
            expect(err).toMatch(/^(eddylift: study\.yaml: part \S+ cannot be used, [^\n]+\n)+$/);
          if (kills % SPOIL_EVERY === 0 && parts.length > 0) {
            const victim = parts[random.below(parts.length)]!;
            spoil(join(place, 'parts', victim), random.unit());
          }
          // a part that was spoilt may lie there until a later run comes to it
          sound = parts.filter((name) => isSound(join(place, 'parts'), name));
          kept += sound.length;
        }
        finished++;
        expect(tableDigests(place)).toEqual(undisturbed);
        // the claim of one that was killed between its last word and its end may stay; it counts for nothing
        expect(readdirSync(place).filter((name) => name.endsWith('.tmp'))).toEqual([]);
        rmSync(place, { recursive: true });
      }
      expect(finished).toBeGreaterThan(0);
      if (whole) expect(kept).toBeGreaterThan(0);
    },
    600_000 + KILLS * 20_000,
  );
});

describe.runIf(whole).each([
  ['nelder_mead', '{nelder_mead: {starts: 8, seed: 3, levels: 3}}'],
  ['genetic', '{genetic: {population: 60, generations: 60, seed: 3}}'],
])('a search (%s) that is broken off', (kind, plan) => {
  it('hears again what it had found and ends with the tables of an undisturbed one', async () => {
    const file = `${kind}.yaml`;
    writeFileSync(join(folder, file), disturbedStudy(kind, `plan: ${plan}\n`));
    const undisturbed = await cli(
      ['run', file, '--out', `${kind}-whole`, '--quiet', '--threads', '1'],
      folder,
    );
    expect(undisturbed.err).toBe('');
    const place = join(folder, `${kind}-broken`);
    const run = ['run', file, '--out', `${kind}-broken`, '--quiet', '--threads', '1'];
    let kept = 0;
    for (const signal of ['SIGKILL', 'SIGTERM'] as const) {
      const { child, ended } = start(run, folder);
      // until it has got somewhat farther, or is done
      let done = false;
      void ended.then(() => {
        done = true;
      });
      while (!done && designsKept(place) <= kept) await pause(5);
      child.kill(signal);
      await ended;
      kept = designsKept(place);
      expect(kept).toBeGreaterThan(0);
    }
    const { code } = await cli(run, folder);
    expect(code).toBe(0);
    expect(tableDigests(place)).toEqual(tableDigests(join(folder, `${kind}-whole`)));
    const descents = (of: string) =>
      kind === 'nelder_mead' ? readFileSync(join(folder, of, 'descents.csv'), 'utf8') : '';
    expect(descents(`${kind}-broken`)).toBe(descents(`${kind}-whole`));
  });
});
