import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { INPUTS, LAYER_SLOTS, LAYER_THICKNESS, METAL_SLOTS, SLOT } from '../../src/model/inputs.ts';
import { awgDiameter } from '../../src/model/wires.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { type ReadStudy, readStudy } from '../../src/study/read-study.ts';

/** Past 300 lines: one part of the study file after the other, as its reader is asked in one piece. */

const FOYER = readFileSync(new URL('../fixtures/foyer-table.yaml', import.meta.url), 'utf8');

/** The foyer table with pieces of its text replaced; each must be there. */
function foyer(...replacements: [from: string, to: string][]): string {
  return replacements.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`no ${from}`);
    return text.replace(from, to);
  }, FOYER);
}

function read(text: string | Uint8Array, options = {}): ReadStudy {
  const result = readStudy(text, options);
  if ('problems' in result) throw new Error(drawProblems('study.yaml', text, result.problems));
  return result;
}

function slot(text: string, index: number): number {
  return read(text).study.rig.slots[index]!;
}

function codes(text: string): string[] {
  const result = readStudy(text);
  return 'problems' in result ? result.problems.map((problem) => problem.code) : [];
}

/** Levels of the only varied key. */
function levels(vary: string): readonly unknown[] {
  const text = FOYER.replace(/vary:\n(?: {2}.*\n)+/, `vary:\n  ${vary}\n`);
  const [one] = read(text).study.vary;
  return one!.kind === 'number' ? [...one!.levels] : one!.levels.map((level) => level.label);
}

describe('the study of the foyer table', () => {
  const { study } = read(FOYER);

  it('has its title, notes, text and hash', () => {
    expect(study.title).toBe('Which metal and how many turns for the foyer table?');
    expect(study.notes).toBe(
      'The old coil is copper and too heavy for its frame.\nPlate and supply stay as they are.',
    );
    expect(study.text).toBe(FOYER);
    expect(study.hash).toMatch(/^[0-9a-f]{64}$/);
    expect(read(foyer(['12 A', '13 A'])).study.hash).not.toBe(study.hash);
  });

  it('holds its rig in SI', () => {
    const { slots, plateLayers, texts } = study.rig;
    expect(plateLayers).toBe(1);
    const expected: [number, number][] = [
      [SLOT.floats, 0],
      [SLOT.wire, 0.002],
      [SLOT.strands, 1],
      [SLOT.insulationGrade, 2],
      [SLOT.thermalClass, 403.15],
      [SLOT.layers, 8],
      [SLOT.innerRadius, 0.05],
      [SLOT.coilTemperature, 295.15],
      [SLOT.coilExtraMass, 0.15],
      [SLOT.plateLayers, 2.82e-8],
      [SLOT.standoff, 0.002],
      [SLOT.standoffBreakdown, 2e7],
      [SLOT.frequency, 50],
      [SLOT.fuseRating, 16],
      [SLOT.seriesCapacitance, 300 / 1e6],
      [SLOT.surroundings, 295.15],
      [SLOT.visitorDistance, 0.6],
      [SLOT.driveCurrent, 12],
    ];
    for (const [index, si] of expected) expect(slots[index], INPUTS[index]!.path).toBe(si);
    expect(texts).toEqual({
      floats: 'coil',
      'coil.insulation': 'grade 2',
      'plate.layers.0.metal': 'aluminium-1050',
      'supply.fuse.kind': 'gG',
      'supply.fuse.side': 'line',
    });
  });

  it('leaves what varies and what is not given out of the rig', () => {
    for (const index of [SLOT.turns, SLOT.coilMetal, SLOT.insulationThickness, SLOT.sectionHeight])
      expect(study.rig.slots[index], INPUTS[index]!.path).toBeNaN();
  });

  it('varies in the order of the file, under the names of tables', () => {
    expect(study.vary.map(({ column, levels }) => [column, levels.length])).toEqual([
      ['coil_metal', 2],
      ['coil_turns', 6],
      ['plate_thickness_mm', 4],
    ]);
    const backwards = foyer([
      '  coil.metal: [aluminium, copper]\n  coil.turns: {from: 320, to: 520, step: 40}\n',
      '  coil.turns: {from: 320, to: 520, step: 40}\n  coil.metal: [aluminium, copper]\n',
    ]);
    expect(read(backwards).study.vary.map(({ column }) => column)).toEqual([
      'coil_turns',
      'coil_metal',
      'plate_thickness_mm',
    ]);
  });

  it('has compiled expressions with their units', () => {
    expect(study.derive.map(({ column }) => column)).toEqual(['height_per_ampere_mm_per_A', 'loss_W']);
    expect(study.limits.map(({ text }) => text)).toEqual([
      'current <= 16 A',
      'coil_mass <= 3 kg',
      'loss <= 500 W',
      // the study's supply has limits, so a drive must keep to them
      'supply_loading <= 1',
    ]);
    expect(study.objectives.map(({ sense, unit }) => [sense, unit.symbol])).toEqual([
      ['maximise', 'mm/A'],
      ['minimise', 'kg'],
    ]);
    expect(study.keep).toEqual(['liftoff_current', 'height', 'coil_mass', 'height_per_ampere']);
  });

  it('is frozen to the bottom', () => {
    expect(Object.isFrozen(study.vary[0]?.levels)).toBe(true);
    expect(Object.isFrozen(study.limits[0]?.left[0])).toBe(true);
  });

  it('is the same from bytes, with a byte order mark, and with Windows line ends', () => {
    expect(read(new TextEncoder().encode(FOYER)).study.hash).toBe(study.hash);
    for (const text of [`\ufeff${FOYER}`, FOYER.replaceAll('\n', '\r\n')])
      expect(read(text).study.vary).toEqual(study.vary);
  });

  it('can say where each input stands', () => {
    const { locate } = read(FOYER);
    const at = (path: string) => {
      const { offset, length } = locate(path);
      return FOYER.slice(offset, offset + length);
    };
    expect(at('coil.turns')).toBe('coil.turns');
    expect(at('plate.layers.0.thickness')).toBe('plate.thickness');
    expect(at('coil.metal.density')).toBe('coil.metal');
    expect(at('coil.wire')).toBe('2.0 mm');
    expect(at('coil.insulation.grade')).toBe('grade 2');
    expect(at('standoff')).toBe('2 mm');
    expect(at('drive.current')).toBe('12 A');
    expect(at('coil.section.outer_radius')).toBe('coil');
  });
});

