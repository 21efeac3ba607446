import { describe, expect, it } from 'vitest';
import { cleanText, shortText } from '../../src/text/clean-text.ts';

describe('cleanText', () => {
  it('keeps accents, signs beyond the basic plane and line breaks', () => {
    expect(cleanText('Wärme\n\t𝛺 µ')).toBe('Wärme\n\t𝛺 µ');
  });

  it('cuts a long text to one short line, between characters', () => {
    expect(shortText('a\nb  c')).toBe('a b c');
    expect(shortText('𝛺'.repeat(9), 4)).toBe('𝛺𝛺𝛺…');
  });
});
