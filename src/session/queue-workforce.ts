import type { Study } from '../model/study.ts';
import type { Workforce } from '../run/workforce.ts';
import { checksum, createPartFormat, WHOLE_PART } from '../store/part-bytes.ts';
import { stampOf } from '../store/result-folder.ts';
import type { Origin } from '../store/run-record.ts';
import type { Io } from './io.ts';

/** As given on the command line. */
export interface QueueChoice {
  readonly address: string;
  /** From the environment; null: none. */
  readonly password: string | null;
}

/** Workers at a queue as the workforce of a study. Throws UsageError for an address that is none. */
export async function queueWorkforce(
  { address, password }: QueueChoice,
  study: Study,
  origin: Origin,
  local: () => Workforce,
  io: Io,
): Promise<Workforce> {
  // a run without a queue does not wait for what speaks to one
  const [{ queueAddress }, { createRemoteWorkforce }] = await Promise.all([
    import('../queue/address.ts'),
    import('../queue/remote-workforce.ts'),
  ]);
  const stamp = stampOf(study.hash, origin);
  return createRemoteWorkforce({
    address: queueAddress(address, password),
    announcement: { text: study.text, hash: study.hash, origin },
    stamp,
    packing: { format: createPartFormat(study, stamp), checksum, wholePart: WHOLE_PART, vary: study.vary },
    local,
    // takes the place of a progress bar, which then comes back below
    say: (line) => io.stderr.write(`${io.stderr.isTTY ? '\r\u001b[K' : ''}eddylift: ${line}\n`),
    now: io.now,
  });
}