describe('values', () => {
  it('are SI as plain numbers, degC as plain temperatures, and anything with a unit', () => {
    expect(slot(foyer(['wire: 2.0 mm', 'wire: 0.002']), SLOT.wire)).toBe(0.002);
    expect(slot(foyer(['wire: 2.0 mm', 'wire: 0.05 in']), SLOT.wire)).toBe(0.05 * 0.0254);
    expect(slot(foyer(['wire: 2.0 mm', 'wire: AWG 10']), SLOT.wire)).toBe(awgDiameter(10));
    expect(slot(foyer(['22 degC\n', '300 K\n']), SLOT.coilTemperature)).toBe(300);
    expect(slot(foyer(['thermal_class: 130', 'thermal_class: 155']), SLOT.thermalClass)).toBe(428.15);
    expect(slot(foyer(['{thickness: 2 mm, breakdown: 20 kV/mm}', '3 mm']), SLOT.standoff)).toBe(0.003);
  });

  it('take their defaults where the rig is silent', () => {
    const bare = foyer(
      ['    strands: 1\n', ''],
      ['    extra_mass: 150 g\n', ''],
      ['    at_temperature: 22 degC\n', ''],
      ['  surroundings: {temperature: 22 degC, visitor_distance: 0.6 m}\n', ''],
    );
    expect(slot(bare, SLOT.strands)).toBe(1);
    expect(slot(bare, SLOT.coilExtraMass)).toBe(0);
    expect(slot(bare, SLOT.surroundings)).toBe(293.15);
    expect(slot(bare, SLOT.coilTemperature)).toBeNaN();
  });

  it('give a fuse by its rating alone as a gG on the side of the coil', () => {
    const { rig } = read(foyer(['{rating: 16 A, kind: gG, side: line}', '10 A'])).study;
    expect(rig.slots[SLOT.fuseRating]).toBe(10);
    expect([rig.texts['supply.fuse.kind'], rig.texts['supply.fuse.side']]).toEqual(['gG', 'coil']);
  });

  it('give the insulation by its thickness instead of a grade', () => {
    const text = foyer(['insulation: grade 2', 'insulation: 0.056 mm']);
    expect(slot(text, SLOT.insulationThickness)).toBe(56e-6);
    expect(slot(text, SLOT.insulationGrade)).toBeNaN();
  });

  it('give a metal by its own numbers, not magnetic unless it says so', () => {
    const own =
      '{name: pan base, resistivity: 35.7 nohm m, temperature_coefficient: 0.003, density: 2.7 g/cm^3, specific_heat: 900}';
    const { rig } = read(foyer(['metal: aluminium-1050', `metal: ${own}`])).study;
    expect([...rig.slots.slice(SLOT.plateLayers, SLOT.plateLayers + 5)]).toEqual([
      expect.closeTo(3.57e-8, 20),
      0.003,
      2700,
      900,
      1,
    ]);
    expect(rig.texts['plate.layers.0.metal']).toBe('pan base');
  });

  it('give a plate in layers, of which the last may be thick', () => {
    const { rig } = read(
      foyer(
        [
          '    metal: aluminium-1050\n    thickness: 12 mm\n',
          '    layers: [{metal: brass, thickness: 1 mm}, {metal: mild-steel, thickness: thick}]\n',
        ],
        [
          '  plate.thickness: {from: 1 mm, to: 12 mm, count: 4, spacing: log}\n',
          '  plate.layers.0.thickness: [1 mm, 2 mm]\n',
        ],
      ),
    ).study;
    expect(rig.plateLayers).toBe(2);
    expect(rig.slots[SLOT.plateLayers + LAYER_SLOTS + LAYER_THICKNESS]).toBe(Number.POSITIVE_INFINITY);
    expect(rig.slots[SLOT.plateLayers + LAYER_SLOTS + METAL_SLOTS.relativePermeability]).toBe(1500);
  });

  it('fix the section by hand, with or without layers', () => {
    expect(
      slot(foyer(['    layers: 8\n', '    section: {outer_radius: 166 mm, height: 17 mm}\n']), SLOT.layers),
    ).toBeNaN();
  });

  it('have texts cleaned of control characters', () => {
    const { study } = read(foyer(['study: Which', 'study: "\\u001b[31m\\u202eWhich'], ['table?', 'table?"']));
    expect(study.title).toBe('[31m Which metal and how many turns for the foyer table?');
  });
});

