import { describe, expect, it } from 'vitest';
import { mutationsOf } from './mutations.ts';

const mutated = (path: string, text: string) => mutationsOf(path, text).map((found) => found.after);

describe('mutationsOf', () => {
  it('changes signs, factors and the order of operands, one at a time', () => {
    expect(mutated('src/kernel/a.ts', 'const x = 2 * a - b;\n')).toEqual([
      'const x = (10 * 2) * a - b;',
      'const x = 2 / a - b;',
      'const x = 2 * a + b;',
    ]);
    expect(mutated('src/kernel/a.ts', 'f(a / b[i]!);\n')).toEqual(['f(b[i]! / a);', 'f(a * b[i]!);']);
    expect(mutated('src/kernel/a.ts', 'f(low, high);\n')).toEqual(['f(high, low);']);
  });

  it('moves a slot by one', () => {
    expect(mutated('src/model/inputs.ts', "  wire: slotOf('coil.wire'),\n")).toEqual([
      "wire: slotOf('coil.wire') + 1,",
    ]);
    expect(mutated('src/rig/a.ts', 'const d = slots[SLOT.wire]!;\n')).toEqual([
      'const d = slots[SLOT.wire + 1]!;',
    ]);
  });

  it('makes a unit ten times as large', () => {
    expect(mutated('src/model/units.ts', "m: unit('m', D.LENGTH),\n")).toEqual([
      "m: unit('m', D.LENGTH, 10),",
    ]);
    expect(mutated('src/model/units.ts', "c: unit('°C', D.T, 1, 'degC', -273.15),\n")).toEqual([
      "c: unit('°C', D.T, 10 * 1, 'degC', -273.15),",
      "c: unit('°C', D.T, 1, 'degC', 10 * -273.15),",
    ]);
  });

  it('leaves comments, texts and declarations as they are', () => {
    expect(mutated('src/kernel/a.ts', "// a - b\nconst s = 'a * b';\n/** c / d */\n")).toEqual([]);
    expect(mutated('src/kernel/a.ts', 'function f(a: number, b: number) {\n')).toEqual([]);
  });

  it('says where the fault is', () => {
    expect(mutationsOf('src/kernel/a.ts', 'let x;\nx = a + b;\n')).toEqual([
      { kind: 'law', line: 2, before: 'x = a + b;', after: 'x = a - b;', text: 'let x;\nx = a - b;\n' },
    ]);
  });
});
