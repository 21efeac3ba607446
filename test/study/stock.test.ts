import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { SLOT } from '../../src/model/inputs.ts';
import { Q, type QuantityName } from '../../src/model/quantities.ts';
import { REASONS } from '../../src/model/status.ts';
import type { Study } from '../../src/model/study.ts';
import { createEvaluator } from '../../src/rig/evaluate.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { includeFitted, includeStock, stockFile } from '../../src/study/include-files.ts';
import { readStudy } from '../../src/study/read-study.ts';

/** Past 300 lines: every case reads the same rig with another stock file. */
const FOYER = readFileSync(new URL('../fixtures/foyer-table.yaml', import.meta.url), 'utf8');
const bytes = (text: string) => new TextEncoder().encode(text);

/** One rig of 440 turns, 8 layers of 2 mm aluminium over a disc of 1050, with a stock file. */
function study(changes: readonly [string, string][], stock: string, vary = 'coil.turns: [440]'): string {
  let text = FOYER.replace(/vary:\n(?: {2}.*\n)+/, `vary:\n  ${vary}\nstock: rack.yaml\n`).replace(
    /^limits: .*$/m,
    'limits: [current <= 16 A]',
  );
  for (const [from, to] of changes) {
    if (!text.includes(from)) throw new Error(`no ${from}`);
    text = text.replace(from, to);
  }
  const whole = includeStock(stockFile(bytes(text))!, bytes(stock));
  if ('problems' in whole) throw new Error(drawProblems('rack.yaml', stock, whole.problems));
  return whole.text;
}

function read(text: string): Study {
  const result = readStudy(text);
  if ('problems' in result) throw new Error(drawProblems('study.yaml', text, result.problems));
  return result.study;
}

/** Every combination of levels would do; here the first of each axis but those given. */
function row(of: Study, levels: readonly number[] = []) {
  const values = Float64Array.from(of.vary, (one, v) =>
    one.kind === 'choice' ? (levels[v] ?? 0) : one.levels[levels[v] ?? 0]!,
  );
  const rows = createEvaluator(of)({ first: 0, count: 1, values });
  const cost = (name: QuantityName) => rows.quantities[Q[name]]!;
  return { cost, feasible: rows.feasible[0], reason: REASONS[rows.reason[0]!]!.key };
}

const FROM_STOCK: [string, string][] = [['wire: 2.0 mm', 'wire: from stock']];
const reel = (rest: string) =>
  `currency: EUR\nreels:\n  - {metal: aluminium, wire: 2 mm, insulation: grade 2, ${rest}}\n`;

