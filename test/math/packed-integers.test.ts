import { execFileSync, spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sumUp, unpackIntegers } from '../../src/math/packed-integers.ts';
import { PROJECT } from '../support/source-files.ts';

/** At both ends of what one, two, three and four letters hold. */
const VALUES = [
  0, 1, -1, 29, 30, -30, -31, 704, 705, -705, -706, 41_204, 41_205, -41_205, 151_718, 1_800_000,
];

describe('packed integers', () => {
  it('are none, one or many', () => {
    expect(unpackIntegers('')).toEqual([]);
    expect(unpackIntegers('!')).toEqual([0]);
    expect(unpackIntegers('"#$')).toEqual([-1, 1, -2]);
  });

  it('throw for a letter that is none, and where letters are missing', () => {
    expect(() => unpackIntegers('!<')).toThrow('no packed number at 1');
    expect(() => unpackIntegers('~')).toThrow('no packed number at 1');
  });

  it.skipIf(spawnSync('python3', ['--version']).status !== 0)('are what their script packs', () => {
    const script = `from packed_integers import pack; print(pack(${JSON.stringify(VALUES)}), end="")`;
    const packed = execFileSync('python3', ['-c', script], {
      cwd: join(PROJECT, 'test/fixtures'),
      encoding: 'utf8',
      env: { ...process.env, PYTHONDONTWRITEBYTECODE: '1' },
    });
    expect(unpackIntegers(packed)).toEqual(VALUES);
    expect(packed).not.toMatch(/[&'<\\]/);
  });

  it('are summed up from the value so many places before', () => {
    const values = [1, 2, 3, 4, 5];
    sumUp(values, 2);
    expect(values).toEqual([1, 2, 4, 6, 9]);
  });
});
