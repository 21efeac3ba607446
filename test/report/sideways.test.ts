import { describe, expect, it } from 'vitest';
import { FLOATS } from '../../src/model/inputs.ts';
import { ALL_ON_REQUEST } from '../../src/model/quantities.ts';
import { buildReport } from '../../src/report/build-report.ts';
import { crossSection } from '../../src/report/drawing/cross-section.ts';
import { atOwnDrive } from '../../src/rig/lift-curve.ts';
import { sidewaysCurve, sidewaysPoint } from '../../src/rig/sideways-curve.ts';
import { sidewaysWords } from '../../src/words/sideways-words.ts';
import { type Design, FOYER, slotsOf } from '../support/design.ts';
import { madeUpReport } from '../support/made-up-report.ts';

const LAYOUT = { plateLayers: 1, windings: 0 };
const OVER_DISC: Design = {
  ...FOYER,
  'plate.radius': 0.166,
  'plate.extra_mass': 0,
  'surroundings.sideways_shift': 0.04,
  'guides.play': 2e-3,
};
const results = (design: Design) => atOwnDrive(LAYOUT, slotsOf(design), ALL_ON_REQUEST).results;

describe('what happens beside the axis, in words', () => {
  it('says how hard it is pushed off, how it leans, and what posts take', () => {
    const words = sidewaysWords(slotsOf(OVER_DISC), results(OVER_DISC));
    expect(words.length).toBe(3);
    expect(words[0]).toMatch(/^pushed off: 0\.1\d+ of its weight at 40 mm$/);
    expect(words[1]).toMatch(/^leans back with 0\.0\d+ N·m\/°$/);
    expect(words[2]).toMatch(/^guide posts with 2 mm of play take 0\.\d+ N$/);
  });

  it('says that nothing holds it over a wide plate, and nothing of a coil that rests', () => {
    expect(sidewaysWords(slotsOf(FOYER), results(FOYER))[0]).toBe(
      'nothing pushes it sideways, and nothing holds it',
    );
    const rests = { ...OVER_DISC, 'drive.current': 2 };
    expect(sidewaysWords(slotsOf(rests), results(rests))).toEqual([]);
    // of a square it is that of a disc, of an oblong plate nobody knows
    const { 'plate.radius': _, ...free } = OVER_DISC;
    const square = { ...free, 'plate.square': 0.28 };
    expect(sidewaysWords(slotsOf(square), results(square)).at(-1)).toBe(
      'computed as over the disc that lifts alike, within 12 %',
    );
    const oblong = { ...OVER_DISC, 'plate.sides.0': 0.32, 'plate.sides.1': 0.27 };
    expect(sidewaysWords(slotsOf(oblong), results(oblong))).toEqual([
      expect.stringMatching(/^not judged: .*oblong plate/),
    ]);
    const pan = { ...OVER_DISC, floats: FLOATS.nothing };
    expect(sidewaysWords(slotsOf(pan), results(pan))[0]).toMatch(
      /^the plate is pushed off: \d\.\d+ N at 40 mm$/,
    );
  });
});

describe('the curve of the force', () => {
  it('starts at nothing on the axis, goes to half the radius, and passes the point that is told', () => {
    const curve = sidewaysCurve(LAYOUT, slotsOf(OVER_DISC));
    const at = sidewaysPoint(slotsOf(OVER_DISC), results(OVER_DISC))!;
    expect(curve[0]).toEqual({ shift: 0, overWeight: 0 });
    expect(curve.at(-1)!.shift).toBeCloseTo(0.083, 3);
    const after = curve.findIndex(({ shift }) => shift > at.shift);
    expect(at.overWeight).toBeGreaterThan(curve[after - 1]!.overWeight);
    expect(at.overWeight).toBeLessThan(curve[after]!.overWeight);
  });

  it('goes on to where the study looks, if that is farther', () => {
    const far = { ...OVER_DISC, 'surroundings.sideways_shift': 0.12 };
    expect(sidewaysCurve(LAYOUT, slotsOf(far)).at(-1)!.shift).toBeCloseTo(0.12, 12);
    // without a word about it half the coil's radius is enough
    const unstated = { ...OVER_DISC, 'surroundings.sideways_shift': Number.NaN };
    expect(sidewaysCurve(LAYOUT, slotsOf(unstated)).at(-1)!.shift).toBeCloseTo(0.083, 3);
  });

  it('is none over a wide plate', () => {
    expect(sidewaysCurve(LAYOUT, slotsOf(FOYER))).toEqual([]);
    expect(sidewaysPoint(slotsOf(FOYER), results(FOYER))).toBeNull();
  });
});

describe('a report', () => {
  it('tells it, draws the force, and shows in the cross-section where it would go', async () => {
    const input = madeUpReport();
    const at = { shift: 0.04, overWeight: 0.19 };
    const sideways = {
      words: ['pushed off: 0.19 of its weight at 40 mm', 'leans back with 0.1 N·m/°'],
      curve: [{ shift: 0, overWeight: 0 }, at, { shift: 0.08, overWeight: 0.3 }],
      at,
    };
    const [first, ...others] = input.chosen;
    const { html, figures } = await buildReport({ ...input, chosen: [{ ...first!, sideways }, ...others] });
    expect(html).toContain('<h2 id="sideways-heading">Sideways and tilt</h2>');
    expect(html).toContain('pushed off: 0.19 of its weight at 40 mm, leans back with 0.1 N·m/°.');
    const figure = figures.find(({ name }) => name === 'sideways.svg')!;
    expect(figure.svg).toContain('outward force over weight');
    const rig = figures.find(({ name }) => name === `rig-${input.front.designs[first!.row]}.svg`)!;
    expect(rig.svg).toContain('pushed off: 0.19 of its weight at 40 mm');
    const plain = await buildReport(input);
    expect(plain.html).not.toContain('sideways-heading');
    expect(plain.figures.map(({ name }) => name)).not.toContain('sideways.svg');
  });

  it('points inward where it is driven back', () => {
    const winding = {
      innerRadius: 0.05,
      outerRadius: 0.1,
      height: 0.02,
      offset: 0,
      sense: 1 as const,
      metal: 'copper',
      ink: '#000000',
      turns: 100,
      layers: Number.NaN,
      wire: 1e-3,
      wound: null,
    };
    const plate = {
      layers: [{ thickness: 5e-3, metal: 'aluminium', ink: '#111111' }],
      radius: 0.1,
      innerRadius: 0,
      loss: 1,
      heat: null,
      isAbove: false,
    };
    const rig = { windings: [winding], coilHeight: 0.02, coilLoss: 1, plate, gap: 0.01, standoff: 0.01 };
    const out = crossSection({ ...rig, sideways: { shift: 0.01, overWeight: 0.1 } }, 'rig');
    const back = crossSection({ ...rig, sideways: { shift: 0.01, overWeight: -0.1 } }, 'rig');
    expect(out).toContain('pushed off: 0.1 of its weight at 10 mm');
    expect(back).toContain('driven back: 0.1 of its weight at 10 mm');
    // heads of the arrows: outward ones and the one that points inward
    expect(out).not.toContain('m7 -3l-7 3l7 3');
    expect(back).toContain('m7 -3l-7 3l7 3');
  });
});
