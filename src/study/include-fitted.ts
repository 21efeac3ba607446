import { isMap, isScalar } from 'yaml';
import type { Problem } from '../errors.ts';
import { readFitted } from './fitted.ts';
import { createPositions } from './positions.ts';
import { FITTED } from './schema.ts';
import { shapeProblems } from './shape-problems.ts';
import { readYaml } from './yaml-text.ts';

/** The file of fitted inputs that a study names, and where. */
export interface NamedFile {
  readonly name: string;
  readonly offset: number;
  readonly length: number;
  /** The whole study. */
  readonly text: string;
}

/** Null where a study names none, or has problems that its reader tells. */
export function fittedFile(source: Uint8Array): NamedFile | null {
  const yaml = readYaml(source);
  if ('problems' in yaml || !isMap(yaml.document.contents)) return null;
  const node: unknown = yaml.document.contents.get('calibrated', true);
  if (!isScalar(node) || typeof node.value !== 'string' || !node.range) return null;
  const [offset, to] = node.range;
  return { name: node.value, offset, length: to - offset, text: yaml.text };
}

/**
 * The study with the fitted inputs in place of their file's name, on the same line: what was run is then told by the
 * study's own text. Or what is wrong with the file.
 */
export function includeFitted(
  { name, text, offset, length }: NamedFile,
  fitted: Uint8Array,
): { readonly text: string } | { readonly problems: readonly Problem[] } {
  const yaml = readYaml(fitted);
  if ('problems' in yaml) return yaml;
  const raw = yaml.document.toJS() as Record<string, unknown>;
  const parsed = FITTED.safeParse(raw);
  const positions = createPositions(yaml.text, yaml.document);
  if (!parsed.success) return { problems: shapeProblems(parsed.error, raw, positions) };
  const { problems } = readFitted(parsed.data, positions, []);
  if (problems.length > 0) return { problems };
  // numbers, texts and {value, error}: JSON is YAML
  const inside = Object.entries({ ...raw, file: name }).map(
    ([key, value]) => `${key}: ${JSON.stringify(value)}`,
  );
  return { text: `${text.slice(0, offset)}{${inside.join(', ')}}${text.slice(offset + length)}` };
}