describe('wire from stock', () => {
  it('weighs and measures what the winding does, with its waste, in whole reels', () => {
    const plain = row(read(study(FROM_STOCK, reel('mass: 20 kg, price: 15 EUR/kg'))));
    const length = plain.cost('wire_length');
    expect(plain.feasible).toBe(1);
    expect(plain.cost('wire_to_buy')).toBeCloseTo(20, 12);
    expect(plain.cost('wire_cost')).toBeCloseTo(300, 10);
    // by length: one reel of 400 m holds the 299 m; its mass is that of the winding's wire
    const byLength = row(read(study(FROM_STOCK, `waste: 5 %\n${reel('length: 400 m, price: 0.3 EUR/m')}`)));
    expect(byLength.cost('stock_use')).toBeCloseTo((1.05 * length) / 400, 12);
    expect(byLength.cost('wire_cost')).toBeCloseTo(120, 10);
  });

  it('that no reel holds is infeasible, and says so; joined reels may hold it', () => {
    const short = row(read(study(FROM_STOCK, reel('length: 200 m, reels: 5, price: 9 EUR/piece'))));
    expect([short.feasible, short.reason]).toEqual([0, 'shortReel']);
    expect(short.cost('stock_use')).toBeCloseTo(short.cost('wire_length') / 200, 12);
    const joined = row(
      read(study(FROM_STOCK, reel('length: 200 m, reels: 5, joined: true, price: 9 EUR/piece'))),
    );
    expect([joined.feasible, joined.reason]).toEqual([1, 'none']);
    expect(joined.cost('wire_cost')).toBe(18);
    const tooFew = row(read(study(FROM_STOCK, reel('length: 200 m, joined: true'))));
    expect([tooFew.feasible, tooFew.reason]).toEqual([0, 'shortReel']);
  });

  it('of two wires in hand takes both off one reel where it holds them', () => {
    const two: [string, string][] = [
      ...FROM_STOCK,
      ['turns: 440', 'turns: 220'],
      ['strands: 1', 'strands: 2'],
    ];
    const text = (rest: string) => study(two, reel(rest), 'coil.layers: [8]');
    const one = row(read(text('length: 400 m, price: 10 EUR/piece')));
    expect(one.cost('wire_cost')).toBe(10);
    const each = row(read(text('length: 200 m, reels: 2, price: 10 EUR/piece')));
    expect([each.feasible, each.cost('wire_cost')]).toEqual([1, 20]);
    const lacking = row(read(text('length: 200 m, price: 10 EUR/piece')));
    expect([lacking.feasible, lacking.cost('stock_use')]).toEqual([0, 2]);
  });

  it('brings metal, diameter and enamel of each reel; the rig may ask for one metal', () => {
    const two = `currency: EUR\nreels:\n  - {metal: aluminium, wire: 2 mm, insulation: grade 2, mass: 9 kg}\n  - {metal: Cu-ETP, wire: 1.25 mm, insulation: grade 1, mass: 9 kg}\n`;
    const any = read(
      study([...FROM_STOCK, ['    metal: aluminium\n', ''], ['    insulation: grade 2\n', '']], two),
    );
    const [first] = any.vary;
    if (first?.kind !== 'choice') throw new Error('no choice');
    expect(first.levels.map(({ label }) => label)).toEqual([
      'aluminium 2 mm grade 2',
      'copper 1.25 mm grade 1',
    ]);
    expect(new Map(first.levels[1]!.settings).get(SLOT.wire)).toBe(0.00125);
    const asked = read(study(FROM_STOCK, two)).vary[0];
    expect(asked?.levels).toHaveLength(1);
  });
});

