import { copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Metafile, type Plugin } from 'esbuild';
import { digests } from '../src/session/origin.ts';
import { joinQuickCommands } from './quick-commands.ts';

/**
 * `dist/program`: command line, library and workers as they are shipped. What tsc makes is some 440 modules, and as many of
 * packages, which Node reads one by one; here they are joined into a few files, split where something is loaded on demand.
 * Nothing is shortened, so that a stack trace names functions; source maps add file and line (EDDYLIFT_DEBUG=1).
 */

const PROJECT = fileURLToPath(new URL('../../', import.meta.url));
const PROGRAM = join(PROJECT, 'dist/program');

const ENTRIES = {
  cli: 'src/cli.ts',
  'cached-code': 'build/cached-code.ts',
  index: 'src/index.ts',
  evaluate: 'workers/evaluate.ts',
  'read-study': 'workers/read-study.ts',
  rejudge: 'workers/rejudge.ts',
  tabulate: 'workers/tabulate.ts',
};

/** Packages that are not joined in: one starts threads from a file of its own, the others may be absent or are no JavaScript. */
const APART = ['piscina', '@resvg/resvg-js', '@bokuweb/zstd-wasm', 'bullmq', 'ioredis'];

/** Packages that are older than import. */
const REQUIRE =
  "import { createRequire as toRequire } from 'node:module'; const require = toRequire(import.meta.url);";

/** Of mathjs, the program has its grammar and its units alone: see `build/mathjs-parts.ts`. */
const mathjsParts: Plugin = {
  name: 'mathjs parts',
  setup({ onResolve }) {
    onResolve({ filter: /\/mathjs\.ts$/ }, () => ({ path: join(PROJECT, 'build/mathjs-parts.ts') }));
  },
};

const { code, catalogue } = digests();
rmSync(PROGRAM, { recursive: true, force: true });
const { metafile } = await build({
  absWorkingDir: PROJECT,
  entryPoints: ENTRIES,
  outdir: PROGRAM,
  bundle: true,
  splitting: true,
  chunkNames: 'part-[hash]',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  external: APART,
  banner: { js: REQUIRE },
  define: { IS_BUNDLED: 'true', BUILT_DIGESTS: JSON.stringify({ code, catalogue }) },
  plugins: [mathjsParts],
  sourcemap: 'linked',
  sourcesContent: false,
  legalComments: 'none',
  metafile: true,
  logLevel: 'warning',
});
copyFileSync(join(PROJECT, 'workers/load.cjs'), join(PROGRAM, 'load.cjs'));
writeFileSync(join(PROGRAM, 'packages.txt'), notices(metafile));
await joinQuickCommands(PROGRAM, metafile, APART);

/** Of each package that is joined in: name, version and licence. */
function notices({ outputs }: Metafile): string {
  const folders = new Set(
    Object.values(outputs)
      .flatMap(({ inputs }) => Object.entries(inputs))
      .flatMap(([path, { bytesInOutput }]) =>
        bytesInOutput > 0 ? (/^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? []) : [],
      ),
  );
  return [...folders]
    .sort()
    .map((folder) => {
      const place = join(PROJECT, folder);
      const { name, version, license } = JSON.parse(readFileSync(join(place, 'package.json'), 'utf8'));
      const file = readdirSync(place).find((each) => /^licen[cs]e/i.test(each));
      const text = file === undefined ? '' : readFileSync(join(place, file), 'utf8').trim();
      return `${name} ${version} (${license})\n\n${text}\n`;
    })
    .join(`\n${'-'.repeat(72)}\n\n`);
}
