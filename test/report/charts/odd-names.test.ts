import { describe, expect, it } from 'vitest';
import type { Study } from '../../../src/model/study.ts';
import { buildReport } from '../../../src/report/build-report.ts';
import { evaluated, reportOn, studyFrom } from '../../support/finished-study.ts';

/** Keys that every plain object has, or can never have as its own. */
const NAMES = [
  'constructor',
  'toString',
  'valueOf',
  'hasOwnProperty',
  '__proto__',
  'isPrototypeOf',
  'signal',
];

const metal = (name: string, i: number) =>
  `{name: "${name}", resistivity: ${28 + i} nohm m, temperature_coefficient: 0.0039 1/K, density: ${2700 + i} kg/m^3, specific_heat: 890 J/(kg K)}`;

function oddStudy(): Study {
  return studyFrom(`study: Which of the oddly named metals?
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2 mm, insulation: grade 2, turns: 400, layers: 10, inner_radius: 60 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
  surroundings: {temperature: 22 degC}
drive: {current: 13 A}
vary:
  coil.metal: [${NAMES.map(metal).join(', ')}]
  coil.turns: [300, 400, 500]
derive: {constructor: height, valueOf: 2 * height, toString: current}
limits: [valueOf >= 2 mm]
objectives: [{maximise: constructor}, {minimise: coil_mass}]
plan: {grid: {}}
`);
}

describe('a report of metals and quantities that are named like keys of every object', () => {
  it('is made, and its charts name each of them', async () => {
    const study = oddStudy();
    const { html, figures } = await buildReport(reportOn(study, evaluated(study)));
    for (const chart of ['effects-1.svg', 'map-1.svg']) {
      const { svg } = figures.find(({ name }) => name === chart)!;
      // a long name is cut short on an axis
      expect(NAMES.filter((name) => !svg.includes(`>${name.slice(0, 10)}`))).toEqual([]);
      expect(/[\ue000-\uf8ff]/.test(svg)).toBe(false);
    }
    expect(NAMES.filter((name) => !html.includes(name))).toEqual([]);
    expect(/[\ue000-\uf8ff]|native code/.exec(html)).toBeNull();
  });
});