describe('reels of a coil of several windings', () => {
  const RIG = `study: Two windings
rig:
  floats: plate
  coil:
    COIL
    windings:
      - {inner_radius: 30 mm, turns: 480, layers: 24, FIRST}
      - {inner_radius: 80 mm, turns: 240, layers: 24, sense: -1, SECOND}
  plate: PLATE
  standoff: 4 mm
  supply: {frequency: 50 Hz}
stock: rack.yaml
drive: {current: 10 A}
`;
  const text = (coil: string, first: string, second: string, stock: string, plate?: string) => {
    const source = RIG.replace('COIL', coil)
      .replace('FIRST', first)
      .replace('SECOND', second)
      .replace('PLATE', plate ?? '{metal: aluminium-1050, thickness: 3 mm, radius: 80 mm}')
      .replaceAll(', }', '}');
    const whole = includeStock(stockFile(bytes(source))!, bytes(stock));
    if ('problems' in whole) throw new Error(drawProblems('rack.yaml', stock, whole.problems));
    return read(whole.text);
  };
  const copper = 'insulation: grade 2, wire: 1.6 mm';
  /** Wire of each, m: 2 pi x mean radius x turns; 20 and 10 turns a layer of 1.706 mm. */
  const [inner, outer] = [
    2 * Math.PI * (0.03 + (20 * 1.706e-3) / 2) * 480,
    2 * Math.PI * (0.08 + (10 * 1.706e-3) / 2) * 240,
  ];

  it('are cut for each winding by itself: one that holds either need not hold both', () => {
    const from = (rest: string) =>
      row(
        text('wire: from stock', '', '', `currency: EUR\nreels:\n  - {metal: copper, ${copper}, ${rest}}\n`),
      );
    const one = from(`length: ${inner + outer + 1} m, price: 50 EUR/piece`);
    expect([one.feasible, one.cost('wire_cost')]).toEqual([1, 50]);
    const each = from('length: 160 m, reels: 2, price: 50 EUR/piece');
    expect(Math.max(inner, outer)).toBeLessThan(160);
    expect(inner + outer).toBeGreaterThan(160);
    expect([each.feasible, each.cost('wire_cost')]).toEqual([1, 100]);
    const lacking = from('length: 160 m, price: 50 EUR/piece');
    expect([lacking.feasible, lacking.reason, lacking.cost('stock_use')]).toEqual([0, 'shortReel', 2]);
  });

  it('may differ: a winding chooses a reel for itself, and shares one that both take', () => {
    const stock = `currency: EUR
reels:
  - {metal: copper, ${copper}, length: 320 m, price: 90 EUR/piece}
  - {metal: aluminium, insulation: grade 2, wire: 1.8 mm, length: 320 m, price: 40 EUR/piece}
`;
    const both = text('thermal_class: 155 degC', 'wire: from stock', 'wire: from stock', stock);
    expect(both.vary.map(({ path, levels }) => [path, levels.length])).toEqual([
      ['coil.windings.0.wire', 2],
      ['coil.windings.1.wire', 2],
    ]);
    expect(row(both, [0, 1]).cost('wire_cost')).toBe(130);
    expect(row(both, [1, 1]).cost('wire_cost')).toBe(40);
    const shared = row(both, [0, 0]);
    expect([shared.feasible, shared.cost('wire_cost')]).toEqual([1, 90]);
    // what a winding says of its metal is asked for; what it leaves out, the coil says
    const asked = text('metal: aluminium', 'wire: from stock', 'wire: from stock, metal: copper', stock);
    expect(asked.vary.map(({ levels }) => levels.length)).toEqual([1, 1]);
    expect(row(asked).cost('wire_cost')).toBe(130);
  });

  it('are ordered by the metal of each winding; without a price the cost is empty, and says which', () => {
    const stock = `currency: EUR
prices:
  wire: [{metal: copper, price: 20 EUR/kg}, {metal: aluminium, price: 10 EUR/m}]
`;
    const mixed = (second: string) =>
      text(`metal: copper, ${copper}`.replaceAll(', ', '\n    '), '', second, stock);
    const plain = row(mixed(''));
    expect(plain.cost('wire_cost')).toBeCloseTo(20 * plain.cost('wire_to_buy'), 9);
    const wound = row(mixed('metal: aluminium'));
    const copperMass = plain.cost('wire_to_buy') * (inner / (inner + outer));
    expect(wound.cost('wire_cost')).toBeCloseTo(20 * copperMass + 10 * outer, 6);
    const brass = mixed(
      'metal: {resistivity: 7e-8, temperature_coefficient: 0.002, density: 8500, specific_heat: 380}',
    );
    expect(row(brass).cost('wire_cost')).toBeNaN();
    expect(brass.stock?.unpriced).toContain('wire of custom');
  });

  it('leave a plate of layers to its prices by metal, each layer what it weighs', () => {
    const stock = (plate: string) => `currency: EUR\nprices:\n  plate: [${plate}]\n`;
    const layers =
      '{radius: 80 mm, layers: [{metal: aluminium-1050, thickness: 3 mm}, {metal: copper, thickness: 1 mm}]}';
    const coil = `metal: copper\n    ${copper.replace(', ', '\n    ')}`;
    const two = '{metal: aluminium-1050, price: 9 EUR/kg}, {metal: copper, price: 400 EUR/m2}';
    const priced = row(text(coil, '', '', stock(two), layers));
    // each is cut from a square of 160 mm
    expect(priced.cost('plate_cost')).toBeCloseTo(0.16 ** 2 * (9 * 2710 * 3e-3 + 400), 9);
    const half = text(coil, '', '', stock('{metal: aluminium-1050, price: 9 EUR/kg}'), layers);
    expect(row(half).cost('plate_cost')).toBeNaN();
    expect(half.stock?.unpriced).toContain('plate of copper');
  });
});

