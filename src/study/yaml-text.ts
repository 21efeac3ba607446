import {
  Composer,
  type CST,
  type Document,
  isMap,
  isNode,
  isScalar,
  Lexer,
  Parser,
  visit,
  type YAMLError,
} from 'yaml';
import type { Problem } from '../errors.ts';
import { grouped } from '../text/grouped.ts';
import { quote } from './clean.ts';

/** A study is a page or two; what is larger is not one. */
const MAX_BYTES = 1_000_000;
/** Levels of nesting; a study has six. The composer is recursive and must not be led deep. */
const MAX_DEPTH = 40;
/** Entries of one list; a range in a line may stand for more. */
const MAX_ITEMS = 10_000;
/** Keys of one mapping: each derived quantity is a column, and is checked against all before it. */
const MAX_KEYS = 500;
/** Messages a reader can use; a torn file may yield thousands. */
const MAX_SYNTAX_PROBLEMS = 5;

/** A kind of file, as messages call it. */
export interface YamlKind {
  /** With its article. */
  readonly name: string;
  /** What an empty one lacks. */
  readonly start: string;
  readonly keys: string;
}

const STUDY_FILE: YamlKind = {
  name: 'a study file',
  start: 'a study: start with `study: <title>`',
  keys: 'keys such as `study:`, `rig:`, `vary:`',
};

export const STOCK_FILE: YamlKind = {
  name: 'a stock file',
  start: 'what is in the store: `reels:`, `plates:`, `fuses:`',
  keys: 'keys such as `reels:`, `plates:`, `fuses:`',
};

export const FITTED_FILE: YamlKind = {
  name: 'a file of fitted inputs',
  start: 'inputs that `compare --out` fitted',
  keys: 'inputs by their names, such as `standoff:`',
};

export interface YamlText {
  readonly text: string;
  readonly document: Document;
}

type Read = YamlText | { readonly problems: readonly Problem[] };

function problem(code: string, offset: number, length: number, found: string, wanted: string): Problem {
  return { code, offset, length, found, wanted };
}

function refuse(...args: Parameters<typeof problem>): { readonly problems: readonly Problem[] } {
  return { problems: [problem(...args)] };
}

/** Bytes of a file of some kind to a YAML 1.2 document of one mapping, without aliases, tags and duplicate keys; or what is wrong. */
export function readYaml(source: Uint8Array | string, kind = STUDY_FILE): Read {
  const bytes = typeof source === 'string' ? new TextEncoder().encode(source) : source;
  if (bytes.length > MAX_BYTES) {
    return refuse(
      'too-large',
      0,
      1,
      `a file of ${bytes.length} bytes`,
      `${kind.name} of at most ${MAX_BYTES} bytes`,
    );
  }
  const lenient = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const zero = lenient.indexOf('\0');
  if (zero >= 0)
    return refuse('binary', zero, 1, 'a NUL byte: a binary file', `${kind.name}: YAML text in UTF-8`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { ignoreBOM: true, fatal: true }).decode(bytes);
  } catch {
    const at = Math.max(0, lenient.indexOf('\ufffd'));
    return refuse('not-utf8', at, 1, 'bytes that are not UTF-8', `${kind.name}: YAML text in UTF-8`);
  }
  if (/^\ufeff?\s*$/.test(text)) return refuse('empty', 0, 1, 'an empty file', kind.start);
  return compose(text, kind);
}

function compose(text: string, kind: YamlKind): Read {
  const tokens: CST.Token[] = [];
  const parser = new Parser();
  for (const source of new Lexer().lex(text)) {
    tokens.push(...parser.next(source));
    if (parser.stack.length > MAX_DEPTH) {
      return refuse(
        'too-deep',
        Math.min(parser.offset, text.length),
        1,
        `more than ${MAX_DEPTH} levels of nesting`,
        `${kind.name}: it has six at most`,
      );
    }
  }
  tokens.push(...parser.end());
  const documents = [
    ...new Composer({ version: '1.2', uniqueKeys: false, prettyErrors: false, merge: false }).compose(
      tokens,
      true,
      text.length,
    ),
  ];
  const document = documents[0]!;
  if (document.errors.length > 0) return { problems: syntaxProblems(text, document) };
  const second = documents[1];
  if (second) {
    const at = Math.max(0, text.lastIndexOf('---', second.range[0]));
    return refuse('several-documents', at, 3, 'a second document in one file', 'one document a file');
  }
  const content = document.contents;
  if (content === null || (isScalar(content) && content.value === null)) {
    return refuse('empty', 0, 1, 'a file without content', kind.start);
  }
  const problems = forbidden(document);
  if (problems.length > 0) return { problems };
  if (!isMap(content)) {
    const [from, to] = content.range!;
    return refuse('not-a-mapping', from, to - from, 'a file that is no mapping', kind.keys);
  }
  return { text, document: document as Document };
}

function tooMany(offset: number, count: number, what: string, most: string): Problem {
  return problem('too-many', offset, 1, `${format(count)} ${what}`, `at most ${most}`);
}

