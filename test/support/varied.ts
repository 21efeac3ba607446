import type { Varied } from '../../src/model/study.ts';
import { UNITS } from '../../src/model/units.ts';

/** A varied number for tests that do not care which: its levels are what a design carries. */
export function variedNumber(name: string, levels: readonly number[]): Varied {
  return {
    kind: 'number',
    path: name,
    name,
    column: name,
    unit: UNITS.one,
    slot: 0,
    meaning: '',
    integer: false,
    levels: Float64Array.from(levels),
  };
}

/** A varied choice with that many levels. */
export function variedChoice(name: string, levels: number): Varied {
  return {
    kind: 'choice',
    path: name,
    name,
    column: name,
    meaning: '',
    levels: Array.from({ length: levels }, (_, i) => ({ label: `${name}-${i}`, settings: [] })),
  };
}

/** A varied number of which only the ends are given. */
export function variedRange(
  name: string,
  from: number,
  to: number,
  more: { readonly integer?: boolean; readonly spacing?: 'linear' | 'log' } = {},
): Varied {
  const { integer = false, spacing = 'linear' } = more;
  return { ...(variedNumber(name, [from, to]) as Varied & { kind: 'number' }), integer, between: spacing };
}