describe('plates and the rest from stock', () => {
  const plates = (rest: string) =>
    `currency: EUR\nplates:\n  - {metal: EN AW-1050A, thickness: 8 mm, ${rest}}\nextras:\n  - {name: posts, price: 20 EUR/piece}\n`;
  const PLATE: [string, string][] = [['thickness: 12 mm', 'thickness: from stock']];

  it('are the sheet as it lies there, or what is cut from it', () => {
    const whole = read(study(PLATE, plates('square: 800 mm, price: 60 EUR/piece')));
    expect(
      new Map(whole.vary[0]!.kind === 'choice' ? whole.vary[0]!.levels[0]!.settings : []).get(
        SLOT.plateSquare,
      ),
    ).toBe(0.8);
    expect(row(whole).cost('plate_cost')).toBe(60);
    // a disc of 200 mm radius is cut from a square of 400 mm
    const disc: [string, string][] = [['thickness: 12 mm', 'thickness: from stock\n    radius: 200 mm']];
    const cut = row(read(study(disc, plates('square: 800 mm, price: 100 EUR/m2'))));
    expect(cut.cost('plate_cost')).toBeCloseTo(16, 10);
    expect(cut.cost('stock_use')).toBeCloseTo(0.5, 12);
    const small = row(read(study(disc, plates('square: 300 mm, price: 60 EUR/piece'))));
    expect([small.feasible, small.reason]).toEqual([0, 'smallSheet']);
  });

  it('add up to the cost of the rig, which is empty where one has no price', () => {
    const stock = `${plates('square: 800 mm, price: 60 EUR/piece')}prices:\n  wire: [{metal: aluminium, price: 10 EUR/kg}]\n`;
    const priced = row(read(study(PLATE, stock)));
    expect(priced.cost('rig_cost')).toBeCloseTo(priced.cost('wire_cost') + 60 + 20, 10);
    const unpriced = read(study(PLATE, plates('square: 800 mm, price: 60 EUR/piece')));
    expect(row(unpriced).cost('rig_cost')).toBeNaN();
    expect(unpriced.stock?.unpriced).toEqual(['wire of aluminium']);
  });

  it('may be limited in the currency of the file, and in no other', () => {
    const stock = `${plates('square: 800 mm, price: 60 EUR/piece')}prices:\n  wire: [{metal: aluminium, price: 10 EUR/kg}]\n`;
    const limit = (text: string): [string, string] => ['current <= 16 A', text];
    const one = read(study([...PLATE, limit('rig_cost <= 60 EUR')], stock));
    expect(one.limits[0]!.text).toBe('rig_cost <= 60 EUR');
    expect(row(one).feasible).toBe(0);
    expect(row(read(study([...PLATE, limit('rig_cost <= 600 EUR')], stock))).feasible).toBe(1);
    const foreign = study([...PLATE, limit('rig_cost <= 60 USD')], stock);
    const refused = readStudy(foreign);
    expect('problems' in refused && refused.problems[0]!.wanted).toBe(
      'an amount in EUR, the currency of the stock file; or a known name',
    );
  });
});

describe('a bad stock file', () => {
  const told = (stock: string): string => {
    const named = stockFile(bytes('study: x\nstock: rack.yaml\n'))!;
    const whole = includeStock(named, bytes(stock));
    if (!('problems' in whole)) throw new Error('accepted');
    return drawProblems('rack.yaml', stock, whole.problems);
  };

  it('is told what it lacks, with line and caret', () => {
    expect(
      told(`currency: EUR
reels:
  - {wire: 2 mm, insulation: grade 2, mass: 5 kg, price: 14 EUR/kg}
  - {metal: copper, wire: 2 mm, insulation: grade 2, mass: 5 kg, price: 14}
  - {metal: copper, wire: 2 mm, insulation: grade 2, mass: 5 kg, price: 14 EUR}
plates:
  - {metal: aluminum-1055, thickness: 8 mm, price: 20 EUR/piece}
fuses:
  - {rating: 16 A, price: 2 EUR/kg}
`),
    ).toMatchInlineSnapshot(`
      "rack.yaml:3:5: found no \`metal\`; wanted \`metal\`: the name of a metal, or its resistivity or conductivity, temperature_coefficient, density and specific_heat, or a family that these are usual of
        3 |   - {wire: 2 mm, insulation: grade 2, mass: 5 kg, price: 14 EUR/kg}
          |     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^

      rack.yaml:4:73: found \`14\`; wanted a price with its currency and what it is for: 12 EUR/kg or 12 EUR/m or 12 EUR/piece
        4 |   - {metal: copper, wire: 2 mm, insulation: grade 2, mass: 5 kg, price: 14}
          |                                                                         ^^

      rack.yaml:5:73: found \`14 EUR\`; wanted a price with its currency and what it is for: 12 EUR/kg or 12 EUR/m or 12 EUR/piece
        5 |   - {metal: copper, wire: 2 mm, insulation: grade 2, mass: 5 kg, price: 14 EUR}
          |                                                                         ^^^^^^

      rack.yaml:7:13: found \`aluminum-1055\` is not in the catalogue of metals; wanted one of copper, aluminium, aluminium-1050, aluminium-5083, aluminium-6060, aluminium-6061, aluminium-6082, brass, stainless-304, stainless-430, mild-steel; did you mean \`aluminium-1050\`?
        7 |   - {metal: aluminum-1055, thickness: 8 mm, price: 20 EUR/piece}
          |             ^^^^^^^^^^^^^

      rack.yaml:9:27: found \`2 EUR/kg\`; wanted a price with its currency and what it is for: 12 EUR/piece
        9 |   - {rating: 16 A, price: 2 EUR/kg}
          |                           ^^^^^^^^"
    `);
  });

  it('has one currency, named once', () => {
    const two = 'currency: EUR\nfuses:\n  - {rating: 16 A, price: 2 USD/piece}\n';
    expect(told(two)).toMatchInlineSnapshot(`
      "rack.yaml:3:27: found \`2 USD/piece\` in a file whose currency is EUR; wanted a price in EUR: a file has one currency
        3 |   - {rating: 16 A, price: 2 USD/piece}
          |                           ^^^^^^^^^^^"
    `);
    expect(told('fuses:\n  - {rating: 16 A, price: 2 USD/piece}\n')).toMatchInlineSnapshot(`
      "rack.yaml:2:27: found \`2 USD/piece\` in a file that names no currency; wanted \`currency: USD\` at its head
        2 |   - {rating: 16 A, price: 2 USD/piece}
          |                           ^^^^^^^^^^^"
    `);
  });

  it('says how much is on a reel', () => {
    expect(told('reels:\n  - {metal: copper, wire: 2 mm, insulation: grade 2}\n')).toMatchInlineSnapshot(`
      "rack.yaml:2:5: found a reel without mass or length; wanted the mass or the length of what is on it
        2 |   - {metal: copper, wire: 2 mm, insulation: grade 2}
          |     ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^"
    `);
  });
});

