import { setTimeout as pause } from 'node:timers/promises';
import { Piscina } from 'piscina';
import type { Study } from '../model/study.ts';
import { LOAD, type LoadData } from './threads.ts';
import { workerFile } from './worker-file.ts';

/** Reads studies that came over a network, on a thread of its own: whatever the text is, this thread goes on. */
export interface StudyReader {
  /** The study, or what is wrong with its text, as the end of `a study that ...`. */
  read(text: string): Promise<Study | string>;
  stop(): Promise<void>;
}

/** What the thread answers; null: the text is no study. */
export type ReadReply = Study | null;

/** A study takes a tenth of a second. s */
const LONGEST = 20;
/** A thread takes a second to start, on a busy machine ten. s */
const LONGEST_START = 120;
/** An end does not wait longer for a thread that is starting, ms. */
const LONGEST_END = 1000;
/** MB. The largest study that a text of a megabyte can be takes some 100. */
const MEMORY = 256;
/** ms without a text after which the thread ends. */
const IDLE = 2000;

/** `seconds`: how long reading may take; for tests a shorter time than usual. */
export function createStudyReader(seconds = LONGEST): StudyReader {
  const piscina = new Piscina<string, ReadReply>({
    filename: LOAD.href,
    workerData: { module: workerFile('read-study.js').href } satisfies LoadData,
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: IDLE,
    resourceLimits: { maxOldGenerationSizeMb: MEMORY },
  });
  piscina.on('error', () => {});
  let starting: Promise<unknown> = Promise.resolve();
  return {
    async read(text) {
      let signal = AbortSignal.timeout(1000 * LONGEST_START);
      try {
        // starts the thread, whose time is not the text's
        const started = piscina.run('', { signal });
        starting = started.catch(() => null);
        await started;
        signal = AbortSignal.timeout(1000 * seconds);
        return (await piscina.run(text, { signal })) ?? 'it cannot read';
      } catch (error) {
        if (signal.aborted) return `takes more than ${seconds} s to read`;
        const { code, message } = error as NodeJS.ErrnoException;
        if (code === 'ERR_WORKER_OUT_OF_MEMORY') return `takes more than ${MEMORY} MB to read`;
        return `breaks its reader (${message})`;
      }
    },
    async stop() {
      // a thread that is cut off while it loads may take the process with it (Node 20 and 22)
      await Promise.race([starting, pause(LONGEST_END, undefined, { ref: false })]);
      await piscina.destroy();
    },
  };
}
