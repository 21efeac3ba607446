import { defaultThreads } from '../run/default-threads.ts';
import { grouped } from '../text/grouped.ts';
import type { Io } from './io.ts';

/** More threads a core than this only cost memory and time to start; some are left for a core that is not seen. */
const PER_CORE = 4;

/** How many worker threads to use where `wanted` are; null: one a core. Prints a line where it is fewer. */
export function chooseThreads(wanted: number | null, { stderr }: Pick<Io, 'stderr'>): number {
  const cores = defaultThreads();
  const most = PER_CORE * cores;
  if (wanted === null || wanted <= most) return wanted ?? cores;
  stderr.write(
    `eddylift: ${grouped(wanted)} threads are more than ${cores === 1 ? 'one core' : `${cores} cores`} can use: ${most} do the work\n`,
  );
  return most;
}
