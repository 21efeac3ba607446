import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { cachedDataVersionTag } from 'node:v8';
import { Script } from 'node:vm';

/** A file of the program, as what imports it sees it. */
export type Part = Readonly<Record<string, unknown>>;

/** What a script evaluates to: given `require`, where it is, and `import`, it answers with its parts by name. */
type Joined = (
  require: (name: string) => unknown,
  here: string,
  load: (name: string) => Promise<unknown>,
) => (name: string) => Part;

/** Takes 4 ms of processor time to load: where it is first used, which most of these commands never come to. */
const CRYPTOGRAPHY = 'node:crypto';

/** The script, without its ending, in the program's folder. */
export const JOINED = 'quick-commands';

/** What was kept of the script for this Node, V8's flags and this kind of processor alone. Asked for before a flag is set. */
export function cacheName(): string {
  const { version, platform, arch } = process;
  return `${JOINED}-${version}-${platform}-${arch}-${cachedDataVersionTag()}.cache`;
}

/**
 * Commands that are over in half a second spend a third of it on loading and compiling the program. So the build joins what
 * they need into one script (`build/quick-commands.ts`), runs them, and keeps what V8 compiled. Null where that was not kept
 * for this very V8, or cannot be read: whoever asks then loads the same files one by one.
 *
 * @param here the folder's URL, or that of a file in it
 * @param shared parts that are loaded already, which the script must not have a second time
 */
export function openCached(
  here: string,
  shared: Readonly<Record<string, Part>>,
): ((name: string) => Part) | null {
  const script = readScript(here);
  if (script === null) return null;
  const ownRequire = createRequire(here);
  const cryptography = new Proxy({}, { get: (_, key) => (ownRequire(CRYPTOGRAPHY) as Part)[key as string] });
  const require = (name: string): unknown =>
    shared[name] ?? (name === CRYPTOGRAPHY ? cryptography : ownRequire(name));
  const load = (name: string): Promise<unknown> =>
    import(name.startsWith('.') ? new URL(name, here).href : name);
  return (script.runInThisContext() as Joined)(require, here, load);
}

function readScript(here: string): Script | null {
  const file = new URL(`./${JOINED}.cjs`, here);
  try {
    const cachedData = readFileSync(new URL(`./${cacheName()}`, here));
    // its text is ASCII
    const script = new Script(readFileSync(file, 'latin1'), { filename: file.pathname, cachedData });
    return script.cachedDataRejected === true ? null : script;
  } catch {
    return null;
  }
}
