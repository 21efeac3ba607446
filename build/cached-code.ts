import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { cachedDataVersionTag } from 'node:v8';
import { Script } from 'node:vm';
import * as zlib from 'node:zlib';

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

/** Bytes of the checksum behind the code; before it, the code would not lie where V8 looks at it without a copy. */
const SEAL = 4;

/** From Node 20.15 on. */
const crc32: typeof zlib.crc32 | undefined = zlib.crc32;

/**
 * Compiled code with a checksum (CRC-32) of script and code behind it. V8 compares the script's length and its own version, no
 * more: of code that a disk or a copy has spoiled it dies, or never ends.
 */
export function seal(script: Uint8Array, code: Uint8Array): Uint8Array {
  const sealed = Buffer.alloc(code.length + SEAL);
  sealed.set(code);
  if (crc32) sealed.writeUInt32LE(crc32(code, crc32(script)), code.length);
  return sealed;
}

/** The code, null where it is not that of the script, bit by bit. */
function unseal(script: Buffer, sealed: Buffer): Buffer | null {
  const length = sealed.length - SEAL;
  if (!crc32 || length <= 0) return null;
  const code = sealed.subarray(0, length);
  return crc32(code, crc32(script)) === sealed.readUInt32LE(length) ? code : null;
}

/**
 * Commands that are over in half a second spend a third of it on loading and compiling the program. So the build joins what
 * they need into one script (`build/quick-commands.ts`), runs them, and keeps what V8 compiled. Null where that was not kept
 * for this very V8, is damaged or cannot be read: whoever asks then loads the same files one by one.
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
    const sealed = readFileSync(new URL(`./${cacheName()}`, here));
    const text = readFileSync(file);
    const cachedData = unseal(text, sealed);
    if (cachedData === null) return null;
    // its text is ASCII
    const script = new Script(text.toString('latin1'), { filename: file.pathname, cachedData });
    return script.cachedDataRejected === true ? null : script;
  } catch {
    return null;
  }
}
