import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix } from 'node:path';
import { fileURLToPath } from 'node:url';

export const PROJECT = fileURLToPath(new URL('../..', import.meta.url));

export interface Import {
  /** As written. */
  readonly specifier: string;
  /** Path below the project of a file of ours, null for a package. */
  readonly file: string | null;
  /** The package's name, or `node:...`; null for a file of ours. */
  readonly package: string | null;
  /** Nothing of it is left when the types are stripped. */
  readonly typeOnly: boolean;
  /** `import('...')`: loaded when that line is reached. */
  readonly lazy: boolean;
}

export interface SourceFile {
  /** Below the project, with slashes: `src/run/pool.ts`. */
  readonly path: string;
  readonly text: string;
  /** Comments blanked, string contents too: what is left is code. */
  readonly code: string;
  readonly imports: readonly Import[];
}

/** Every TypeScript file below these folders of the project. */
export function sourceFiles(...folders: string[]): SourceFile[] {
  return folders.flatMap((folder) =>
    readdirSync(join(PROJECT, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readSource(posix.join(folder, name.replaceAll('\\', '/')))),
  );
}

function readSource(path: string): SourceFile {
  const text = readFileSync(join(PROJECT, path), 'utf8');
  const uncommented = text.replace(STRING_OR_COMMENT, (token) => (token.startsWith('/') ? ' ' : token));
  return {
    path,
    text,
    code: text.replace(STRING_OR_COMMENT, (token) => (token.startsWith('`') ? token : ' ')),
    imports: importsOf(path, uncommented),
  };
}

const STRING_OR_COMMENT =
  /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\[\s\S])*`/g;

/** Also finds `export ... from` and `import('...')`. */
const IMPORT = /\b(import|export)\s+(type\s+)?([\w*{][^'"`;]*?\s*from\s*)?'([^']+)'|\bimport\(\s*'([^']+)'/g;

function importsOf(path: string, code: string): Import[] {
  return [...code.matchAll(IMPORT)].map(([, , type, clause, statement, dynamic]) => {
    const specifier = (statement ?? dynamic)!;
    const typeOnly = type !== undefined || (clause !== undefined && namesOnlyTypes(clause));
    const relative = specifier.startsWith('.');
    return {
      specifier,
      file: relative ? posix.join(dirname(path), specifier) : null,
      package: relative ? null : packageName(specifier),
      typeOnly,
      lazy: dynamic !== undefined,
    };
  });
}

function namesOnlyTypes(clause: string): boolean {
  const names = /^\{([^}]*)\}\s*from\s*$/.exec(clause);
  return names !== null && names[1]!.split(',').every((name) => /^\s*(type\s|$)/.test(name));
}

function packageName(specifier: string): string {
  if (specifier.startsWith('node:')) return specifier;
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
}
