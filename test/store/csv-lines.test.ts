import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createRandom, type Random } from '../../src/math/random.ts';
import { createCsvLines } from '../../src/store/csv-lines.ts';
import { CSV_LINES_SOURCE } from '../../src/store/csv-lines-wasm.ts';
import { nightly } from '../support/nightly.ts';

/** Each number on a line of its own. */
function printed(values: ArrayLike<number>): string[] {
  const lines = createCsvLines([null]);
  lines.begin();
  for (let start = 0; start < values.length; start += lines.stride) {
    const rows = Math.min(lines.stride, values.length - start);
    for (let i = 0; i < rows; i++) lines.cells(0)[1 + i] = values[start + i]!;
    lines.write(rows);
  }
  return Buffer.from(lines.bytes()).toString('latin1').split('\n').slice(0, -1);
}

/** Any double: of all bits, of few decimal places, near powers of two and of ten. */
function anyDouble(random: Random): number {
  const bits = new DataView(new ArrayBuffer(8));
  const kind = random.below(5);
  if (kind === 0) {
    bits.setUint32(0, random.below(2 ** 32));
    bits.setUint32(4, random.below(2 ** 32));
    return bits.getFloat64(0);
  }
  if (kind === 1) return Number((1000 * random.unit()).toFixed(random.below(7)));
  const base = kind === 2 ? 2 ** (random.below(2098) - 1074) : Number(`1e${random.below(632) - 323}`);
  bits.setFloat64(0, base);
  // up to three steps of the last place away
  if (kind === 4) bits.setInt32(4, bits.getInt32(4) + random.below(7) - 3);
  return random.below(2) === 0 ? bits.getFloat64(0) : -bits.getFloat64(0);
}

describe('createCsvLines', () => {
  it('prints what String prints', () => {
    const special = [
      ...[0, -0, 1, -1, 10, 100, 0.1, 0.5, 1.5, 4.35, 2 / 3, 123.456],
      ...[1e20, 1e21, 1e22, 1e23, 123456789012345680000, 1.2345678901234568e21],
      ...[1e-5, 1e-6, 1e-7, 1.234e-6, 1.234e-7, -1.2345678901234567e-6, -1e-6 + 2 ** -72],
      ...[2 ** 53, 2 ** 53 + 2, 2 ** 60, 2 ** 63, 9007199254740991, 5e-324, Number.MAX_VALUE, 2 ** -1022],
      // hard ones for shortest digits: halfway cases and wide gaps below a power of two
      ...[
        9.5367431640625e-7,
        2.225073858507201e-308,
        4.8726570057e288,
        2 ** -44,
        2 ** 100,
        2 ** -1000,
        1.7e308,
      ],
      // the point in each place, and in none
      ...Array.from({ length: 40 }, (_, i) => Number(`1.2345678901234567e${i - 15}`)),
      ...Array.from({ length: 40 }, (_, i) => Number(`-9.87654e${i - 15}`)),
    ];
    expect(printed(special)).toEqual(special.map(String));
  });

  it('prints any double as String does', () => {
    const random = createRandom(1);
    for (let round = nightly ? 200 : 4; round > 0; round--) {
      const values = Array.from({ length: 50_000 }, () => anyDouble(random)).filter(Number.isFinite);
      const found = printed(values);
      // one comparison a round: an expectation each would take minutes
      const wrong = values.findIndex((value, i) => found[i] !== String(value));
      expect(wrong < 0 ? '' : `${found[wrong]} for ${values[wrong]}`).toBe('');
    }
  });

  it('writes texts by code, INF, empty cells and what stands above', () => {
    const lines = createCsvLines([['', 'drive too weak', 'ü'], null]);
    lines.begin();
    lines.cells(0).set([1, 1, 2, 0], 1);
    lines.cells(1).set([0.1, 0.1, Number.NEGATIVE_INFINITY, Number.NaN], 1);
    lines.write(4);
    lines.cells(0).set([0], 1);
    lines.cells(1).set([Number.POSITIVE_INFINITY], 1);
    lines.write(1);
    expect(Buffer.from(lines.bytes()).toString()).toBe(
      'drive too weak,0.1\ndrive too weak,0.1\nü,-INF\n,\n,INF\n',
    );
    lines.begin();
    lines.cells(0).set([2], 1);
    lines.cells(1).set([Number.POSITIVE_INFINITY], 1);
    lines.write(1);
    expect(Buffer.from(lines.bytes()).toString()).toBe('ü,INF\n');
  });

  it('was compiled from the source as it is', () => {
    const source = readFileSync(new URL('../../assembly/csv-lines.ts', import.meta.url));
    expect(createHash('sha256').update(source).digest('hex')).toBe(CSV_LINES_SOURCE);
  });
});
