import { availableParallelism } from 'node:os';

/** As many worker threads as the machine has cores. */
export function defaultThreads(): number {
  return availableParallelism();
}
