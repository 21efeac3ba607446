import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PROJECT, type SourceFile, sourceFiles } from './support/source-files.ts';

/** Past 300 lines: the tables of what may import what are read beside the rules that hold them. */
const files = sourceFiles('src', 'workers');
const byPath = new Map(files.map((file) => [file.path, file]));

/** A file's part of the program: `cli`, `errors`, `workers`, or its folder below src. */
function part(path: string): string {
  const [top, second] = path.split('/') as [string, string];
  return top === 'src' ? second.replace(/\.ts$/, '') : top;
}

/** The flow, in order; a stage imports no other stage. */
const STAGES = ['study', 'plan', 'run', 'survey', 'store', 'front', 'report', 'measured', 'queue'];
/** What stages stand on. */
const BELOW_STAGES = ['rig', 'expression', 'kernel', 'math', 'text'];
const OPEN_TO_ALL = ['model', 'errors'];
/** Sentences about studies and results join what several stages know. */
const WORDS = [...STAGES, ...BELOW_STAGES];
const TOPICS = ['words', ...WORDS];

/** What a part may import besides itself and what is open to all. */
const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = {
  cli: ['commands', 'session'],
  commands: ['session', 'card', 'comparison', 'live', 'documents', ...TOPICS],
  // what a program imports
  index: ['api'],
  api: ['session', ...TOPICS],
  session: ['documents', ...TOPICS],
  card: ['documents', ...TOPICS],
  comparison: ['documents', ...TOPICS],
  // what commands print for programs
  documents: [],
  // runs in a browser: see below
  live: ['words', 'report', 'front', ...BELOW_STAGES],
  words: WORDS,
  // a worker joins what runs on its thread
  workers: ['rig', 'plan', 'run', 'store', 'front', 'study'],
  ...Object.fromEntries(STAGES.map((stage) => [stage, BELOW_STAGES])),
  text: ['math'],
  // a limit is judged by its compiled program
  rig: ['expression', 'kernel', 'math'],
  expression: ['math'],
  kernel: ['math'],
  math: [],
  model: [],
  errors: [],
};

/** Types cross from stage to stage, and messages to the worker that they are for. */
const MAY_IMPORT_TYPES: Readonly<Record<string, readonly string[]>> = {
  ...Object.fromEntries(STAGES.map((stage) => [stage, STAGES])),
  workers: ['run', 'plan'],
};

/** The parts that may use each package; a package that is not here has no place in the program. */
const PACKAGE_OWNERS: Readonly<Record<string, readonly string[]>> = {
  '@bokuweb/zstd-wasm': ['store'],
  '@resvg/resvg-js': ['report'],
  '@uwdata/flechette': ['store'],
  arquero: ['words'],
  bullmq: ['queue'],
  'cli-progress': ['run'],
  commander: ['cli'],
  'csv-parse': ['measured'],
  'fastest-levenshtein': ['expression', 'study'],
  fmin: ['plan'],
  'hyparquet-writer': ['store'],
  ioredis: ['queue'],
  mathjs: ['expression', 'study'],
  piscina: ['run', 'workers'],
  vega: ['report'],
  'vega-interpreter': ['report'],
  'vega-lite': ['report'],
  'write-excel-file': ['store'],
  yaml: ['study'],
  zod: ['documents', 'study'],
  // the disk: results are written by store/ alone, study files are read by session/
  'node:fs': ['session', 'store'],
  'node:fs/promises': ['session', 'store'],
  'node:path': ['commands', 'session', 'store'],
  'node:crypto': ['queue', 'report', 'session', 'store', 'study'],
  'node:url': ['session'],
  // who asks somebody at a terminal
  'node:readline/promises': ['session'],
  // mathjs is loaded when it is first needed
  'node:module': ['expression'],
  // distinguishes a bare number from the name of a host
  'node:net': ['queue'],
  // threads, and who collects their garbage
  'node:timers/promises': ['run', 'queue'],
  'node:v8': ['run', 'session'],
  'node:worker_threads': ['run'],
  // the streams of a call
  'node:stream': ['api'],
  // how many threads there may be, and the machine's name
  'node:os': ['run', 'cli'],
};

