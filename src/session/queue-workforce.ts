import type { Study } from '../model/study.ts';
import type { Workforce } from '../run/workforce.ts';
import { createPartFormat, WHOLE_PART } from '../store/part-bytes.ts';
import { checksum, digest } from '../store/part-checksum.ts';
import { stampOf } from '../store/result-folder.ts';
import type { Origin } from '../store/run-record.ts';
import type { Io } from './io.ts';
import type { QueueSettings } from './queue-settings.ts';

/** The queue of a command, for all its studies. */
export interface RunQueue extends QueueSettings {
  /** How long to wait for a queue from which nothing comes back, ms. */
  readonly timeout: number;
  /** Whether a study has begun: from then on a queue that does not answer is waited for and not refused. */
  begun: boolean;
  /** Whether a study waited in vain: the next does not wait for a queue that does not answer. */
  lost: boolean;
}

export interface LocalThreads {
  /** Workers of this machine, for what no worker of the queue brings back. */
  readonly local: (threads: number) => Workforce;
  readonly threads: number;
}

/** Workers at a queue as the workforce of a study. */
export async function queueWorkforce(
  queue: RunQueue,
  study: Study,
  origin: Origin,
  { local, threads }: LocalThreads,
  io: Io,
): Promise<Workforce> {
  // a run without a queue does not wait for what speaks to one
  const { createRemoteWorkforce } = await import('../queue/remote-workforce.ts');
  const { address, signer, timeout } = queue;
  const stamp = stampOf(study.hash, origin);
  const atStart = queue.lost ? 'go on alone' : queue.begun ? 'wait' : 'refuse';
  queue.begun = true;
  return createRemoteWorkforce({
    address,
    announcement: { text: study.text, hash: study.hash, origin },
    stamp,
    packing: {
      ...{ stamp, signer, format: createPartFormat(study, stamp) },
      ...{ checksum, digest, wholePart: WHOLE_PART, vary: study.vary },
    },
    numbered: study.plan.kind === 'grid',
    local,
    threads,
    timeout,
    atStart,
    onAlone: () => {
      queue.lost = true;
    },
    // takes the place of a progress bar, which then comes back below
    print: (line) => io.stderr.write(`${io.redraws ? '\r\u001b[K' : ''}eddylift: ${line}\n`),
    now: io.now,
  });
}
