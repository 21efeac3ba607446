import { readFileSync } from 'node:fs';
import { getHeapStatistics } from 'node:v8';
import { UsageError } from '../errors.ts';
import { grouped } from '../text/grouped.ts';

/** Open files that a run needs: modules while they load, parts, tables and what threads hold. */
const FILES = 128;
/**
 * MB of heap for the main thread, and of address space: V8 reserves much more than it uses, some 10 GB for each memory of a
 * WebAssembly. A run of one design on two threads failed at 72 MB of heap and ended well at 88 MB; one of 1,488 failed at
 * 39,062 MB of address space or waited for a thread without end, and ended well at 43,945 MB, on one thread and on two (Node 20).
 */
const HEAP_MB = 88;
const ADDRESS_SPACE_MB = 44_000;

/** What this process may use; null where it is not limited or the system does not show it (only Linux does). */
export interface Resources {
  readonly files: number | null;
  readonly heap: number;
  readonly addressSpace: number | null;
}

const MB = 2 ** 20;

export function readResources(): Resources {
  const limits = readLimits();
  const soft = (name: string) => {
    const found = new RegExp(`^${name} +(\\d+)`, 'm').exec(limits);
    return found && Number(found[1]);
  };
  return {
    files: soft('Max open files'),
    heap: getHeapStatistics().heap_size_limit,
    addressSpace: soft('Max address space'),
  };
}

function readLimits(): string {
  try {
    return readFileSync('/proc/self/limits', 'utf8');
  } catch {
    return '';
  }
}

/** Throws UsageError where a run would break off for want of what can be known beforehand. */
export function checkResources({ files, heap, addressSpace }: Resources): void {
  if (files !== null && files < FILES) {
    throw new UsageError(
      `a run needs ${FILES} open files, and this process may have ${files}; ulimit -n ${FILES} allows more`,
    );
  }
  if (heap < HEAP_MB * MB) {
    throw new UsageError(
      `a run needs ${HEAP_MB} MB of heap, and this process may have ${Math.floor(heap / MB)} MB; --max-old-space-size (NODE_OPTIONS) allows more`,
    );
  }
  if (addressSpace !== null && addressSpace < ADDRESS_SPACE_MB * MB) {
    throw new UsageError(
      `a run needs ${grouped(ADDRESS_SPACE_MB)} MB of address space, and this process may have ${grouped(Math.floor(addressSpace / MB))} MB; ulimit -v unlimited allows more`,
    );
  }
}
