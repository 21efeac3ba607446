import { UsageError } from '../errors.ts';
import { gridDesigns } from '../plan/grid.ts';
import type { Announcement } from '../queue/announcement.ts';
import type { OpenStudy } from '../queue/service.ts';
import type { Signer } from '../queue/signature.ts';
import { createStudyReader, type StudyReader } from '../run/study-reader.ts';
import { createLocalWorkforce } from '../run/workforce.ts';
import { chooseThreads } from '../session/choose-threads.ts';
import { EXIT, type Io } from '../session/io.ts';
import { origin } from '../session/origin.ts';
import { type QueueChoice, queueSettings } from '../session/queue-settings.ts';
import { requireQueuePackages } from '../session/require-queue-packages.ts';
import { studyTimeLimit } from '../session/study-time-limit.ts';
import { createPartFormat, WHOLE_PART } from '../store/part-bytes.ts';
import { checksum, digest } from '../store/part-checksum.ts';
import { describeChanges, stampOf } from '../store/result-folder.ts';
import type { Origin } from '../store/run-record.ts';

export interface WorkerOptions extends QueueChoice {
  /** Names this worker to whoever runs a study. */
  readonly id: string;
  readonly threads: number | null;
}

/** `eddylift worker`: evaluates for others until it is interrupted, which is how it ends well. */
export async function worker(options: WorkerOptions, io: Io): Promise<number> {
  await requireQueuePackages();
  const { runQueueWorker } = await import('../queue/queue-worker.ts');
  const now = origin();
  const threads = chooseThreads(options.threads, io);
  const reader = createStudyReader();
  try {
    const { address, signer } = await queueSettings(options, io.cwd);
    await runQueueWorker({
      ...{ address, signer, threads, id: options.id },
      open: (announcement) => openStudy(announcement, now, { reader, signer, threads }, io),
      print: (line) =>
        io.stdout.write(`${new Date(io.now()).toISOString().replace(/\.\d+Z$/, 'Z')} ${line}\n`),
      signal: io.signal,
      now: io.now,
    });
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    io.stderr.write(`eddylift: ${error.message}\n`);
    return EXIT.usage;
  } finally {
    await reader.stop();
  }
  return EXIT.done;
}

interface Means {
  readonly reader: StudyReader;
  readonly signer: Signer;
  readonly threads: number;
}

/** What came over the network is read as any study file is, and its rows go under a stamp that is worked out here. */
async function openStudy(
  announcement: Announcement,
  now: Origin,
  { reader, signer, threads }: Means,
  io: Io,
): Promise<OpenStudy | { readonly unfit: string }> {
  const changed = describeChanges(announcement.origin, now);
  if (changed !== null) return { unfit: changed };
  const study = await reader.read(announcement.text);
  if (typeof study === 'string') return { unfit: `no use for a study that ${study}` };
  if (study.hash !== announcement.hash)
    return { unfit: 'no use for a study that is not what it is announced as' };
  const stamp = stampOf(study.hash, now);
  const isGrid = study.plan.kind === 'grid';
  return {
    title: study.title,
    stamp,
    width: study.vary.length,
    objectives: study.objectives.length,
    designs: (first, count) => (isGrid ? gridDesigns(study.vary, first, count) : null),
    packing: {
      ...{ stamp, signer, format: createPartFormat(study, stamp) },
      ...{ checksum, digest, wholePart: WHOLE_PART, vary: study.vary },
    },
    start: () =>
      createLocalWorkforce({ task: study, stamp, threads, timeLimit: studyTimeLimit(study, io.now) }),
  };
}
