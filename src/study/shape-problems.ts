import type * as z from 'zod';
import type { Problem } from '../errors.ts';
import type { Flaw } from '../expression/outcome.ts';
import { didYouMean } from '../expression/suggest.ts';
import { quote } from './clean.ts';
import { keyHint } from './key-hints.ts';
import type { Path, Positions, Span } from './positions.ts';

type Issue = z.core.$ZodIssue;

/** More keys than this are not listed; the nearest one is suggested all the same. */
const MAX_LISTED = 16;

export function flawProblem(flaw: Flaw, span: Span): Problem {
  return { code: flaw.code, found: flaw.found, wanted: flaw.wanted, ...span };
}

export function valueAt(raw: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, segment) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, segment)
        ? (value as Record<PropertyKey, unknown>)[segment]
        : undefined,
    raw,
  );
}

function isTypeMismatch(issue: Issue): boolean {
  return issue.path.length === 0 && ['invalid_type', 'invalid_union', 'invalid_value'].includes(issue.code);
}

/** The issues of a union are those of the alternative that took the value's type; without one, its own. */
export function flatten(issue: Issue): Issue[] {
  if (issue.code !== 'invalid_union') return [issue];
  const branch = issue.errors.find((issues) => !issues.some(isTypeMismatch));
  if (branch === undefined) return [issue];
  return branch.flatMap((inner) => flatten({ ...inner, path: [...issue.path, ...inner.path] } as Issue));
}

function unknownKey(key: string, known: readonly string[], path: Path, positions: Positions): Problem {
  const place = [...path, key];
  const span = positions.key(place);
  if (key === '<<') {
    return {
      code: 'merge-key',
      found: 'a merge key',
      wanted: 'the keys themselves: aliases are not taken',
      ...span,
    };
  }
  const listed = known.length <= MAX_LISTED ? `one of ${known.join(', ')}` : 'a path such as coil.turns';
  const hint = keyHint(key, path);
  const usual = known.length === 0 ? 'nothing here' : `${listed}${didYouMean(key, known)}`;
  return {
    code: 'unknown-key',
    found: `the unknown ${path[0] === 'vary' ? 'path' : 'key'} ${quote(key)}`,
    wanted: hint === '' ? usual : hint,
    ...span,
  };
}

function foundText(issue: Issue, value: unknown, source: string | null): string {
  if (value === null || source === null) return 'nothing';
  if (issue.code === 'too_small' && Array.isArray(value) && value.length === 0) return 'an empty list';
  if ((issue.code === 'too_big' || issue.code === 'too_small') && Array.isArray(value)) {
    return `${value.length} of them`;
  }
  return quote(source);
}

/** Issues of the shape as problems with their place in the file. */
export function shapeProblems(error: z.ZodError, raw: unknown, positions: Positions): Problem[] {
  return error.issues.flatMap(flatten).flatMap((issue): Problem[] => {
    const { path } = issue;
    if (issue.code === 'unrecognized_keys') {
      const known = issue.message === '' ? [] : issue.message.split(' ');
      return issue.keys.map((key) => unknownKey(key, known, path, positions));
    }
    if (issue.code === 'custom') {
      const flaw = issue.params?.flaw as Flaw;
      return [flawProblem(flaw, positions.value(path, flaw.at, flaw.length))];
    }
    const value = valueAt(raw, path);
    const span = positions.value(path);
    if (value === undefined) {
      return [
        {
          code: 'missing',
          found: `no \`${String(path.at(-1))}\``,
          wanted: `\`${String(path.at(-1))}\`: ${issue.message}`,
          ...span,
        },
      ];
    }
    const source = positions.source(path);
    const found = foundText(issue, value, source);
    return [{ code: 'wrong-shape', found, wanted: issue.message, ...span }];
  });
}
