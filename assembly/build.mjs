/**
 * Compiles csv-lines.ts, which is AssemblyScript, and writes it with the sources, so that nobody else needs the compiler:
 * `npm run build:csv-lines`. The compiler (100 MB) comes by npx and stays in its cache.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const COMPILER = 'assemblyscript@0.28.20';
const OPTIONS = ['-O3', '--runtime', 'stub', '--noAssert', '--importMemory', '--initialMemory', '1'];
const source = fileURLToPath(new URL('./csv-lines.ts', import.meta.url));
const target = fileURLToPath(new URL('../src/store/csv-lines-wasm.ts', import.meta.url));

const folder = mkdtempSync(join(tmpdir(), 'eddylift-wasm-'));
try {
  const out = join(folder, 'csv-lines.wasm');
  execFileSync('npx', ['--yes', '--package', COMPILER, 'asc', source, ...OPTIONS, '-o', out], {
    stdio: 'inherit',
  });
  const hash = createHash('sha256').update(readFileSync(source)).digest('hex');
  const pieces = readFileSync(out)
    .toString('base64')
    .match(/.{1,100}/g);
  writeFileSync(
    target,
    `/** Made by assembly/build.mjs (${COMPILER}) of assembly/csv-lines.ts, whose SHA-256 this is. */
export const CSV_LINES_SOURCE = '${hash}';

/** WebAssembly, base64. */
export const CSV_LINES_WASM = [
${pieces.map((piece) => `  '${piece}',`).join('\n')}
].join('');
`,
  );
} finally {
  rmSync(folder, { recursive: true });
}
