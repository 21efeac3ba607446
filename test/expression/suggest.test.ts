import { describe, expect, it } from 'vitest';
import { didYouMean } from '../../src/expression/suggest.ts';
import { inputByName } from '../../src/model/inputs.ts';
import { QUANTITIES, quantityByName } from '../../src/model/quantities.ts';
import { RENAMED } from '../../src/model/renamed.ts';

const NAMES = QUANTITIES.map(({ name }) => name);

describe('a name that is not known', () => {
  it('is told what it is called now, where it was renamed', () => {
    expect(didYouMean('buzz_current', NAMES)).toBe('; `buzz_current` is now called `chatter_current`');
    expect(didYouMean('evolve', ['grid', 'sobol', 'genetic'])).toBe('; `evolve` is now called `genetic`');
  });

  it('is told the nearest known one, where one is near', () => {
    expect(didYouMean('hieght', NAMES)).toBe('; did you mean `height`?');
    expect(didYouMean('quite_another_thing', NAMES)).toBe('');
  });

  it('never stands in the registries under an old name', () => {
    for (const old of RENAMED.keys()) {
      expect(quantityByName(old), old).toBeUndefined();
      expect(inputByName(old), old).toBeUndefined();
    }
  });
});