describe('vary', () => {
  it('takes lists of numbers in any unit, gauges, and thick for the last layer', () => {
    expect(levels('coil.turns: [400, 440]')).toEqual([400, 440]);
    expect(levels('coil.wire: [2 mm, AWG 10]')).toEqual([0.002, awgDiameter(10)]);
    expect(levels('plate.thickness: [10 um, thick]')).toEqual([1e-5, Number.POSITIVE_INFINITY]);
    expect(levels('surroundings.temperature: [20, 30 degC]')).toEqual([293.15, 303.15]);
    expect(levels('drive.current: [10, 11 A]')).toEqual([10, 11]);
  });

  it('takes choices, which set several inputs at once', () => {
    expect(
      levels(
        'coil.metal: [copper, {name: mine, resistivity: 2e-8, temperature_coefficient: 0.004, density: 3000, specific_heat: 900}]',
      ),
    ).toEqual(['copper', 'mine']);
    expect(levels('floats: [coil, nothing]')).toEqual(['coil', 'nothing']);
    expect(levels('coil.insulation: [grade 1, 0.1 mm]')).toEqual(['grade 1', '0.1 mm']);
    expect(levels('coil.insulation: [0.05 mm, 0.1 mm]')).toEqual([5e-5, 1e-4]);
    expect(levels('plate.metal: [brass, aluminium-6061]')).toEqual(['brass', 'aluminium-6061']);
  });

  it('lets a thickness that varies replace the grade of the rig', () => {
    const { rig } = read(
      foyer(['  coil.metal: [aluminium, copper]', '  coil.insulation: [0.05 mm, 0.1 mm]']),
    ).study;
    expect(rig.slots[SLOT.insulationGrade]).toBeNaN();
    expect(rig.texts['coil.insulation']).toBeUndefined();
  });

  it('spaces a range in the unit it is written in, without dust', () => {
    expect(levels('coil.wire: {from: 1 mm, to: 1.5 mm, step: 0.1 mm}')).toEqual(
      [1, 1.1, 1.2, 1.3, 1.4, 1.5].map((mm) => mm / 1000),
    );
    expect(levels('coil.wire: {from: 1 mm, to: 2 mm, count: 3}')).toEqual([0.001, 0.0015, 0.002]);
    expect(levels('coil.wire: {from: 1 mm, to: 100 mm, count: 3, spacing: log}')).toEqual([0.001, 0.01, 0.1]);
    expect(levels('coil.wire: {from: 3 mm, to: 1 mm, step: -1 mm}')).toEqual([0.003, 0.002, 0.001]);
    expect(levels('coil.wire: {from: 1 mm, to: 0.3 cm, step: 0.001}')).toEqual([0.001, 0.002, 0.003]);
    expect(levels('coil.turns: {from: 100, to: 350, step: 100}')).toEqual([100, 200, 300]);
    expect(levels('surroundings.temperature: {from: 20 degC, to: 30 degC, step: 5 K}')).toEqual([
      293.15, 298.15, 303.15,
    ]);
  });

  it('may give what the rig leaves out', () => {
    const text = foyer(
      ['    metal: aluminium\n', ''],
      ['    turns: 440\n', ''],
      ['    thickness: 12 mm\n', ''],
    );
    expect(read(text).study.vary).toHaveLength(3);
    expect(codes(text.replace('  coil.turns: {from: 320, to: 520, step: 40}\n', ''))).toEqual(['missing']);
  });

  it('makes a grid of at most 50 million designs, unless huge ones are allowed', () => {
    const huge = foyer(['step: 40', 'step: 1'], ['count: 4', 'count: 1000000']);
    expect(codes(huge)).toEqual(['huge-grid']);
    expect(read(huge, { allowHuge: true }).study.vary[2]!.levels).toHaveLength(1_000_000);
  });
});

