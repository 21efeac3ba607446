import { describe, expect, it } from 'vitest';
import { inputByPath } from '../../src/model/inputs.ts';
import { UNITS } from '../../src/model/units.ts';
import {
  changeCell,
  createSensitivityDescriber,
  leadingInputs,
  leadingRows,
  movedName,
  movedValue,
} from '../../src/words/sensitivity-words.ts';
import { studyFrom } from '../support/finished-study.ts';

const demo = (name: string) => studyFrom(new URL(`../../studies/${name}.yaml`, import.meta.url));

function moved(path: string, value: number, perCent = true) {
  return { path, slot: inputByPath(path)!.slot, value, down: value, up: value, perCent };
}

describe('sensitivities in words', () => {
  it('name an input as the trade does, a winding and a layer by their numbers', () => {
    expect(movedName(moved('coil.wire', 2e-3))).toBe("wire's diameter");
    expect(movedName(moved('coil.windings.1.inner_radius', 0.08))).toBe('winding 2: inner radius');
    expect(movedName(moved('plate.layers.2.metal.density', 2700))).toBe('layer 3: metal density');
    expect(movedName(moved('surroundings.temperature', 293.15, false))).toBe(
      "room's temperature (1 °C more)",
    );
    expect(movedValue(moved('coil.wire', 2e-3))).toBe('2 mm');
    expect(movedValue(moved('coil.turns', 440))).toBe('440');
  });

  it('tell a difference of temperatures in degrees, and both ways where there is no slope', () => {
    expect(changeCell({ kind: 'slope', more: 1.23456 }, UNITS.degC)).toBe('+1.23');
    expect(changeCell({ kind: 'slope', more: -4.3e-4 }, UNITS.mm)).toBe('-0.43');
    expect(changeCell({ kind: 'step', up: 38, down: 0 }, UNITS.money)).toBe('+38 up, 0 down');
    expect(changeCell(null, UNITS.mm)).toBe('-');
  });

  it('put first what does most', () => {
    const study = demo('metal-and-turns');
    const described = createSensitivityDescriber(study)(Float64Array.of(0, 440, 8, 12))!;
    const height = described.rows.find(([label]) => label === 'height')![1];
    const sizes = Array.from(height.matchAll(/([+-][\d.]+) mm/g), ([, size]) => Math.abs(Number(size)));
    expect(sizes.length).toBeGreaterThan(2);
    expect(sizes).toEqual([...sizes].sort((a, b) => b - a));
    const leading = leadingInputs(described.numbers).map((m) => described.numbers.moved[m]!.path);
    expect(leading.slice(0, 4)).toContain('coil.turns');
    // what a study seeks stands in a short list, too
    const labels = leadingRows(study, described).map(([label]) => label);
    expect(labels.slice(0, 3)).toEqual(['height', 'lift-off current', 'coil mass']);
  });

  it('name no limit that comes from the stock', () => {
    const { watched } = createSensitivityDescriber(demo('metal-and-turns'))(Float64Array.of(0, 440, 8, 12))!;
    expect(watched.map(({ label }) => label)).not.toContain('stock use');
  });
});
