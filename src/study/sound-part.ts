import type { z } from 'zod';
import { nearest } from '../expression/suggest.ts';
import { NUMBER_PATHS, placesOf, shortPath } from './paths.ts';
import type { Path } from './positions.ts';
import { SECTIONS, STUDY } from './schema.ts';
import { flatten } from './shape-problems.ts';

/** Mistakes that hide others come to light in rounds; a file has no more levels than this. */
const MOST_ROUNDS = 12;

/** Sections that are judged as a whole. */
const LISTS: readonly string[] = ['limits', 'objectives', 'keep'];

/** A file without what is wrong with its shape. */
export interface SoundPart {
  readonly raw: Readonly<Record<string, unknown>>;
  /** Paths that the file gives, wrongly or under a misspelt name: no problem need report that they are missing. */
  readonly given: readonly Path[];
}

/**
 * Takes what is wrong in shape out of a study, so that the rest can be checked for everything else that is wrong with it,
 * and for what it leaves out. `raw` is the file as plain values.
 */
export function soundPart(raw: Readonly<Record<string, unknown>>): SoundPart {
  const sound = structuredClone(raw) as Record<string, unknown>;
  const given: Path[] = [];
  const remove = (path: Path): void => {
    // a list without one of its items is another list
    const depth = LISTS.includes(String(path[0]))
      ? 1
      : path.findIndex((segment) => typeof segment === 'number' && !isMapping(sound, path, segment));
    const whole = depth < 0 ? path : path.slice(0, depth);
    const parent = at(sound, whole.slice(0, -1));
    given.push(whole);
    if (typeof parent === 'object' && parent !== null) {
      delete (parent as Record<PropertyKey, unknown>)[whole.at(-1)!];
    }
  };
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const parsed = STUDY.safeParse(sound);
    if (parsed.success) break;
    for (const issue of parsed.error.issues.flatMap(flatten)) {
      if (issue.code !== 'unrecognized_keys') {
        // a part without what it must have goes; what the file itself must have stays missing
        const path = at(sound, issue.path) === undefined ? issue.path.slice(0, -1) : issue.path;
        if (path.length > 0) remove(path);
        continue;
      }
      const known = issue.message === '' ? [] : issue.message.split(' ');
      for (const key of issue.keys) {
        remove([...issue.path, key]);
        // it may hold anything of its mapping
        if (key === '<<') given.push(issue.path);
        const meant = nearest(key, known);
        if (meant !== null) given.push([...issue.path, meant]);
      }
    }
  }
  return { raw: sound, given };
}

/** Whether a path ends in a mapping's key below this list item, so that the item stays. */
function isMapping(raw: unknown, path: Path, index: PropertyKey): boolean {
  const depth = path.indexOf(index);
  const item = at(raw, path.slice(0, depth + 1));
  return depth < path.length - 1 && typeof item === 'object' && item !== null && !Array.isArray(item);
}

function at(raw: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, segment) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, segment)
        ? (value as Record<PropertyKey, unknown>)[segment]
        : undefined,
    raw,
  );
}

/** Whether the file gives an input (`coil.turns`) at one of these paths, below it or above it. */
export function isGiven(input: string, given: readonly Path[]): boolean {
  const places: readonly Path[] = [
    ...placesOf(input),
    ...placesOf(shortPath(input)),
    ...[...NUMBER_PATHS].filter(([, path]) => path === input).map(([alias]) => ['vary', alias]),
    ['vary', input],
    ['vary', shortPath(input)],
  ];
  return given.some((path) =>
    places.some((place) => {
      const [short, long] = path.length < place.length ? [path, place] : [place, path];
      return short.every((segment, i) => String(segment) === String(long[i]));
    }),
  );
}

/** A section whose shape is right; undefined where the file has none, or none that can be read. */
export function readSection<Name extends keyof typeof SECTIONS>(
  raw: Readonly<Record<string, unknown>>,
  name: Name,
): z.output<(typeof SECTIONS)[Name]> | undefined {
  const parsed = SECTIONS[name].safeParse(raw[name]);
  return parsed.success ? (parsed.data as z.output<(typeof SECTIONS)[Name]>) : undefined;
}
