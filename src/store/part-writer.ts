import type { FinishedBatch } from './part-bytes.ts';
import type { Parts } from './parts.ts';

/** Gathers finished batches into parts, so that the disk need not settle for each. */
export interface PartWriter {
  /** Takes batch `number` of the plan, in order. Waits while the disk is behind; throws what an earlier write threw. */
  add(number: number, batch: FinishedBatch): Promise<void>;
  /** Resolves when all that was taken is on disk. */
  flush(): Promise<void>;
}

/** Some 2 MB a part: 250 of them for a million designs. */
const PART_ROWS = 4000;
/** Where designs are slow, ms: no finished batch waits longer than this for others before it is put on disk. */
const PART_MS = 1000;
/** Parts on their way to the disk at once. */
const MOST_WRITES = 4;

/** `now` in ms; `onWritten` hears of each batch once it is on disk and no longer needed here. */
export function createPartWriter(
  parts: Pick<Parts, 'write'>,
  now: () => number,
  onWritten: (batch: FinishedBatch) => void = () => {},
): PartWriter {
  let waiting: FinishedBatch[] = [];
  let first = 0;
  let rows = 0;
  let began = 0;
  const writes: Promise<void>[] = [];

  async function settle(most: number): Promise<void> {
    while (writes.length > most) await writes.shift();
  }

  async function put(): Promise<void> {
    // batches without rows go with the next that has some
    if (rows === 0) return;
    const batches = waiting;
    const write = parts.write(first, batches).then(() => batches.forEach(onWritten));
    // it is awaited when its turn comes; until then a rejection is nobody's yet
    write.catch(() => {});
    writes.push(write);
    waiting = [];
    rows = 0;
    await settle(MOST_WRITES - 1);
  }

  return {
    async add(number, batch) {
      const follows = number === first + waiting.length;
      if (waiting.length > 0 && (!follows || batch.rows.packed)) {
        await put();
        if (!follows) waiting = [];
      }
      if (waiting.length === 0) {
        first = number;
        began = now();
      }
      waiting.push(batch);
      rows += batch.rows.count;
      if (rows >= PART_ROWS || batch.rows.packed || now() - began >= PART_MS) await put();
    },
    async flush() {
      await put();
      await settle(0);
    },
  };
}
