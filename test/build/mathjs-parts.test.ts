import { describe, expect, it } from 'vitest';
import { mathjs as parts } from '../../build/mathjs-parts.ts';
import { mathjs as whole } from '../../src/expression/mathjs.ts';

/** What the bundled program has of mathjs does what all of mathjs does, as far as it is used. */

const [some, all] = [parts(), whole()];

function prefixesAndUnits(): string[] {
  const { UNITS } = all.Unit as unknown as { UNITS: Record<string, { prefixes: Record<string, unknown> }> };
  return Object.entries(UNITS).flatMap(([unit, { prefixes }]) =>
    Object.keys(prefixes).map((prefix) => `${prefix}${unit}`),
  );
}

const factsOf = ({ Unit }: typeof all, name: string) => {
  if (!Unit.isValuelessUnit(name)) return null;
  const { units, dimensions } = new Unit(null, name);
  return [
    units.map(({ unit, prefix }) => [unit.value * prefix.value, unit.offset, prefix.name]),
    [...dimensions],
  ];
};

describe('units', () => {
  it('are the same, with every prefix', () => {
    const names = prefixesAndUnits();
    expect(names.length).toBeGreaterThan(1000);
    for (const name of [...names, 'metal', 'mm2', '', 'kk']) {
      expect([name, factsOf(some, name)]).toEqual([name, factsOf(all, name)]);
    }
  });
});

const EXPRESSIONS = [
  ...['height', '-height / current ^ 2', '3 mm', '105 degC', '2e-3 + .5 - 7.', '1e400', '0.1 + 0.2', '5 %'],
  ...['a <= 3 kg', 'a < b <= c', 'a == b', 'a != b', 'not a', 'a and b', '5!', 'a mod b', 'a to mm'],
  ...['min(height, 3 mm)', 'sqrt(2) abs(-1)', 'coil.turns + 1', 'plate.layers.0.thickness', 'f(x) = x'],
  ...['a = 3', 'a ? b : c', '[1, 2]', '{a: 1}', '1:3', 'a[1]', '"text"', 'true', 'null', 'a; b', 'a # b'],
  ...['1 mm / 2 s', '2 (3)', '2 pi', 'i', '0x10', '0b11', '1_000', "a'", 'a .* b', '3 m / s ^ 2', 'x ^ -y'],
  ...[
    '',
    ')',
    '(',
    '1 +',
    '* 2',
    '3..4',
    '1 2',
    'a b c',
    '2 ** 3',
    'a,',
    'min(',
    'min(,)',
    '1e',
    '$',
    '@',
    '&',
  ],
];

/** The tree, or how the parser words and places what is wrong. */
function readingOf({ parse }: typeof all, text: string): unknown {
  try {
    const root = parse(text);
    return [
      root.toString(),
      JSON.parse(JSON.stringify(root)),
      root.filter(() => true).map(({ type }) => type),
    ];
  } catch (error) {
    const { message, char } = error as { message: string; char?: number };
    return { message, char };
  }
}

describe('expressions', () => {
  it.each(EXPRESSIONS)('has the same tree or the same mistake: %j', (text) => {
    expect(readingOf(some, text)).toEqual(readingOf(all, text));
  });
});