describe('plan', () => {
  const planned = (plan: string, turns = '{from: 320, to: 520}') =>
    read(
      foyer(
        ['plan: {grid: {}}', `plan: ${plan}`],
        ['coil.turns: {from: 320, to: 520, step: 40}', `coil.turns: ${turns}`],
      ),
    ).study;

  it('is every combination when nothing is said', () => {
    expect(read(foyer(['plan: {grid: {}}\n', ''])).study.plan).toEqual({ kind: 'grid' });
  });

  it('takes its defaults where it is silent', () => {
    expect(planned('{genetic: {}}').plan).toEqual({
      kind: 'genetic',
      population: 50,
      generations: 200,
      seed: 1,
      patience: 40,
      tolerance: 1e-3,
    });
    expect(planned('{nelder_mead: {starts: 3, tolerance: 1e-5}}').plan).toEqual({
      kind: 'nelder_mead',
      starts: 3,
      seed: 1,
      levels: 8,
      evaluations: 2000,
      tolerance: 1e-5,
      resolution: 1e-4,
    });
    expect(planned('{sobol: {points: 500}}').plan).toEqual({ kind: 'sobol', points: 500, seed: 1 });
  });

  it('leaves open what lies between the ends of a range without step and count, for a search', () => {
    const { vary } = planned('{genetic: {}}', '{from: 320, to: 520, spacing: log}');
    expect(vary[1]).toMatchObject({
      name: 'coil_turns',
      levels: Float64Array.of(320, 520),
      between: 'log',
      integer: true,
    });
    // this one has a count, and a search keeps to its levels
    expect(vary[2]).not.toHaveProperty('between');
  });

  it('is refused when all designs together are fewer than it asks for', () => {
    const few = foyer(['plan: {grid: {}}', 'plan: {sobol: {points: 48}}']);
    expect(codes(few)).toEqual(['search-of-few']);
    expect(codes(few.replace('points: 48', 'points: 47'))).toEqual([]);
  });
});

