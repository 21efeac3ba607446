import { describe, expect, it } from 'vitest';
import { INPUTS, type InputSpec, inputByPath, MAX_LAYERS, MAX_WINDINGS } from '../../src/model/inputs.ts';
import { createGeometry } from '../../src/rig/geometry.ts';
import { drawProblems } from '../../src/study/draw-problems.ts';
import { NUMBER_PATHS } from '../../src/study/paths.ts';
import { readStudy } from '../../src/study/read-study.ts';

/**
 * Every input gets a value that no other has, is written at its path in a study, and must be read back from its own
 * slot, from the study and from the rig. An offset that is off by one gives some input its neighbour's value.
 */

/** A value that makes a coil that can be wound, and a little more for every slot: no two are alike. */
const TYPICAL: Readonly<Record<string, number>> = {
  resistivity: 2e-8,
  temperature_coefficient: 0.003,
  density: 3000,
  specific_heat: 400,
  relative_permeability: 1.5,
  wire: 5e-4,
  restitution: 0.5,
  standoff: 2e-3,
  'coil.thermal_class': 420,
  'standoff.restitution': 0.5,
  'guides.play': 0.01,
  'surroundings.sideways_shift': 0.02,
  'supply.frequency': 50,
  'insulation.thickness': 5e-5,
  inner_radius: 0.05,
  'section.outer_radius': 0.3,
  'section.height': 0.1,
  offset: 0.01,
  'plate.radius': 0.6,
  'plate.inner_radius': 0.02,
};
const WHOLE: Readonly<Record<string, number>> = { turns: 100, strands: 1, layers: 10 };

function ownValue({ path, slot, integer, unit }: InputSpec): number {
  const last = path.split('.').slice(-1)[0]!;
  const lastTwo = path.split('.').slice(-2).join('.');
  if (last === 'sense') return slot % 2 === 0 ? 1 : -1;
  if (last === 'grade') return 1 + (slot % 3);
  if (integer) return (WHOLE[last] ?? 1) + slot;
  const typical = TYPICAL[path] ?? TYPICAL[lastTwo] ?? TYPICAL[last] ?? (unit.symbol === '°C' ? 300 : 1);
  return typical * (1 + slot / 1e4);
}

/** Plain numbers of a study are SI, but temperatures are in degC. */
function written({ unit, ...input }: InputSpec): number {
  return unit.symbol === '°C'
    ? Number((ownValue({ unit, ...input }) - 273.15).toFixed(6))
    : ownValue({ unit, ...input });
}

type Tree = { [key: string]: Tree | number | string };

function put(tree: Tree, path: string, value: number | string): void {
  const keys = path.split('.');
  let at = tree;
  for (const key of keys.slice(0, -1)) {
    at[key] ??= {};
    at = at[key] as Tree;
  }
  at[keys[keys.length - 1]!] = value;
}

/** A mapping with the keys 0, 1, … becomes a list. */
function withLists(tree: Tree | number | string): unknown {
  if (typeof tree !== 'object') return tree;
  const inner = Object.entries(tree).map(([key, value]) => [key, withLists(value)] as const);
  return inner.every(([key]) => /^\d$/.test(key))
    ? inner.map(([, value]) => value)
    : Object.fromEntries(inner);
}

function studyOf(inputs: readonly InputSpec[], vary: Record<string, unknown>): string {
  const tree: Tree = {};
  for (const input of inputs) {
    const { path } = input;
    const thickness = path.replace(/insulation\.thickness$/, 'insulation');
    // of an insulation a study gives the grade or the thickness: windings with an even number give the grade
    if (path.endsWith('insulation.grade'))
      put(tree, path.replace(/\.grade$/, ''), `grade ${ownValue(input)}`);
    else if (path === 'standoff') put(tree, 'standoff.thickness', written(input));
    else put(tree, thickness, written(input));
  }
  put(tree, 'floats', 'plate');
  const { drive, ...rig } = withLists(tree) as Record<string, unknown>;
  return JSON.stringify({
    study: 'slots',
    rig,
    drive,
    vary,
    objectives: [{ maximise: 'height' }],
  });
}

function read(text: string) {
  const result = readStudy(text);
  if ('problems' in result) throw new Error(drawProblems('study', text, result.problems));
  return result.study;
}

/** Inputs of a study of the coil's own winding, driven by a current, and of one with four windings and a voltage. */
const OF_COIL = /^coil\.(turns|inner_radius|section\..*)$/;
const plain = new Set(NUMBER_PATHS.values());
/** All but the choices that a study writes as words. */
const numbers = INPUTS.filter(({ path }) => plain.has(path) || /insulation\.|sense$/.test(path));
/** A plate has one outline: the coil that is one winding stands over a round one, that of four over a rectangle. */
const OUTLINE = /^plate\.(radius|square|sides\.\d)$/;
const single = numbers.filter(
  ({ path }) =>
    !/^plate\.(square|sides)/.test(path) &&
    !path.startsWith('coil.windings.') &&
    path !== 'drive.voltage' &&
    path !== 'coil.insulation.grade',
);
const several = numbers.filter(
  ({ path }) =>
    !OF_COIL.test(path) &&
    !/^plate\.(square|radius)/.test(path) &&
    path !== 'drive.current' &&
    path !== 'coil.insulation.thickness' &&
    !/windings\.[02]\.insulation\.thickness$|windings\.[13]\.insulation\.grade$/.test(path),
);

