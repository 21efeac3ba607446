import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileDerived, compileLimit, compileObjective, inputsOf } from '../../src/expression/compile.ts';
import { createScratch, evaluateProgram } from '../../src/expression/evaluate-program.ts';
import { LAYER_THICKNESS, SLOT } from '../../src/model/inputs.ts';
import type { Derived, Program } from '../../src/model/program.ts';
import { Q, QUANTITIES } from '../../src/model/quantities.ts';

/** Past 300 lines: what is accepted and what is refused stands side by side, construct by construct. */

function objective(text: string, derived: readonly Derived[] = []) {
  return compileObjective(text, 'maximise', derived);
}

function program(text: string): Program {
  const outcome = objective(text);
  if (!outcome.ok) throw new Error(`${outcome.flaw.found}: ${outcome.flaw.wanted}`);
  return outcome.value.program;
}

/** Value of an expression where height is 12 mm and current 4 A. */
function evaluate(text: string): number {
  const out = new Float64Array(1);
  const columns = {
    count: 1,
    quantity: (index: number) => Float64Array.of(index === Q.height ? 0.012 : 4),
    input: () => Float64Array.of(293.15),
    derived: () => Float64Array.of(7),
  };
  evaluateProgram(program(text), columns, out, createScratch());
  return out[0]!;
}

function unitOf(text: string): [symbol: string, suffix: string, scale: number] {
  const outcome = objective(text);
  if (!outcome.ok) throw new Error(outcome.flaw.found);
  const { symbol, suffix, scale } = outcome.value.unit;
  return [symbol, suffix, scale];
}

function refusal(text: string): string {
  const outcome = objective(text);
  return outcome.ok ? 'accepted' : `${outcome.flaw.code}: ${outcome.flaw.found}; ${outcome.flaw.wanted}`;
}

function limitRefusal(text: string): string {
  const outcome = compileLimit(text, []);
  return outcome.ok ? 'accepted' : `${outcome.flaw.code}: ${outcome.flaw.found}; ${outcome.flaw.wanted}`;
}

describe('an expression', () => {
  it('becomes a program in SI over quantities, inputs and constants', () => {
    expect(program('height / current')).toEqual([
      { op: 'quantity', index: Q.height },
      { op: 'quantity', index: Q.current },
      { op: 'divide' },
    ]);
    expect(program('plate_thickness')).toEqual([{ op: 'input', slot: SLOT.plateLayers + LAYER_THICKNESS }]);
    expect(inputsOf(program('coil_turns * height + plate_thickness'))).toEqual([
      SLOT.turns,
      SLOT.plateLayers + LAYER_THICKNESS,
    ]);
  });

  it('means what arithmetic means', () => {
    const rows: [string, number][] = [
      ['height / (3 mm)', 4],
      ['-height / (3 mm)', -4],
      ['2 * 3 + current / (1 A)', 10],
      ['2 ^ 3 ^ 1 * current / (4 A)', 8],
      ['-2 ^ 2 + 0 * current / (1 A)', -4],
      ['abs(-current) / (2 A)', 2],
      ['sqrt(height * height) / (1 mm)', 12],
      ['min(height, 3 mm, 5 mm) / (1 mm)', 3],
      ['max(height, 3 in) / (1 in)', 3],
      ['log10(current / (0.04 A))', 2],
      ['log(exp(current / (1 A)))', 4],
      ['(current / (2 A)) ^ (current / (1 A))', 16],
    ];
    // Conversions and elementary functions round once or twice.
    for (const [text, expected] of rows) expect(evaluate(text), text).toBeCloseTo(expected, 12);
  });

  it('folds what is known beforehand', () => {
    expect(program('height / (2 * 3 mm)')).toEqual([
      { op: 'quantity', index: Q.height },
      { op: 'constant', value: 0.006 },
      { op: 'divide' },
    ]);
    expect(program('height + 12.3 mm')[1]).toEqual({ op: 'constant', value: 0.0123 });
  });

  it('may use what derive defined before it', () => {
    const first = compileDerived('lift', 'height / current', [], 'mm/A');
    if (!first.ok) throw new Error(first.flaw.found);
    const outcome = objective('lift * current', [first.value]);
    expect(outcome.ok && outcome.value.program[0]).toEqual({ op: 'derived', index: 0 });
    expect(outcome.ok && outcome.value.unit.suffix).toBe('mm');
    expect(refusal('lift * current')).toMatch(/^unknown-name/);
  });

  it('suggests the nearest name for one it does not know', () => {
    expect(refusal('heigth / current')).toBe(
      'unknown-name: `heigth` is no quantity, input, derived quantity or unit; a known name; did you mean `height`?',
    );
    expect(refusal('coil_metal')).toMatch(/^text-input: `coil_metal` is a text/);
  });

  it('points at the word in question', () => {
    const outcome = objective('height / curent');
    expect(!outcome.ok && [outcome.flaw.at, outcome.flaw.length]).toEqual([9, 6]);
  });
});