/** What only one file, or none, may touch. */
const OWNED_GLOBALS: readonly { what: string; pattern: RegExp; owners: readonly string[] }[] = [
  { what: 'the console', pattern: /\bconsole\b/, owners: ['src/cli.ts'] },
  { what: 'the standard streams', pattern: /\bprocess\.(stdout|stderr|stdin)\b/, owners: ['src/cli.ts'] },
  { what: 'the end of the process', pattern: /\bprocess\.(exit|exitCode|abort)\b/, owners: ['src/cli.ts'] },
  { what: 'signals', pattern: /\bprocess\.(on|once)\b/, owners: ['src/cli.ts'] },
  {
    what: 'arguments and environment',
    pattern: /\bprocess\.(argv|env|cwd)\b/,
    owners: ['src/cli.ts', 'src/api/inside/world.ts'],
  },
  {
    what: 'the clock',
    pattern: /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.|\bprocess\.(hrtime|uptime)\b/,
    // a thread times its own designs
    owners: ['src/cli.ts', 'src/api/inside/world.ts', 'workers/evaluate.ts'],
  },
  { what: 'probability', pattern: /\bMath\.random\b|\brandomUUID\b|\bgetRandomValues\b/, owners: [] },
  { what: 'running text as code', pattern: /\beval\(|\bnew Function\b/, owners: [] },
];

function offences(of: (file: SourceFile) => readonly string[]): string[] {
  return files.flatMap((file) => of(file).map((what) => `${file.path}: ${what}`));
}

describe('architecture', () => {
  it('finds imports however they are written', () => {
    const pool = byPath.get('src/run/pool.ts')!;
    expect(byPath.get('src/run/threads.ts')!.imports).toContainEqual({
      specifier: 'piscina',
      file: null,
      package: 'piscina',
      typeOnly: false,
      lazy: false,
    });
    expect(pool.imports).toContainEqual({
      specifier: '../model/study.ts',
      file: 'src/model/study.ts',
      package: null,
      typeOnly: true,
      lazy: false,
    });
    expect(byPath.get('src/cli.ts')!.imports).toContainEqual({
      specifier: './commands/run.ts',
      file: 'src/commands/run.ts',
      package: null,
      typeOnly: false,
      lazy: true,
    });
  });

  it('knows every part of the program', () => {
    expect(offences(({ path }) => (part(path) in MAY_IMPORT ? [] : ['belongs to no known part']))).toEqual(
      [],
    );
  });

  it('imports files that exist', () => {
    expect(
      offences(({ imports }) =>
        imports.flatMap(({ file }) => (file === null || byPath.has(file) ? [] : [`imports ${file}`])),
      ),
    ).toEqual([]);
  });

  it('imports in one direction only: cli, commands, stages, rig, kernel, math', () => {
    expect(
      offences(({ path, imports }) => {
        const from = part(path);
        return imports.flatMap(({ file, typeOnly }) => {
          if (file === null) return [];
          const to = part(file);
          const allowed =
            to === from ||
            OPEN_TO_ALL.includes(to) ||
            MAY_IMPORT[from]?.includes(to) ||
            (typeOnly && MAY_IMPORT_TYPES[from]?.includes(to));
          return allowed ? [] : [`${from} may not import ${file}`];
        });
      }),
    ).toEqual([]);
  });

  it('holds no working storage at module level in laws and numerics: it belongs to the evaluator', () => {
    // functions and constants, which have names in capitals, are all that may stand there
    const state = /^(?:export )?(?:let|var) |^(?:export )?const [a-z]\w*(?:: [^=]+)? = (?!.*=>)/;
    expect(
      offences(({ path, text }) =>
        ['kernel', 'rig', 'math'].includes(part(path))
          ? text.split('\n').filter((line) => state.test(line))
          : [],
      ),
    ).toEqual([]);
  });

  it('has no circular imports', () => {
    const state = new Map<string, 'open' | 'closed'>();
    const cycles: string[] = [];
    const visit = (path: string, trail: readonly string[]) => {
      if (state.get(path) === 'closed') return;
      if (state.get(path) === 'open') {
        cycles.push([...trail.slice(trail.indexOf(path)), path].join(' -> '));
        return;
      }
      state.set(path, 'open');
      for (const { file } of byPath.get(path)?.imports ?? [])
        if (file !== null) visit(file, [...trail, path]);
      state.set(path, 'closed');
    };
    for (const { path } of files) visit(path, []);
    expect(cycles).toEqual([]);
  });

  /** Files and packages that are there once a file is loaded. */
  function loadedWith(start: string): string[] {
    const loaded = new Set<string>();
    const load = (path: string) => {
      if (loaded.has(path)) return;
      loaded.add(path);
      for (const { file, package: name, typeOnly, lazy } of byPath.get(path)?.imports ?? []) {
        if (typeOnly || lazy) continue;
        if (file !== null) load(file);
        else loaded.add(name!);
      }
    };
    load(start);
    return [...loaded];
  }

  it('begins a run without what only its end needs', () => {
    const loaded = loadedWith('src/commands/run.ts');
    expect(loaded).toContain('yaml');
    expect(loaded.filter((name) => /^(arquero|hyparquet-writer|vega|bullmq)/.test(name))).toEqual([]);
  });

  it('loads what starts threads only where there are any', () => {
    for (const command of ['check', 'card', 'run']) {
      const loaded = loadedWith(`src/commands/${command}.ts`);
      expect(loaded).toContain('yaml');
      expect(loaded).not.toContain('piscina');
    }
  });

  it('answers --help without loading more than commander', () => {
    const loaded = loadedWith('src/cli.ts');
    expect(loaded.filter((name) => !name.startsWith('node:')).sort()).toEqual([
      'commander',
      'src/cli.ts',
      'src/cli/help-text.ts',
      'src/errors.ts',
      'src/session/io.ts',
      'src/session/version.ts',
    ]);
  });

  it('runs the live page with no package and nothing of Node', () => {
    const loaded = loadedWith('src/live/page/program.ts');
    expect(loaded).toContain('src/rig/laws.ts');
    expect(loaded.filter((name) => !name.startsWith('src/'))).toEqual([]);
  });

  it('uses each package in the parts that own it', () => {
    expect(
      offences(({ path, imports }) =>
        imports.flatMap((found) => {
          if (found.package === null) return [];
          const owners = PACKAGE_OWNERS[found.package];
          return owners?.includes(part(path)) ? [] : [`may not import ${found.package}`];
        }),
      ),
    ).toEqual([]);
  });

  it('uses no package that package.json does not name as a dependency', () => {
    const { dependencies, optionalDependencies, peerDependencies } = JSON.parse(
      readFileSync(join(PROJECT, 'package.json'), 'utf8'),
    ) as Record<'dependencies' | 'optionalDependencies' | 'peerDependencies', Record<string, string>>;
    const named = { ...dependencies, ...optionalDependencies, ...peerDependencies };
    const used = new Set(files.flatMap(({ imports }) => imports.flatMap((found) => found.package ?? [])));
    expect([...used].filter((name) => !name.startsWith('node:') && !(name in named))).toEqual([]);
  });

  it('keeps physics and numerics free of any package', () => {
    const pure = ['kernel', 'math', 'rig', 'front', 'model', 'errors'];
    expect(
      offences(({ path, imports }) =>
        pure.includes(part(path)) ? imports.flatMap((found) => found.package ?? []) : [],
      ),
    ).toEqual([]);
  });

  it.each(OWNED_GLOBALS)('touches $what only where it is owned', ({ pattern, owners }) => {
    expect(
      offences(({ path, code }) => (!owners.includes(path) && pattern.test(code) ? [String(pattern)] : [])),
    ).toEqual([]);
  });

  it('names files in kebab case, for one idea each', () => {
    expect(
      offences(({ path }) =>
        /^[a-z0-9]+(-[a-z0-9]+)*\.ts$/.test(basename(path)) && !/util|helper|misc|common/.test(path)
          ? []
          : ['is not a name for one idea'],
      ),
    ).toEqual([]);
  });

  it('exports by name, so that a thing has one name everywhere', () => {
    // a worker is called by its default export
    const nameless = files.filter(
      ({ path, code }) => part(path) !== 'workers' && /\bexport default\b/.test(code),
    );
    expect(nameless.map(({ path }) => path)).toEqual([]);
  });
});