/** One outline gives way to another that is varied; of two sides one may be. */
function outlined(varied: string, path: string): boolean {
  if (!OUTLINE.test(varied) || !OUTLINE.test(path)) return true;
  return /sides/.test(varied) && /sides/.test(path);
}

describe('every input, by a value of its own', () => {
  it('is in one of the two studies, and no two of one study have the same value', () => {
    const missing = numbers.filter((input) => !single.includes(input) && !several.includes(input));
    // the other way to give a winding's insulation, and the third way to give a plate's outline
    expect(missing.map(({ path }) => path)).toEqual([
      'coil.windings.0.insulation.thickness',
      'coil.windings.1.insulation.grade',
      'coil.windings.2.insulation.thickness',
      'coil.windings.3.insulation.grade',
      'plate.square',
    ]);
    const few = /(sense|grade)$/;
    for (const inputs of [single, several]) {
      const values = inputs.filter(({ path }) => !few.test(path)).map(ownValue);
      expect(new Set(values).size).toBe(values.length);
    }
  });

  it.each([
    ['a coil that is one winding', single, 0],
    ['a coil of four windings', several, MAX_WINDINGS],
  ])('is read back from the study of %s over six layers', (_, inputs, windings) => {
    const { rig } = read(studyOf(inputs, { standoff: ['2 mm', '3 mm'] }));
    expect([rig.windings, rig.plateLayers]).toEqual([windings, MAX_LAYERS]);
    for (const input of inputs) {
      if (input.path === 'standoff') continue;
      expect(rig.slots[input.slot]! / ownValue(input), input.path).toBeCloseTo(1, 9);
    }
  });

  it.each([
    ['its one winding', single, 0],
    ['its four windings', several, MAX_WINDINGS],
  ])('arrives in the rig: %s', (_, inputs, windings) => {
    const slots = new Float64Array(INPUTS.length).fill(Number.NaN);
    for (const input of inputs) slots[input.slot] = ownValue(input);
    const value = (path: string) => slots[inputByPath(path)!.slot]!;
    const geometry = createGeometry(MAX_LAYERS, windings);
    geometry.fill(slots);
    expect(geometry.coil.count).toBe(Math.max(1, windings));
    geometry.coil.windings.forEach((wound, w) => {
      const at = windings === 0 ? 'coil' : `coil.windings.${w}`;
      const { input, section } = wound;
      const got = [
        [wound.resistivity, 'metal.resistivity'],
        [wound.temperatureCoefficient, 'metal.temperature_coefficient'],
        [input.density, 'metal.density'],
        [wound.specificHeat, 'metal.specific_heat'],
        [wound.relativePermeability, 'metal.relative_permeability'],
        [input.wire, 'wire'],
        [input.strands, 'strands'],
        [input.turns, 'turns'],
        [input.layers, 'layers'],
        [input.innerRadius, 'inner_radius'],
        [input.sectionOuterRadius, 'section.outer_radius'],
        [input.sectionHeight, 'section.height'],
        ...(w % 2 === 1 || windings === 0 ? [[input.insulation, 'insulation.thickness'] as const] : []),
        ...(w % 2 === 0 && windings > 0 ? [[wound.insulationGrade, 'insulation.grade'] as const] : []),
        ...(windings > 0 ? ([[section.offset, 'offset'] as const, [section.sense, 'sense']] as const) : []),
      ] as const;
      for (const [number, key] of got) expect(number, `${at}.${key}`).toBe(value(`${at}.${key}`));
    });
    let perArea = 0;
    for (let i = 0; i < MAX_LAYERS; i++) {
      perArea += value(`plate.layers.${i}.thickness`) * value(`plate.layers.${i}.metal.density`);
    }
    const whole =
      windings === 0 ? Math.PI * value('plate.radius') ** 2 : value('plate.sides.0') * value('plate.sides.1');
    const area = whole - Math.PI * value('plate.inner_radius') ** 2;
    expect(geometry.plateMass / (perArea * area + value('plate.extra_mass'))).toBeCloseTo(1, 12);
  });

  it('varies by its own slot, under every way to write its path', () => {
    for (const [written, path] of NUMBER_PATHS) {
      const inputs = /^coil\.windings\.|^plate\.sides|^drive\.voltage$/.test(path) ? several : single;
      const given = OF_COIL.test(path) ? single : inputs;
      // without the lists of layers a short path means the only layer
      const spec = inputByPath(path)!;
      const values = [ownValue(spec), ownValue(spec) + (spec.integer ? 1 : 0)];
      const celsius = spec.unit.symbol === '°C' ? values.map((value) => value - 273.15) : values;
      const layered = written.startsWith('plate.layers.') || !path.startsWith('plate.layers.');
      const rest = given.filter(
        (input) =>
          (input.path !== path || /sides/.test(path)) &&
          outlined(path, input.path) &&
          (layered || !/layers\.[1-5]/.test(input.path)),
      );
      const { vary } = read(studyOf(rest, { [written]: spec.integer ? celsius : [celsius[0]] }));
      expect(
        vary.map((one) => one.kind === 'number' && one.slot),
        written,
      ).toEqual([spec.slot]);
    }
  });
});