describe('the unit people read an expression in', () => {
  it('is made of the units of its quantities', () => {
    expect(unitOf('height / current')).toEqual(['mm/A', 'mm_per_A', 1000]);
    expect(unitOf('coil_mass')).toEqual(['kg', 'kg', 1]);
    expect(unitOf('stiffness / height')).toEqual(['N/mm²', 'N_per_mm2', 1e-6]);
    expect(unitOf('height * 2')).toEqual(['mm', 'mm', 1000]);
    expect(unitOf('3 in + height')).toEqual(['mm', 'mm', 1000]);
    expect(unitOf('vibration / height')).toEqual(['µm/mm', 'um_per_mm', 1000]);
    expect(unitOf('plate_loss / power')).toEqual(['', '', 1]);
    expect(unitOf('height / power * voltage')).toEqual(['mm·V/W', 'mm_V_per_W', 1000]);
    expect(unitOf('coil_at_temperature')).toEqual(['°C', 'degC', 1]);
    expect(unitOf('coil_at_temperature - surroundings_temperature')).toEqual(['K', 'K', 1]);
  });

  it('is SI for a derived column, unless one is asked for', () => {
    const column = (text: string, unit: string | null = null) => {
      const outcome = compileDerived('x', text, [], unit);
      return outcome.ok ? outcome.value.column : `${outcome.flaw.found}; ${outcome.flaw.wanted}`;
    };
    expect(column('height / current')).toBe('x_m_per_A');
    expect(column('height / current', 'mm/A')).toBe('x_mm_per_A');
    expect(column('power / current')).toBe('x_V');
    expect(column('plate_loss / power')).toBe('x');
    expect(column('surroundings_temperature')).toBe('x_degC');
    expect(column('coil_mass / wire_length ^ 3')).toBe('x_kg_per_m3');
    expect(column('height ^ 2.5')).toBe('x_m2p5');
    expect(column('height / current', 'mm')).toBe('`mm` is in m; a unit for m/A');
    expect(column('height', 'furlongz')).toBe('`furlongz` is not a unit; a unit such as mm/A');
    expect(column('surroundings_temperature - 20 degC', 'degC')).toBe(
      '`degC`; K, for a difference of temperatures',
    );
  });
});

describe('dimensions', () => {
  it('must agree in sums, comparisons, min and max', () => {
    expect(refusal('height + current')).toBe(
      'dimension: adding a value in m and one in A; the same dimension on both sides',
    );
    expect(refusal('min(height, current)')).toMatch(/^dimension/);
    expect(limitRefusal('height <= 3 kg')).toBe(
      'dimension: comparing a value in m and one in kg; the same dimension on both sides',
    );
  });

  it('ask for the unit of a plain number', () => {
    expect(limitRefusal('height <= 0.003')).toBe(
      'dimension: comparing a value in m and the plain number 0.003; the number with its unit, such as 3 mm',
    );
  });

  it('must be none in exponents and under exp and log', () => {
    expect(refusal('height ^ current')).toMatch(/^dimension: an exponent in A/);
    expect(refusal('height ^ power_factor')).toMatch(/^dimension: an exponent that differs between designs/);
    expect(refusal('power_factor ^ power_factor')).toBe('accepted');
    expect(refusal('exp(height)')).toMatch(/^dimension/);
    expect(refusal('height * m ^ 400')).toMatch(/^dimension/);
  });
});

describe('temperatures', () => {
  it('compare with degC and with K literals, and with nothing else', () => {
    const limit = compileLimit('surroundings_temperature <= 105 degC', []);
    expect(limit.ok && limit.value.right).toEqual([{ op: 'constant', value: 378.15 }]);
    expect(limitRefusal('surroundings_temperature <= 300 K')).toBe('accepted');
    expect(limitRefusal('-5 degC <= surroundings_temperature')).toBe('accepted');
    expect(limitRefusal('surroundings_temperature <= 105')).toBe(
      'dimension: comparing a value in degC and the plain number 105; the number with its unit, such as 105 degC',
    );
    expect(
      limitRefusal('surroundings_temperature <= coil_at_temperature - surroundings_temperature'),
    ).toMatch(/^temperature-comparison/);
  });

  it('differ by kelvins and are shifted by kelvins', () => {
    expect(limitRefusal('coil_at_temperature - surroundings_temperature <= 40 K')).toBe('accepted');
    expect(limitRefusal('coil_at_temperature <= surroundings_temperature + 40 K')).toBe('accepted');
    expect(limitRefusal('coil_at_temperature <= max(surroundings_temperature, 30 degC)')).toBe('accepted');
  });

  it('are not added, multiplied, divided, raised or negated', () => {
    for (const text of [
      'surroundings_temperature + coil_at_temperature',
      'surroundings_temperature * 2',
      'surroundings_temperature / (1 K)',
      'surroundings_temperature ^ 2',
      'sqrt(surroundings_temperature)',
      '-surroundings_temperature',
      '40 K - surroundings_temperature',
      'height * (20 degC) / height',
    ])
      expect(refusal(text), text).toMatch(/^temperature-arithmetic/);
    expect(limitRefusal('surroundings_temperature <= degC')).toMatch(/^bare-scale/);
  });
});

