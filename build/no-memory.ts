/**
 * In the place of `src/rig/numbered-keys.ts` and `src/kernel/station-memory.ts` in a live page: nothing is remembered of coils over
 * plates but the last. A page comes back to none of them thousands of times, and remembering changes no bit of a row.
 */
export class NumberedKeys {
  find(): number {
    return -1;
  }

  number(): number {
    return -1;
  }

  clear(): void {}
}

export class StationMemory {
  read(): boolean {
    return false;
  }

  write(): void {}

  clear(): void {}
}