function format(count: number): string {
  return grouped(count);
}

/** What YAML allows and a study does not. */
function forbidden(document: Pick<Document, 'contents'>): Problem[] {
  const problems: Problem[] = [];
  visit(document.contents as Document['contents'], {
    Alias(_, node) {
      const [from, to] = node.range!;
      problems.push(
        problem(
          'alias',
          from,
          to - from,
          `the alias ${quote(`*${node.source}`)}`,
          'the value itself: aliases are not taken',
        ),
      );
      // One is enough: a bomb has many.
      return visit.BREAK;
    },
    Node(_, node) {
      const [from, to] = node.range!;
      if (
        node.tag !== undefined &&
        node.tag !== 'tag:yaml.org,2002:map' &&
        node.tag !== 'tag:yaml.org,2002:seq'
      ) {
        problems.push(
          problem(
            'tag',
            from,
            Math.max(1, to - from),
            `the tag ${quote(node.tag)}`,
            'a plain value without a tag',
          ),
        );
      }
    },
    Seq(_, { items, range }) {
      if (items.length <= MAX_ITEMS) return undefined;
      problems.push(
        tooMany(range![0], items.length, 'values in one list', `${format(MAX_ITEMS)}; a range may have more`),
      );
      return visit.BREAK;
    },
    Map(_, map) {
      if (map.items.length > MAX_KEYS) {
        problems.push(tooMany(map.range![0], map.items.length, 'keys in one mapping', format(MAX_KEYS)));
        return visit.BREAK;
      }
      const seen = new Set<string>();
      for (const { key } of map.items) {
        if (!isScalar(key)) {
          const [from, to] = (isNode(key) ? key : map).range!;
          problems.push(
            problem('odd-key', from, Math.max(1, to - from), 'a key that is no text', 'a name as key'),
          );
          continue;
        }
        const name = String(key.value);
        const [from, to] = key.range!;
        if (name === '__proto__') {
          problems.push(problem('unknown-key', from, to - from, `the key ${quote(name)}`, 'a name as key'));
        }
        if (seen.has(name)) {
          problems.push(
            problem(
              'duplicate-key',
              from,
              to - from,
              `the key ${quote(name)} a second time`,
              'each key once',
            ),
          );
        }
        seen.add(name);
      }
      return undefined;
    },
  });
  return problems;
}

const NO_KEY = ['a line without a key', 'a key, a colon, a blank and its value, such as turns: 440'] as const;

const SYNTAX: Readonly<Record<string, readonly [found: string, wanted: string]>> = {
  TAB_AS_INDENT: ['a tab in the indentation', 'blanks: YAML takes no tabs there'],
  BAD_INDENT: [
    'a line that is indented neither as its neighbours nor as a part of them',
    'keys of one mapping in one column',
  ],
  MULTILINE_IMPLICIT_KEY: NO_KEY,
  BLOCK_AS_IMPLICIT_KEY: [
    'two keys on one line',
    'quotes around a text with a colon, or each key on its own line',
  ],
};

/** Errors of the parser; those that follow from an earlier one at the same place or from a tab are left out. */
function syntaxProblems(text: string, document: Pick<Document, 'contents' | 'errors'>): Problem[] {
  const { errors } = document;
  const tabs = errors.filter((error) => error.code === 'TAB_AS_INDENT');
  const reported =
    tabs.length > 0 ? tabs : errors.filter((error, i) => error.pos[0] !== errors[i - 1]?.pos[0]);
  return reported
    .slice(0, MAX_SYNTAX_PROBLEMS)
    .map((error) => unclosedQuote(document, error) ?? syntaxProblem(text, error));
}

/** A quote that never closes is found at the end of the file; what helps is where it opens. */
function unclosedQuote(document: Pick<Document, 'contents'>, error: YAMLError): Problem | null {
  if (error.code !== 'MISSING_CHAR' || !/quote/.test(error.message)) return null;
  let opening: number | null = null;
  visit(document.contents as Document['contents'], {
    Scalar(_, { type, range }) {
      if ((type === 'QUOTE_DOUBLE' || type === 'QUOTE_SINGLE') && range && range[1] >= error.pos[0])
        opening = range[0];
    },
  });
  if (opening === null) return null;
  return problem('unclosed-quote', opening, 1, 'a quote that does not close', 'a closing quote');
}

function syntaxProblem(text: string, error: YAMLError): Problem {
  const [from, to] = error.pos;
  const offset = Math.min(from, text.length);
  const known = /^Implicit map keys/.test(error.message) ? NO_KEY : SYNTAX[error.code];
  const [found, wanted] = known ?? [`text that is no YAML: ${quote(error.message).slice(1, -1)}`, 'YAML 1.2'];
  return problem(
    `yaml-${error.code.toLowerCase().replaceAll('_', '-')}`,
    offset,
    Math.max(1, to - from),
    found,
    wanted,
  );
}
