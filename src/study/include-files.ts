import { isMap, isScalar } from 'yaml';
import type { Problem } from '../errors.ts';
import { readFitted } from './fitted.ts';
import { createPositions } from './positions.ts';
import { FITTED } from './schema.ts';
import { shapeProblems } from './shape-problems.ts';
import { readStockFile } from './stock.ts';
import { FITTED_FILE, readYaml, STOCK_FILE } from './yaml-text.ts';

/** A file that a study names in place of a mapping, and where. */
export interface NamedFile {
  readonly name: string;
  readonly offset: number;
  readonly length: number;
  /** The whole study. */
  readonly text: string;
}

/** The file of fitted inputs; null where a study names none, or has problems that its reader reports. */
export function fittedFile(source: Uint8Array): NamedFile | null {
  return namedFile(source, 'calibrated');
}

/** Likewise the stock file. */
export function stockFile(source: Uint8Array): NamedFile | null {
  return namedFile(source, 'stock');
}

function namedFile(source: Uint8Array, key: string): NamedFile | null {
  const yaml = readYaml(source);
  if ('problems' in yaml || !isMap(yaml.document.contents)) return null;
  const node: unknown = yaml.document.contents.get(key, true);
  if (!isScalar(node) || typeof node.value !== 'string' || !node.range) return null;
  const [offset, to] = node.range;
  return { name: node.value, offset, length: to - offset, text: yaml.text };
}

/** The study with a file's content in place of its name, or what is wrong with the file. */
export type Included = { readonly text: string } | { readonly problems: readonly Problem[] };

/**
 * The study with the fitted inputs in place of their file's name, on the same line: what was run is then given by the
 * study's own text. Or what is wrong with the file.
 */
export function includeFitted(named: NamedFile, fitted: Uint8Array): Included {
  const yaml = readYaml(fitted, FITTED_FILE);
  if ('problems' in yaml) return yaml;
  const raw = yaml.document.toJS() as Record<string, unknown>;
  const parsed = FITTED.safeParse(raw);
  const positions = createPositions(yaml.text, yaml.document);
  if (!parsed.success) return { problems: shapeProblems(parsed.error, raw, positions) };
  const { problems } = readFitted(parsed.data, positions, []);
  return problems.length > 0 ? { problems } : inPlaceOfName(named, raw);
}

/** Likewise the study with its stock file. */
export function includeStock(named: NamedFile, stock: Uint8Array): Included {
  const yaml = readYaml(stock, STOCK_FILE);
  if ('problems' in yaml) return yaml;
  const raw = yaml.document.toJS() as Record<string, unknown>;
  const read = readStockFile(raw, createPositions(yaml.text, yaml.document));
  return 'problems' in read ? read : inPlaceOfName(named, raw);
}

/** Numbers, texts, lists and mappings: JSON is YAML. */
function inPlaceOfName({ name, text, offset, length }: NamedFile, raw: Record<string, unknown>): Included {
  const inside = Object.entries({ ...raw, file: name }).map(
    ([key, value]) => `${key}: ${JSON.stringify(value)}`,
  );
  return { text: `${text.slice(0, offset)}{${inside.join(', ')}}${text.slice(offset + length)}` };
}
