import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { JOINED, seal } from '../../build/cached-code.ts';
import { copiedProgram } from '../support/copied-program.ts';
import { PROJECT } from '../support/source-files.ts';

/** `check` and `card` out of one script with what V8 kept of it, and file by file where that is of no use. */

const program = copiedProgram();

const STUDY = join(PROJECT, 'studies/metal-and-turns.yaml');
const CHECK = ['check', STUDY];
const CARD = ['card', STUDY, '--design', '496', '--json'];
const PAGE = ['card', STUDY, '--design', '496', '--html'];
const REFUSED = ['card', STUDY, '--design', '4960'];
const script = join(program, `${JOINED}.cjs`);
const isCode = (name: string) => name.startsWith(JOINED) && name.endsWith('.cache');
// its name says V8's flags, and this process may have others by now
const code = join(program, readdirSync(program).find(isCode)!);

/** What commands print and how they end. */
function answers(commands: readonly string[][], flags: readonly string[] = [], debug = '0') {
  return commands.map((args) => {
    const { stdout, stderr, status } = spawnSync(
      process.execPath,
      [...flags, join(program, 'cli.js'), ...args],
      // a test cannot break off what it waits for like this
      {
        encoding: 'utf8',
        env: { ...process.env, EDDYLIFT_DEBUG: debug },
        timeout: 600_000,
        killSignal: 'SIGKILL',
      },
    );
    return { stdout, stderr, status };
  });
}

/** The same with other files in place of script and compiled code; null: as built. */
function answersWith(
  { text = null, compiled = null }: { text?: string | null; compiled?: Uint8Array | null },
  ...rest: Parameters<typeof answers>
) {
  const kept = { text: readFileSync(script), compiled: readFileSync(code) };
  if (text !== null) writeFileSync(script, text);
  if (compiled !== null) writeFileSync(code, compiled);
  try {
    return answers(...rest);
  } finally {
    writeFileSync(script, kept.text);
    writeFileSync(code, kept.compiled);
  }
}

/** With 64 bytes turned over, at a share of its length. */
function spoiled(bytes: Uint8Array, share: number): Uint8Array {
  const from = Math.floor(share * (bytes.length - 64));
  return bytes.map((byte, i) => (i >= from && i < from + 64 ? byte ^ 0xff : byte));
}

/** Whoever runs it fails. */
const BROKEN = "throw new Error('the script was run')";
const KEEP = `process.stdout.write(new (require('node:vm').Script)(${JSON.stringify(BROKEN)}).createCachedData())`;
const BROKEN_CODE = seal(Buffer.from(BROKEN), spawnSync(process.execPath, ['-e', KEEP]).stdout);

describe('commands with compiled code', () => {
  const compiled = readFileSync(code);
  rmSync(code);
  const files = answers([CHECK, CARD, PAGE, REFUSED]);
  writeFileSync(code, compiled);

  it('print what they print file by file', () => {
    expect(files.map(({ status }) => status)).toEqual([0, 0, 0, 2]);
    expect(answers([CHECK, CARD, PAGE, REFUSED])).toEqual(files);
  });

  it('come out of the script where its code is what this Node made', () => {
    const [check, card, page] = answersWith({ text: BROKEN, compiled: BROKEN_CODE }, [CHECK, CARD, PAGE]);
    expect(check!.stderr).toContain('the script was run');
    expect(card!.stderr).toContain('the script was run');
    // charts are loaded file by file
    expect(page).toEqual(files[2]);
  });

  it('have code that V8 takes', () => {
    const source = readFileSync(script, 'latin1');
    const take = `const [script, code] = process.argv.slice(1).map((path) => require('node:fs').readFileSync(path));
      const cachedData = code.subarray(0, -4);
      const { cachedDataRejected } = new (require('node:vm').Script)(script.toString('latin1'), { cachedData });
      process.stdout.write(String(cachedDataRejected));`;
    writeFileSync(code, compiled);
    expect(spawnSync(process.execPath, ['-e', take, script, code], { encoding: 'utf8' }).stdout).toBe(
      'false',
    );
    expect([...source].every((letter) => letter < '\u0080')).toBe(true);
  });

  it('come file by file with other flags of V8, and for whoever asks for stacks', () => {
    const broken = { text: BROKEN, compiled: BROKEN_CODE };
    expect(answersWith(broken, [CHECK], ['--max-lazy'])).toEqual([files[0]]);
    expect(answersWith(broken, [CHECK], [], '1')).toEqual([files[0]]);
  });

  it('load no cryptography until asked for a hash', () => {
    const print =
      "data:text/javascript,process.on('exit',()=>process._rawDebug(process.moduleLoadList.join('\\n')))";
    const loaded = (args: string[]) =>
      answers([args], ['--import', print])[0]!
        .stderr.split('\n')
        .filter((line) => line === 'NativeModule crypto');
    expect(loaded(CHECK)).toEqual([]);
    expect(loaded(CARD.slice(0, -1))).toEqual([]);
    expect(loaded(CARD)).toEqual(['NativeModule crypto']);
  });

  it.each([
    ['empty', new Uint8Array(0)],
    ['cut off', compiled.subarray(0, compiled.length / 2)],
    ['that of another script', BROKEN_CODE],
    ['spoiled near its beginning', spoiled(compiled, 1 / 60)],
    ['spoiled in the middle', spoiled(compiled, 15 / 60)],
    ['spoiled in its checksum', spoiled(compiled, 1)],
  ])('come file by file where the code is %s', (_, wrong) => {
    expect(answersWith({ compiled: wrong }, [CHECK])).toEqual([files[0]]);
  });

  it('come file by file where the script is another of the same length', () => {
    const text = BROKEN.replace('was', 'is ');
    expect(answersWith({ text, compiled: BROKEN_CODE }, [CHECK])).toEqual([files[0]]);
  });
});
