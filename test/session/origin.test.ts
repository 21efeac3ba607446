import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Origin } from '../../src/store/run-record.ts';
import { CLI, cli, scratchFolder, start } from '../support/cli.ts';
import { whole } from '../support/nightly.ts';
import { PROJECT } from '../support/source-files.ts';

const scratch = scratchFolder();
/** Another copy of the program. */
const copy = join(scratch, 'copy');
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** Changes a file of the copy; the text must be there. */
function edit(file: string, then: string, now: string): void {
  const path = join(copy, file);
  const text = readFileSync(path, 'utf8');
  expect(text).toContain(then);
  writeFileSync(path, text.replace(then, now));
}

function originOf(program: string): Origin {
  const file = pathToFileURL(join(program, 'dist/src/session/origin.js')).href;
  const script = `import(${JSON.stringify(file)}).then(({ origin }) => console.log(JSON.stringify(origin())))`;
  return JSON.parse(spawnSync(process.execPath, ['-e', script], { encoding: 'utf8' }).stdout);
}

beforeAll(() => {
  if (!whole) return;
  for (const part of ['src', 'workers', 'package.json', 'tsconfig.json', 'tsconfig.build.json']) {
    cpSync(join(PROJECT, part), join(copy, part), { recursive: true });
  }
  symlinkSync(join(PROJECT, 'node_modules'), join(copy, 'node_modules'));
  // words for those who read the code, and for those who read what it prints
  edit('src/rig/laws.ts', '\nexport ', '\n// two words\nexport ');
  edit('src/rig/judge.ts', '/** What', '/** In other words: what');
  edit('src/model/quantities.ts', "'lift-off current'", "'current at lift-off'");
  edit('src/model/status.ts', 'drive too weak', 'the drive is too weak');
  edit('src/study/shape-problems.ts', "'", "/* two words */ '");
  edit('src/model/cautions/fire.ts', ' hot', ' very hot');
  const tsc = join(PROJECT, 'node_modules/typescript/lib/tsc.js');
  const built = spawnSync(process.execPath, [tsc, '-p', 'tsconfig.build.json'], {
    cwd: copy,
    encoding: 'utf8',
  });
  expect(built.stdout + built.stderr).toBe('');
});

// a second build takes its time
describe.runIf(whole)('what rows follow from', () => {
  it('does not change with words: an unfinished run is continued', async () => {
    expect(originOf(copy)).toEqual(originOf(PROJECT));
    cpSync(join(PROJECT, 'test/fixtures/old-result/study.yaml'), join(scratch, 'small.yaml'));
    const run = ['run', 'small.yaml', '--out', 'begun', '--threads', '1'];
    // a share is an unfinished result
    expect((await start([...run, '--share', '1/1'], scratch, CLI).ended).code).toBe(0);
    const { code, out, err } = await start(run, scratch, join(copy, 'dist/src/cli.js')).ended;
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('Continuing: 14 designs there already.');
    expect((await cli(['front', 'begun'], scratch)).code).toBe(0);
  });

  it('changes with a number in a law, in the range of an input, in the size of a batch, and in the catalogue', () => {
    const then = originOf(PROJECT);
    const code = (now: Origin) => [now.code === then.code, now.catalogue === then.catalogue];
    const undo = (file: string) => {
      const text = readFileSync(join(copy, file));
      return () => writeFileSync(join(copy, file), text);
    };
    const cases = [
      ['dist/src/kernel/lift.js', /(\d)/, [false, true]],
      ['dist/src/model/inputs.js', /maximum: (\d)/, [false, true]],
      ['dist/src/plan/batch-size.js', /(\d)/, [false, true]],
      ['dist/src/model/metals.js', /e-(\d)/, [true, false]],
    ] as const;
    for (const [file, digit, expected] of cases) {
      const back = undo(file);
      const text = readFileSync(join(copy, file), 'utf8');
      const changed = text.replace(digit, (all, number) =>
        all.replace(number, String((Number(number) + 1) % 10)),
      );
      expect(changed).not.toBe(text);
      writeFileSync(join(copy, file), changed);
      expect([file, ...code(originOf(copy))]).toEqual([file, ...expected]);
      back();
    }
    expect(originOf(copy)).toEqual(then);
  });
});