describe('a study and its stock', () => {
  it('is refused where what is asked for is not there, or varies besides', () => {
    const text = study(FROM_STOCK, 'currency: EUR\nfuses:\n  - {rating: 16 A}\n');
    const result = readStudy(text);
    expect('problems' in result && result.problems.map(({ code }) => code)).toEqual(['not-in-stock']);
    const both = readStudy(study(FROM_STOCK, reel('mass: 5 kg'), 'coil.metal: [copper, aluminium]'));
    expect('problems' in both && both.problems.map(({ code }) => code)).toEqual(['stock-twice']);
  });

  it('takes a conductivity and a family for a metal, and says what it assumed', () => {
    const metal: [string, string] = [
      'metal: aluminium-1050',
      'metal: {name: mystery, family: aluminium, conductivity: 43 %IACS}',
    ];
    const { rig, assumed } = read(study([metal], 'currency: EUR\n'));
    expect(1 / rig.slots[SLOT.plateLayers]!).toBeCloseTo(0.43 * 58e6, 0);
    expect(assumed).toEqual([
      "Metal 'mystery': temperature coefficient, density, specific heat, relative permeability as usual of aluminium, not measured or from a data sheet.",
    ]);
  });
});

describe('a stock file that cannot be read', () => {
  const wrong = (file: Uint8Array, include = includeStock) => {
    const text = `stock: rack.yaml\ncalibrated: fitted.yaml\n`;
    const read = include(stockFile(bytes(text))!, file);
    return 'problems' in read ? read.problems.map(({ found, wanted }) => `${found}; ${wanted}`) : [];
  };

  it.each([
    ['no text', Uint8Array.of(0x63, 0, 0x64), 'a NUL byte: a binary file; a stock file: YAML text in UTF-8'],
    ['not UTF-8', Uint8Array.of(0x63, 0xff), 'bytes that are not UTF-8; a stock file: YAML text in UTF-8'],
    ['empty', bytes('\n'), 'an empty file; what is in the store: `reels:`, `plates:`, `fuses:`'],
    ['a list', bytes('- 1'), 'a file that is no mapping; keys such as `reels:`, `plates:`, `fuses:`'],
  ])('is called a stock file: %s', (_, file, message) => {
    expect(wrong(file)).toEqual([message]);
  });

  it('and one of fitted inputs is called that', () => {
    expect(wrong(Uint8Array.of(0), includeFitted)[0]).toMatch(/; a file of fitted inputs: YAML text/);
  });
});
