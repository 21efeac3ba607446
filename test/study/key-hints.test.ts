import { describe, expect, it } from 'vitest';
import { keyHint } from '../../src/study/key-hints.ts';

describe('a hint for an unknown key', () => {
  it('says what to write where the key is known to be written', () => {
    expect(keyHint('duty_cycle', ['rig'])).toContain('coil_on_time');
    expect(keyHint('gap', ['rig'])).toContain('`standoff`');
  });

  it('is none for what every object has', () => {
    for (const word of ['constructor', 'toString', 'valueOf', 'hasOwnProperty', '__proto__']) {
      expect(keyHint(word, ['rig'])).toBe('');
      expect(keyHint('gap', [word])).toBe('');
    }
  });
});
