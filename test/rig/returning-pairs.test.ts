import { describe, expect, it } from 'vitest';
import { inputByPath } from '../../src/model/inputs.ts';
import type { VariedChoice, VariedNumber } from '../../src/model/study.ts';
import { returningPairs } from '../../src/rig/returning-pairs.ts';

function axis(path: string, count: number): VariedNumber {
  const { slot, name, unit, meaning } = inputByPath(path)!;
  const levels = Float64Array.from({ length: count }, (_, i) => i + 1);
  return { kind: 'number', path, name, column: name, unit, slot, meaning, integer: false, levels };
}

const metal: VariedChoice = {
  kind: 'choice',
  path: 'coil.metal',
  name: '',
  column: '',
  meaning: '',
  levels: [
    { label: 'aluminium', settings: [] },
    { label: 'copper', settings: [] },
  ],
};
const drive = axis('drive.current', 50);
const thickness = axis('plate.layers.0.thickness', 200);
const turns = axis('coil.turns', 50);
const radius = axis('coil.inner_radius', 10);

describe('returningPairs', () => {
  it('counts coils over plates that come back as something else changes', () => {
    expect(returningPairs([metal, drive, thickness, turns, radius])).toBe(100_000);
    expect(returningPairs([metal, turns, thickness])).toBe(10_000);
    expect(returningPairs([axis('supply.line_voltage', 3), axis('supply.frequency', 4), turns])).toBe(200);
  });

  it('counts those alone that change faster', () => {
    expect(returningPairs([turns, drive, thickness])).toBe(200);
  });

  it('has none where nothing comes back, or values are not listed', () => {
    expect(returningPairs([thickness, turns])).toBe(0);
    expect(returningPairs([axis('drive.current', 1), thickness])).toBe(0);
    expect(returningPairs([drive, { ...turns, between: 'linear' }])).toBe(0);
  });
});
