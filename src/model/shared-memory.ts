/**
 * Memory in which bytes come back from a worker, used again and again. Both threads see it, so nothing is moved. Fresh
 * memory for each answer, moved, counts as the receiver's own until its collector has run: it then runs for every few of
 * them, a third of what the main thread did.
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
export function share(
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
  /** Takes the memory that bytes stand in, if it is shared; nobody looks at them any more. */
  give(bytes: Uint8Array | undefined): void;
}

export function createFreeMemory(): FreeMemory {
  const free: SharedArrayBuffer[] = [];
  return {
    take: () => free.pop() ?? null,
    give(bytes) {
      if (bytes?.buffer instanceof SharedArrayBuffer) free.push(bytes.buffer);
    },
  };
}
