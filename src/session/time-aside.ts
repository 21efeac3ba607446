import type { Study } from '../model/study.ts';
import type { TimeDesigns } from '../words/describe-plan.ts';
import type { Io } from './io.ts';
import { timeHere } from './short-study.ts';
import { studyTimeLimit } from './study-time-limit.ts';

/**
 * Tries designs of a study where nobody evaluates yet: here where they are quick, else on a thread of their own, which is gone
 * afterwards. Rejects when the signal aborts.
 */
export function timeAside(
  study: Study,
  { now, signal, worker: module }: Pick<Io, 'now' | 'signal' | 'worker'>,
): TimeDesigns {
  return async (sample, designs) => {
    if (signal.aborted) throw new Error('interrupted');
    const here = timeHere(study, { now });
    if (here) return here(sample, designs);
    const { createLocalWorkforce } = await import('../run/workforce.ts');
    const worker = createLocalWorkforce({
      task: study,
      stamp: '',
      threads: 1,
      timeLimit: studyTimeLimit(study, now),
      ...(module && { worker: module }),
    });
    const stop = () => void worker.stop();
    signal.addEventListener('abort', stop);
    try {
      if (signal.aborted) throw new Error('interrupted');
      return await worker.time(sample, designs);
    } finally {
      signal.removeEventListener('abort', stop);
      await worker.stop();
    }
  };
}
