import { type Document, isMap, isNode, isScalar, isSeq, type Node, type Pair, type YAMLMap } from 'yaml';

/** Where in the file something stands. */
export interface Span {
  readonly offset: number;
  readonly length: number;
}

export type Path = readonly PropertyKey[];

export interface Positions {
  /** Of the value at a path; of the nearest key above where there is none. `at`, `length`: a part of its text. */
  value(path: Path, at?: number, length?: number): Span;
  /** Of the key that a path ends in. */
  key(path: Path): Span;
  /** The value as the file spells it. */
  source(path: Path): string | null;
}

interface Place {
  readonly key: Node | null;
  readonly node: Node | null;
  /** False where the path goes on beyond what the file has. */
  readonly whole: boolean;
}

export function createPositions(text: string, document: Document): Positions {
  // Looked up once per mapping: a file of many wrong keys needs each of them.
  const known = new WeakMap<YAMLMap, Map<string, Pair>>();
  const pairs = (map: YAMLMap): Map<string, Pair> => {
    let found = known.get(map);
    if (found === undefined) {
      found = new Map(map.items.map((pair) => [isScalar(pair.key) ? String(pair.key.value) : '', pair]));
      known.set(map, found);
    }
    return found;
  };
  const find = (path: Path): Place => {
    let key: Node | null = null;
    let node: Node | null = document.contents;
    for (const segment of path) {
      if (isMap(node)) {
        const pair = pairs(node).get(String(segment));
        if (!pair) return { key, node, whole: false };
        key = pair.key as Node;
        node = isNode(pair.value) ? pair.value : null;
      } else if (isSeq(node)) {
        const item: unknown = node.items[Number(segment)];
        if (!isNode(item)) return { key, node, whole: false };
        node = item;
      } else {
        return { key, node, whole: false };
      }
    }
    return { key, node, whole: true };
  };
  const spanOf = (node: Node | null | undefined): Span | null => {
    if (!node?.range) return null;
    const [from, to] = node.range;
    return to > from ? { offset: from, length: to - from } : null;
  };
  const start: Span = spanOf(isMap(document.contents) ? (document.contents.items[0]?.key as Node) : null) ?? {
    offset: 0,
    length: 1,
  };
  return {
    value(path, at = 0, length = Number.MAX_SAFE_INTEGER) {
      const { key, node, whole } = find(path);
      const span = (whole ? spanOf(node) : null) ?? spanOf(key) ?? start;
      if (!whole || !isScalar(node) || typeof node.value !== 'string') return span;
      const source = text.slice(span.offset, span.offset + span.length);
      const shift = source === node.value ? 0 : source.slice(1, -1) === node.value ? 1 : null;
      if (shift === null || at >= node.value.length) return span;
      return { offset: span.offset + shift + at, length: Math.min(length, node.value.length - at) };
    },
    key(path) {
      return spanOf(find(path).key) ?? start;
    },
    source(path) {
      const { node, whole } = find(path);
      const span = whole ? spanOf(node) : null;
      return span === null ? null : text.slice(span.offset, span.offset + span.length);
    },
  };
}
