import { resolve } from 'node:path';
import { type LiveData, pack } from '../live/live-data.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { livePage } from '../report/page/live-page.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import { liveProgram } from '../session/live-program.ts';
import type { DesignChoice } from '../session/named-design.ts';
import { version } from '../session/version.ts';
import { writeLivePage } from '../store/write-live-page.ts';
import { otherSections } from '../study/other-sections.ts';

export interface LiveOptions {
  readonly design: DesignChoice;
  readonly out: string;
}

/** `eddylift live`: a page that computes one design of a study, or of a result, while somebody changes it. */
export async function live(place: string, { design: choice, out }: LiveOptions, io: Io): Promise<number> {
  const found = await findDesign(place, choice, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (!found) return EXIT.usage;
  const { study, design, values } = found;
  const data: LiveData = {
    study: liveStudy(study),
    design,
    values,
    otherSections: otherSections(study.text),
    version: version(),
    ...thinnedDesigns(study),
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

/** A page holds so many designs; of more, every n-th in the order of the plan. */
const MOST_DESIGNS = 1500;

function thinnedDesigns(study: Study): Pick<LiveData, 'designs'> {
  const plan = createPlan(study);
  const { total } = plan;
  // a search finds its designs while it runs
  if (total === null) return {};
  const every = Math.ceil(total / MOST_DESIGNS);
  const width = study.vary.length;
  const ids: number[] = [];
  const values: number[] = [];
  for (let work = plan.next(); work && !('from' in work); work = plan.next()) {
    const { first, count } = work;
    for (let at = (every - (first % every)) % every; at < count; at += every) {
      ids.push(first + at);
      values.push(...work.values.subarray(at * width, (at + 1) * width));
    }
  }
  return { designs: { total, ids, values: Float64Array.from(values) } };
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