describe('a torn or hostile file', () => {
  it('never makes the reader throw, and every problem lies within the file', () => {
    const pieces = fc.constantFrom(
      ...FOYER.split(/(?<=\n)/),
      ...[
        '  ',
        '\t',
        '- ',
        '[',
        '{',
        '? ',
        '&a ',
        '*a',
        '!!set ',
        '"',
        "'",
        '|\n',
        '...\n',
        '%YAML 9\n',
        '\u0000',
        '\ufeff',
      ],
    );
    const texts = fc.oneof(
      fc.string({ unit: 'binary' }),
      fc.array(pieces, { maxLength: 40 }).map((list) => list.join('')),
      fc
        .tuple(fc.nat(FOYER.length), fc.nat(30), fc.string({ maxLength: 8 }))
        .map(([at, gone, put]) => FOYER.slice(0, at) + put + FOYER.slice(at + gone)),
    );
    const sources = fc.oneof(texts, fc.uint8Array({ maxLength: 200 }));
    fc.assert(
      fc.property(sources, (source) => {
        const result = readStudy(source);
        if (!('problems' in result)) return;
        const drawn = drawProblems('x.yaml', source, result.problems);
        expect(result.problems.length).toBeGreaterThan(0);
        expect(drawn).toMatch(/^x\.yaml:\d+:\d+: found .+; wanted .+\n/);
        const size = typeof source === 'string' ? source.length : new TextDecoder().decode(source).length;
        for (const { offset } of result.problems) {
          expect(offset).toBeGreaterThanOrEqual(0);
          expect(offset).toBeLessThanOrEqual(size);
        }
      }),
      { seed: 3, numRuns: 400 },
    );
  });

  it('of more than a megabyte, or nested without end, is refused unread', () => {
    expect(codes(`study: ${'x'.repeat(1_000_001)}`)).toEqual(['too-large']);
    for (const opener of ['[', '{a: ', '- ', '? ', 'a: '])
      expect(codes(opener.repeat(100_000)), opener).toHaveLength(1);
  });

  it('with very many keys is refused in linear time and short words', () => {
    const many = Array.from({ length: 40_000 }, (_, i) => `key${i}: 1\n`).join('');
    const result = readStudy(many);
    expect('problems' in result && result.problems.map(({ found }) => found)).toEqual([
      '40,000 keys in one mapping',
    ]);
    // as many as are looked at one by one
    const some = readStudy(many.split('\n').slice(0, 400).join('\n'));
    expect('problems' in some && some.problems.length).toBe(51);
  });
});

describe('a study far too large', () => {
  const list = (values: string) =>
    `study: Long\nrig: {floats: coil}\nvary: {drive.current: [${values}]}\nobjectives: [{maximise: height}]\n`;

  it('is refused in one line for a list of 240,000 values, repeated or not', () => {
    for (const values of ['1,'.repeat(240_000), Array.from({ length: 120_000 }, (_, i) => i).join(',')]) {
      const result = readStudy(list(values)) as { problems: readonly { found: string; wanted: string }[] };
      expect(result.problems).toHaveLength(1);
      expect(result.problems[0]!.found).toMatch(/^(240|120),000 values in one list$/);
      expect(result.problems[0]!.wanted).toBe('at most 10,000; a range may have more');
    }
  });

  it('is refused in one line for 8,000 derived quantities', () => {
    const lines = Array.from({ length: 8000 }, (_, i) => `  d${i}: height * ${i}\n`).join('');
    const result = readStudy(`study: Long\nderive:\n${lines}`) as { problems: readonly { found: string }[] };
    expect(result.problems.map(({ found }) => found)).toEqual(['8,000 keys in one mapping']);
  });
});
