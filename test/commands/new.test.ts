import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { afterAll, describe, expect, it } from 'vitest';
import { newStudy } from '../../src/commands/new.ts';
import { DEFAULT_ANSWERS, newStudyText } from '../../src/study/new-study.ts';
import { readStudy } from '../../src/study/read-study.ts';
import { scratchFolder } from '../support/cli.ts';
import { testIo } from '../support/test-io.ts';

const scratch = scratchFolder();
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** As somebody does who wants to compare designs. */
function uncommented(text: string): string {
  return text.replace(/^# (vary:| {2}coil|limits:|objectives:)/gm, '$1');
}

function studyOf(text: string) {
  const reading = readStudy(text);
  if ('problems' in reading) throw new Error(JSON.stringify(reading.problems));
  expect(reading.warnings).toEqual([]);
  return reading.study;
}

/** Types these lines at a terminal, then ends the input. */
function typed(lines: readonly string[]) {
  const stdin = Object.assign(new PassThrough(), { isTTY: true });
  const io = testIo({ cwd: scratch });
  let next = 0;
  const write = io.stdout.write.bind(io.stdout);
  // one line after each question, as a person does
  io.stdout.write = ((text: string) => {
    if (/\] $/.test(String(text))) {
      const line = lines[next++];
      setImmediate(() => (line === undefined ? stdin.end() : stdin.write(`${line}\n`)));
    }
    return write(text);
  }) as typeof io.stdout.write;
  return { ...io, stdin };
}

describe('a new study', () => {
  it.each(['coil', 'plate', 'nothing'])(
    'is valid where %s floats, also with the lines that are comments',
    (floats) => {
      const text = newStudyText({ ...DEFAULT_ANSWERS, floats }, null);
      expect(studyOf(text).vary).toEqual([]);
      const more = studyOf(uncommented(text));
      expect(more.vary).toHaveLength(2);
      expect(more.objectives).toHaveLength(2);
      expect(more.limits.filter(({ implied }) => !implied)).toHaveLength(2);
    },
  );

  it('takes its answers into the rig', () => {
    const { rig } = studyOf(
      newStudyText(
        {
          floats: 'coil',
          supply: '120 V, 60 Hz, 15 A',
          wire: 'copper AWG 14',
          plate: 'aluminium-6082 1/4 in',
        },
        null,
      ).replace('1/4 in', '0.25 in'),
    );
    expect(rig.texts['coil.metal']).toBe('copper');
    expect(rig.texts['plate.layers.0.metal']).toBe('aluminium-6082');
  });
});

describe('eddylift new', () => {
  it('writes the study once, with the schema for editors, and never over another', async () => {
    const io = testIo({ cwd: scratch });
    expect(await newStudy('mine.yaml', { yes: true }, io)).toBe(0);
    const text = readFileSync(join(scratch, 'mine.yaml'), 'utf8');
    expect(text.split('\n')[0]).toMatch(/^# yaml-language-server: \$schema=.*study\.schema\.json$/);
    studyOf(text);
    await expect(newStudy('mine.yaml', { yes: true }, io)).rejects.toThrow(
      'mine.yaml is there already and stays as it is: name another file',
    );
    expect(readFileSync(join(scratch, 'mine.yaml'), 'utf8')).toBe(text);
  });

  it('asks at a terminal, and again where no study could hold the answer', async () => {
    const io = typed(['', '120 V 60 Hz 15 A', 'kopper 2 mm', 'copper 1.6 mm', '']);
    expect(await newStudy('asked.yaml', { yes: false }, io)).toBe(0);
    expect(io.out()).toContain('did you mean `copper`?');
    const text = readFileSync(join(scratch, 'asked.yaml'), 'utf8');
    expect(text).toContain('metal: copper');
    expect(text).toContain('wire: 1.6 mm');
    expect(text).toContain('fuse: 15 A');
    expect(text).toContain('frequency: 60 Hz');
    expect(text).toContain('metal: aluminium-1050');
  });

  it('writes nothing when the questions are broken off', async () => {
    const io = typed(['coil']);
    expect(await newStudy('broken.yaml', { yes: false }, io)).toBe(130);
    expect(() => readFileSync(join(scratch, 'broken.yaml'))).toThrow();
  });

  it('asks nothing where there is no terminal', async () => {
    expect(await newStudy('piped.yaml', { yes: false }, testIo({ cwd: scratch }))).toBe(0);
  });

  it('wants the name of a study file', async () => {
    await expect(newStudy('mine.txt', { yes: true }, testIo({ cwd: scratch }))).rejects.toThrow(
      'mine.txt: wanted the name of a study file, such as coil.yaml',
    );
  });
});
