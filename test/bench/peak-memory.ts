import { writeSync } from 'node:fs';
import { isMainThread } from 'node:worker_threads';

/** Preloaded into a process that is measured: at its end it writes its peak memory, kB, to file descriptor 3. */
if (isMainThread) {
  process.on('exit', () => {
    writeSync(3, String(process.resourceUsage().maxRSS));
  });
}
