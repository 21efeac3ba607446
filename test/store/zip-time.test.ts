import { strToU8, unzipSync, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { withFixedTime } from '../../src/store/zip-time.ts';

const files = { 'a.txt': strToU8('some text'), 'inner/b.txt': strToU8('more of it'.repeat(50)) };
const made = (mtime: string) => zipSync(files, { mtime });

it('gives archives of different times the same bytes, and leaves the files in them as they are', () => {
  const [one, other] = ['2026-01-01T08:00:00', '2041-12-31T23:59:58'].map(made);
  expect(one).not.toEqual(other);
  const first = withFixedTime(one!);
  expect(first).toEqual(withFixedTime(other!));
  expect(unzipSync(first)).toEqual(files);
});

it('changes what another packer would have written with that time', () => {
  expect(withFixedTime(made('2026-01-01T08:00:00'))).toEqual(made('1980-01-01T00:00:00'));
});

it('goes past names, extra fields and comments of any length', () => {
  const extra = (mtime: string) =>
    zipSync(files, { mtime, comment: 'a remark', extra: { 7: strToU8('field') } });
  expect(withFixedTime(extra('2026-01-01T08:00:00'))).toEqual(extra('1980-01-01T00:00:00'));
});

it('refuses what is no archive', () => {
  expect(() => withFixedTime(strToU8('PK'))).toThrow('no zip archive as expected');
  expect(() => withFixedTime(new Uint8Array(100))).toThrow('no zip archive as expected');
});
