import { resolve } from 'node:path';
import { type LiveData, pack } from '../live/live-data.ts';
import type { Study } from '../model/study.ts';
import { livePage } from '../report/page/live-page.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import { liveProgram } from '../session/live-program.ts';
import { version } from '../session/version.ts';
import { writeLivePage } from '../store/write-live-page.ts';
import { otherSections } from '../study/other-sections.ts';

export interface LiveOptions {
  readonly design: number;
  readonly out: string;
}

/** `eddylift live`: a page that computes one design of a study, or of a result, while somebody changes it. */
export async function live(place: string, { design, out }: LiveOptions, io: Io): Promise<number> {
  const found = await findDesign(place, design, io);
  if (!found) return EXIT.usage;
  const { study, values } = found;
  const data: LiveData = {
    study: liveStudy(study),
    design,
    values,
    otherSections: otherSections(study.text),
    version: version(),
  };
  const page = livePage({
    title: study.title,
    design,
    hash: study.hash,
    version: data.version,
    program: liveProgram(),
    data: pack(data),
  });
  await writeLivePage(resolve(io.cwd, out), page);
  const size = Math.ceil(Buffer.byteLength(page) / 1000);
  io.stdout.write(`${study.title}\nLive page of design ${design}: ${out} (${size} kB)\n`);
  return EXIT.done;
}

/** What the page needs of a study. */
function liveStudy(study: Study): LiveData['study'] {
  const { title, hash, rig, vary, derive, limits, objectives, tolerance, requested } = study;
  return {
    title,
    hash,
    rig,
    vary,
    derive,
    limits,
    objectives,
    ...(tolerance && { tolerance }),
    ...(requested && { requested }),
  };
}
