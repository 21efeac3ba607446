/**
 * Memory in which bytes come back from a worker, used again and again. Both threads see it, so nothing is moved. V8 does
 * not count it as any thread's own: memory that is moved counts as its receiver's, whose collector then runs for every few
 * answers; memory that is shared makes no collector run, so whoever is done with it gives it back.
 */
export type SharedBytes = Uint8Array<SharedArrayBuffer>;

/** Head room, so that memory made for one answer fits the next. */
const ROOMIER = 1.125;

/** So many bytes, whatever they hold, of `memory`, or of fresh one where that is missing or too small. */
export function sharedBytes(length: number, memory: SharedArrayBuffer | null): SharedBytes {
  const place =
    memory && memory.byteLength >= length ? memory : new SharedArrayBuffer(Math.ceil(length * ROOMIER));
  return new Uint8Array(place, 0, length);
}

/** Copies of `pieces`, one after the other. */
export function intoSharedMemory(
  pieces: readonly Uint8Array[],
  memory: SharedArrayBuffer | null,
): readonly SharedBytes[] {
  const all = sharedBytes(
    pieces.reduce((sum, { length }) => sum + length, 0),
    memory,
  );
  let at = 0;
  return pieces.map((piece) => {
    all.set(piece, at);
    at += piece.length;
    return all.subarray(at - piece.length, at);
  });
}

/** Memory that is free to be used again. */
export interface FreeMemory {
  /** Null where none is free. */
  take(): SharedArrayBuffer | null;
  /** Takes memory, if it is shared, at whose bytes nobody looks any more. Throws where it is free already. */
  give(memory: ArrayBufferLike | null | undefined): void;
  /** Forgets what is free, and whatever is given from now on. */
  close(): void;
}

export function createFreeMemory(): FreeMemory {
  const free: SharedArrayBuffer[] = [];
  let closed = false;
  return {
    take: () => free.pop() ?? null,
    give(memory) {
      if (closed || !(memory instanceof SharedArrayBuffer)) return;
      // two workers would write to it at once
      if (free.includes(memory)) throw new Error('memory was given back twice');
      free.push(memory);
    },
    close() {
      closed = true;
      free.length = 0;
    },
  };
}
