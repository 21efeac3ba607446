import { constants, type FileHandle, open } from 'node:fs/promises';
import { Memory, WASM_PAGE } from './webassembly.ts';

/**
 * Appends to a file past the system's page cache, for tables of gigabytes. Nobody reads them soon, so keeping their pages would
 * only push out what others read; and to find fresh pages for them takes the kernel as long as printing the numbers does
 * (docs/decisions/speed.md). The system then wants whole blocks, at places in memory and in the file that are multiples of its
 * own. So bytes are gathered in two blocks, of which one is filled while the other is written.
 */
export interface DirectWriter {
  /** Takes all of `bytes`; they may be changed afterwards. Throws what the system said of an earlier block. */
  write(bytes: Uint8Array): Promise<void>;
  /** Writes what is left. It is on disk only after a sync of the file. */
  end(): Promise<void>;
  /** Waits for what is under way and gives the file up. Never throws. */
  close(): Promise<void>;
}

/** A multiple of every block size of file systems; a disk writes as fast with larger ones. */
const BLOCK = 2 * 2 ** 20;

/**
 * For the empty file `path`, which `file` is open on. Null where the system knows no such writing, or the file system refuses it;
 * one that refuses later is written through `file` from there on.
 * @param opens for tests
 */
export async function openDirectWriter(
  path: string,
  file: FileHandle,
  opens: (path: string, flags: number) => Promise<FileHandle> = open,
): Promise<DirectWriter | null> {
  const { O_DIRECT, O_NOFOLLOW, O_WRONLY } = constants;
  // no such flag on macOS and Windows
  if (O_DIRECT === undefined) return null;
  const opened = await opens(path, O_WRONLY | O_NOFOLLOW | O_DIRECT).catch(() => null);
  if (opened === null) return null;
  let direct: FileHandle | null = opened;
  const blocks = alignedBlocks();
  const underWay: Promise<void>[] = blocks.map(() => Promise.resolve());
  let block = 0;
  let filled = 0;
  let position = 0;

  const writeBlock = async (bytes: Uint8Array, at: number) => {
    const used = direct;
    if (used !== null) {
      try {
        return await writeAll(used, bytes, at);
      } catch (error) {
        if ((error as NodeJS.ErrnoException).code !== 'EINVAL') throw error;
        // the other block may have been refused before
        direct = null;
        await used.close().catch(() => undefined);
      }
    }
    await writeAll(file, bytes, at);
  };

  return {
    async write(bytes) {
      let from = 0;
      while (from < bytes.length) {
        if (filled === 0) await underWay[block];
        const size = Math.min(BLOCK - filled, bytes.length - from);
        blocks[block]!.set(bytes.subarray(from, from + size), filled);
        filled += size;
        from += size;
        if (filled < BLOCK) return;
        const writing = writeBlock(blocks[block]!, position);
        // it is awaited when its block is needed again; until then a rejection is nobody's yet
        writing.catch(() => {});
        underWay[block] = writing;
        position += BLOCK;
        block = (block + 1) % blocks.length;
        filled = 0;
      }
    },
    async end() {
      await Promise.all(underWay);
      // not a whole block
      if (filled > 0) await writeAll(file, blocks[block]!.subarray(0, filled), position);
      filled = 0;
    },
    async close() {
      await Promise.allSettled(underWay);
      await direct?.close().catch(() => undefined);
      direct = null;
    },
  };
}

/** The memory of a WebAssembly begins where a page of memory does, which an ArrayBuffer's need not. */
function alignedBlocks(): readonly [Uint8Array, Uint8Array] {
  const { buffer } = new Memory({ initial: (2 * BLOCK) / WASM_PAGE });
  return [new Uint8Array(buffer, 0, BLOCK), new Uint8Array(buffer, BLOCK, BLOCK)];
}

async function writeAll(file: FileHandle, bytes: Uint8Array, position: number): Promise<void> {
  let written = 0;
  while (written < bytes.length) {
    const { bytesWritten } = await file.write(bytes, written, bytes.length - written, position + written);
    written += bytesWritten;
  }
}
