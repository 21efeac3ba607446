import { parseDocument } from 'yaml';

/** A part of two studies that is not the same in both, as written; null where one has none. */
export interface StudyDifference {
  readonly path: string;
  readonly one: string | null;
  readonly other: string | null;
}

/** What differs between two study files, key by key, in the order of the first; comments and layout do not count. */
export function studyDifferences(one: string, other: string): StudyDifference[] {
  const [a, b] = [flat(one), flat(other)];
  const paths = [...new Set([...a.keys(), ...b.keys()])];
  return paths.flatMap((path) => {
    const [left, right] = [a.get(path) ?? null, b.get(path) ?? null];
    return left === right ? [] : [{ path, one: left, other: right }];
  });
}

/** Every leaf by its path; a list is one value. */
function flat(text: string): Map<string, string> {
  const leaves = new Map<string, string>();
  const visit = (value: unknown, path: string): void => {
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
      for (const [key, inner] of Object.entries(value)) visit(inner, path === '' ? key : `${path}.${key}`);
    } else leaves.set(path, typeof value === 'string' ? value.trim() : plain(value));
  };
  visit(parseDocument(text, { version: '1.2' }).toJS(), '');
  return leaves;
}

/** As it stands in a study: `[300, 400]`, `{minimise: coil_mass}`. */
function plain(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(plain).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    return `{${Object.entries(value)
      .map(([key, inner]) => `${key}: ${plain(inner)}`)
      .join(', ')}}`;
  }
  return String(value);
}
