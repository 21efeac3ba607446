import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { build, type Metafile } from 'esbuild';
import { cacheName, JOINED, seal } from './cached-code.ts';

/**
 * `check` and `card` as one script beside the files of the program, and what V8 compiles of it when they are run: see
 * build/cached-code.ts. Those files are joined as they are, since packages are cut down to what is used in them already.
 */

/** Commands that are loaded from it, by their source. */
const QUICK = ['src/commands/check.ts', 'src/commands/card.ts'];
/** Charts are half of the program; a card as a page is loaded file by file. */
const APART = 'src/card/card-html.ts';

const STUDY = fileURLToPath(new URL('../../studies/metal-and-turns.yaml', import.meta.url));
const RUNS = [
  ['check', STUDY],
  ['card', STUDY, '--design', '496'],
];

/** @param program folder of the files @param outputs of esbuild, by path from the project */
export async function joinQuickCommands(
  program: string,
  { outputs }: Metafile,
  external: readonly string[],
): Promise<void> {
  const nameOf = (path: string) => `./${path.slice(path.lastIndexOf('/') + 1)}`;
  const partOf = (source: string) => {
    const found = Object.entries(outputs).find(([, { entryPoint }]) => entryPoint?.endsWith(source));
    if (!found) throw new Error(`no file of the program begins with ${source}`);
    return nameOf(found[0]);
  };
  const quick = QUICK.map(partOf);
  const apart = partOf(APART);
  const shared = new Set<string>();
  const share = (path: string): void => {
    for (const each of outputs[path]!.imports) {
      const name = nameOf(each.path);
      if (each.kind !== 'import-statement' || each.external || shared.has(name)) continue;
      shared.add(name);
      share(each.path);
    }
  };
  share(Object.keys(outputs).find((path) => path.endsWith('/cli.js'))!);

  const { outputFiles } = await build({
    absWorkingDir: program,
    stdin: {
      contents: `module.exports = (name) => {\n${quick
        .map((name) => `if (name === "${name}") return require("${name}");`)
        .join('\n')}\n};`,
      resolveDir: program,
    },
    bundle: true,
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    external: [...external, ...shared, apart],
    define: { 'import.meta.url': '$here' },
    supported: { 'dynamic-import': true },
    legalComments: 'none',
    // read and copied as a whole at each start; names stay
    minifyWhitespace: true,
    write: false,
    logLevel: 'warning',
  });
  const joined = outputFiles[0]!.text
    // what V8 keeps with a script does not say where import() leads
    .replace(/\bimport\((?=["'])/g, '$load(')
    .replace(/[^\0-\x7f]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`);
  const script = `(function (require, $here, $load) {\nconst module = {};\n${joined}\nreturn module.exports;\n})`;
  const file = join(program, `${JOINED}.cjs`);
  writeFileSync(file, script);
  loadThemFromIt(join(program, 'cli.js'), quick, [...shared]);
  compileThem(program, file);
}

/** Makes the command line ask for it. */
function loadThemFromIt(cli: string, quick: readonly string[], shared: readonly string[]): void {
  let text = readFileSync(cli, 'utf8');
  for (const name of quick) {
    const pieces = text.split(`import("${name}")`);
    if (pieces.length !== 2) throw new Error(`cli.js loads ${name} ${pieces.length - 1} times, not once`);
    text = pieces.join(`$quick("${name}", () => import("${name}"))`);
  }
  const imports = shared.map((name, i) => `import * as $${i} from "${name}";`).join('\n');
  const parts = shared.map((name, i) => `"${name}": $${i}`).join(', ');
  // behind the last line, so that the source map holds
  const end = text.lastIndexOf('//# sourceMappingURL');
  const added = `
${imports}
async function $quick(name, load) {
  // stacks in terms of the sources, and charts, come with the files themselves
  if (process.env.EDDYLIFT_DEBUG === "1" || process.argv.includes("--html")) return load();
  const { openCached } = await import("./cached-code.js");
  const part = openCached(import.meta.url, { ${parts} });
  return part === null ? load() : part(name);
}
`;
  writeFileSync(cli, text.slice(0, end) + added.trimStart() + text.slice(end));
}

/** Runs the commands one after the other, each with what the one before has left. */
function compileThem(program: string, script: string): void {
  const file = join(program, cacheName());
  const folder = mkdtempSync(join(tmpdir(), 'eddylift-build-'));
  try {
    const text = readFileSync(script);
    writeFileSync(file, seal(text, new Script(text.toString('latin1')).createCachedData()));
    const keeper = new URL('./keep-compiled.js', import.meta.url).href;
    for (const args of RUNS) {
      execFileSync(
        process.execPath,
        [...process.execArgv, '--import', keeper, join(program, 'cli.js'), ...args],
        {
          cwd: folder,
          env: { ...process.env, EDDYLIFT_DEBUG: '', COMPILED_SCRIPT: script, KEEP_COMPILED: file },
          stdio: ['ignore', 'ignore', 'inherit'],
        },
      );
    }
  } catch (error) {
    // the program runs without it, only slower
    rmSync(file, { force: true });
    process.stderr.write(`no compiled code is kept: ${error instanceof Error ? error.message : error}\n`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
