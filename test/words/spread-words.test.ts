import { describe, expect, it } from 'vitest';
import { inputByPath } from '../../src/model/inputs.ts';
import type { Tolerance } from '../../src/model/study.ts';
import { UNITS } from '../../src/model/units.ts';
import type { QuantitySpread } from '../../src/rig/spread-profile.ts';
import {
  probabilityWords,
  rounder,
  spreadWords,
  toleranceName,
  toleranceSize,
  varianceSharesNote,
} from '../../src/words/spread-words.ts';

function of(path: string, rest: Partial<Tolerance> = {}): Tolerance {
  const { slot, integer } = inputByPath(path)!;
  return {
    path,
    slot,
    integer,
    size: 3e-4,
    relative: false,
    distribution: 'normal',
    minimum: 0,
    maximum: 1,
    ...rest,
  };
}
const TOLERANCES = [of('standoff'), of('plate.layers.0.metal.resistivity'), of('coil.turns')];

/** 8.4 to 9.3 A about 8.8. */
function spread(shares: readonly number[], explained = shares.reduce((a, b) => a + b, 0)): QuantitySpread {
  const slopes = Float64Array.from(shares, Math.sqrt);
  return { own: 8.8, p05: 8.4, median: 8.8, p95: 9.3, explained, slopes };
}
const say = (each: QuantitySpread) => spreadWords({ unit: UNITS.A }, each, TOLERANCES);

describe('spreadWords', () => {
  it('tells the range, the design as drawn and what makes most of it, largest first', () => {
    expect(say(spread([0.2, 0.75, 0.04]))).toBe(
      "8.40 to 9.30 A in nine rigs of ten (8.80 as drawn); three quarters of it from the plate's resistivity, 20 % from the standoff",
    );
    expect(say(spread([0.995, 0, 0]))).toMatch(/; all of it from the standoff$/);
    expect(say(spread([0.3, 0.05, 0.649]))).toMatch(
      /; two thirds of it from the turns, 30 % from the standoff$/,
    );
  });

  it('says so where slopes explain too little, and gives no number then', () => {
    const words = say(spread([0.5, 0.1, 0], 0.6));
    expect(words).toMatch(/slopes explain only 60 % of it, too little to name its causes$/);
    expect(words).not.toMatch(/standoff/);
  });

  it('has no range for what is the same in every rig or has no answer in one', () => {
    expect(say({ ...spread([0, 0, 0]), p05: 8.8, p95: 8.8, explained: Number.NaN })).toBe(
      '8.8 A in every rig',
    );
    expect(say({ ...spread([0, 0, 0]), p05: Number.NaN })).toBe('not every rig has an answer');
  });
});

describe('the words around it', () => {
  it('rounds to what the width of a range deserves, temperatures to whole degrees', () => {
    expect(rounder(0.0180125, 0.0207834, UNITS.mm)(0.0180125)).toBe('18.0');
    expect(rounder(102.504, 109.346, UNITS.V)(102.504)).toBe('102.5');
    expect(rounder(2000, 9000, UNITS.W)(2345.6)).toBe('2346');
    expect(rounder(400, 402, UNITS.degC)(400)).toBe('127');
  });

  it('calls tolerances as the trade does, by their path where it has no word', () => {
    expect(toleranceName(of('plate.layers.0.metal.resistivity'))).toBe("the plate's resistivity");
    expect(toleranceName(of('coil.windings.1.wire'))).toBe('coil.windings.1.wire');
    expect(toleranceSize(of('standoff'))).toBe('± 0.3 mm');
    expect(toleranceSize(of('standoff', { size: 0.05, relative: true }))).toBe('± 5 %');
    expect(toleranceSize(of('coil.turns', { size: 2, distribution: 'uniform' }))).toBe('at most 2 off');
    expect(toleranceSize(of('surroundings.temperature', { size: 3 }))).toBe('± 3 K');
  });

  it('counts the rigs that meet the limits, and does not round near certainty to certainty', () => {
    const probability = (probabilityLimits: number, probabilityLifts: number) =>
      probabilityWords({ rigs: 256, probabilityLimits, probabilityLifts, quantities: [] }, true);
    expect(probability(255 / 256, 1)).toBe('255 of 256 such rigs (99.6 %) meet all limits');
    expect(probability(1, 1)).toBe('all 256 such rigs meet all limits');
    expect(probability(0, 0.5)).toBe(
      'none of 256 such rigs meet all limits; 128 of 256 such rigs (50 %) lift off',
    );
    expect(probability(Number.NaN, 1)).toBe('all 256 such rigs lift off');
  });

  it('notes the least that slopes explain of what is told', () => {
    const quantities = [spread([0.9, 0.05, 0.03]), spread([0.3, 0, 0])];
    const profile = { rigs: 256, probabilityLimits: 1, probabilityLifts: 1, quantities };
    expect(varianceSharesNote(profile)).toMatch(/explain 98 % of it or more/);
    expect(varianceSharesNote({ ...profile, quantities: quantities.slice(1) })).toBeNull();
  });
});