describe('a unit that is one over another', () => {
  it('may be written as tables and people write it', () => {
    const limit = (text: string) => compileLimit(text, []);
    expect(limit('bounce_growth <= 0 1/s')).toMatchObject({ ok: true });
    const half = limit('bounce_growth <= 0.5 1/s');
    const same = limit('bounce_growth <= 0.5 / s');
    expect(half.ok && same.ok && half.value.right).toEqual(same.ok && same.value.right);
    for (const text of ['bounce_growth * 3 <= height / 2 1/s', 'height <= 2 1/s', 'height <= 2 1']) {
      expect(limit(text).ok, text).toBe(false);
    }
  });
});

describe('a limit', () => {
  it('is one comparison at the top', () => {
    expect(limitRefusal('current <= 16 A')).toBe('accepted');
    expect(limitRefusal('1 A < current <= 16 A')).toMatch(/^chain/);
    expect(limitRefusal('height')).toMatch(/^no-comparison/);
    expect(limitRefusal('current == 3 A')).toMatch(/^no-comparison/);
    expect(limitRefusal('(height < 3 mm) + 1 < 2')).toMatch(/^comparison/);
    expect(limitRefusal('1 A <= 2 A')).toMatch(/^constant/);
    expect(refusal('height < 3 mm')).toMatch(/^comparison/);
    expect(refusal('3 mm')).toMatch(/^constant/);
  });
});

describe('a hostile expression', () => {
  it('is refused before anything of it runs', () => {
    const rows: [string, string][] = [
      ['', 'empty'],
      ['   ', 'empty'],
      ['# comment', 'character'],
      ['height # comment', 'character'],
      ['height; current', 'character'],
      ['height\ncurrent', 'character'],
      ['import("x")', 'character'],
      ['[1, 2, 3]', 'character'],
      ['height[1]', 'character'],
      ['{a: 1}', 'character'],
      ["height'", 'character'],
      ['height ? 1 : 2', 'character'],
      ['height.constructor', 'not-allowed'],
      ['x = 3', 'not-allowed'],
      ['f(x) = x', 'not-allowed'],
      ['height!', 'not-allowed'],
      ['height % 2', 'not-allowed'],
      ['90 %', 'not-allowed'],
      ['height and current', 'not-allowed'],
      ['height to mm', 'not-allowed'],
      ['true', 'not-allowed'],
      ['null', 'not-allowed'],
      ['Infinity', 'overflow'],
      ['NaN', 'overflow'],
      ['1e400', 'overflow'],
      ['1e308 * 10 * height', 'overflow'],
      ['height / (1 - 1)', 'accepted'],
      ['1 / (1 - 1)', 'overflow'],
      ['createUnit(3)', 'unknown-function'],
      ['unit(3)', 'unknown-function'],
      ['zeros(9)', 'unknown-function'],
      ['evaluate(3)', 'unknown-function'],
      ['height(2)', 'unknown-function'],
      ['constructor', 'unknown-name'],
      ['__proto__', 'unknown-name'],
      ['pi', 'unknown-name'],
      ['sqrt()', 'arguments'],
      ['sqrt(1, 2)', 'arguments'],
      ['max(1)', 'arguments'],
      ['max', 'unknown-name'],
      ['2 2', 'syntax'],
      ['height +', 'syntax'],
      ['(height', 'syntax'],
      ['('.repeat(20000), 'too-long'],
      [`${'('.repeat(41)}height${')'.repeat(41)}`, 'too-deep'],
      [`height${'+1'.repeat(120)}`, 'too-large'],
    ];
    for (const [text, code] of rows) expect(refusal(text).split(':')[0], text.slice(0, 40)).toBe(code);
  });

  it('never throws, whatever the text, and a program that comes of it has plain instructions only', () => {
    const words = fc.constantFrom(
      ...QUANTITIES.map((quantity) => quantity.name),
      ...[
        '(',
        ')',
        '+',
        '-',
        '*',
        '/',
        '^',
        ' ',
        ',',
        '<=',
        '2',
        '1e9',
        '.5',
        'mm',
        'degC',
        'min',
        'sqrt',
        'eval',
      ],
      ...['constructor', '=', ';', '[', '"', '%', '!', '\u0000', 'é', '#', '__proto__', '.', 'in', 'to'],
    );
    const texts = fc.oneof(
      fc.string(),
      fc.array(words, { maxLength: 20 }).map((list) => list.join('')),
    );
    fc.assert(
      fc.property(texts, (text) => {
        for (const outcome of [objective(text), compileLimit(text, [])]) {
          if (!outcome.ok) continue;
          const programs =
            'program' in outcome.value ? [outcome.value.program] : [outcome.value.left, outcome.value.right];
          for (const { op } of programs.flat()) expect(op).toMatch(/^[a-z0-9]+$/);
        }
      }),
      { seed: 2, numRuns: 500 },
    );
  });
});
