import { resolve } from 'node:path';
import { type LiveData, pack, stepsOf } from '../live/live-data.ts';
import type { Study, Varied } from '../model/study.ts';
import { livePage } from '../report/page/live-page.ts';
import { designOf, findStudy } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import { type LiveDesigns, liveDesigns, type TakeDesigns } from '../session/live-designs.ts';
import { liveProgram } from '../session/live-program.ts';
import { type DesignChoice, numberOf } from '../session/named-design.ts';
import { type AskedCriteria, studyToJudge } from '../session/study-to-judge.ts';
import { version } from '../session/version.ts';
import { writeLivePage } from '../store/write-live-page.ts';
import { otherSections } from '../study/other-sections.ts';

export interface LiveOptions extends AskedCriteria {
  readonly design: DesignChoice;
  readonly out: string;
}

/** `eddylift live`: a page that computes one design of a study, or of a result, while somebody changes it. */
export async function live(
  place: string,
  { design: asked, out, ...criteria }: LiveOptions,
  io: Io,
): Promise<number> {
  const found = await findStudy(place, io);
  if (found === null) return EXIT.usage;
  // the page computes everything itself: nothing is missing
  const judged = studyToJudge(found.study, criteria, [], io);
  if (judged === null) return EXIT.usage;
  const design = await numberOf(asked, found, place, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (design === null) return EXIT.usage;
  const { study, values } = await designOf(found, design);
  const program = liveProgram();
  const page = (designs: LiveDesigns) => pageOf(judged, { design, values, designs }, program);
  const text = await fullest(page, await liveDesigns({ ...found, place }, judged, io));
  if (text === null) return EXIT.interrupted;
  await writeLivePage(resolve(io.cwd, out), text);
  const size = Math.ceil(Buffer.byteLength(text) / 1000);
  io.stdout.write(`${study.title}\nLive page of design ${design}: ${out} (${size} kB)\n`);
  return EXIT.done;
}

/** A page holds so many designs, and so many bytes. */
const MOST_DESIGNS = 1500;
const MOST_BYTES = 400_000;
/** Of the room that a page with fewer designs has, this share is tried: what many designs take is not quite even. */
const CAREFUL = 0.97;

/** The page with as many designs as it holds; null when the signal aborts. */
async function fullest(page: (designs: LiveDesigns) => string, take: TakeDesigns): Promise<string | null> {
  const bare = page(undefined);
  const room = MOST_BYTES - Buffer.byteLength(bare);
  for (let most = MOST_DESIGNS; most > 0; ) {
    const designs = await take(most);
    if (designs === null) return null;
    const text = page(designs);
    const taken = Buffer.byteLength(text) - Buffer.byteLength(bare);
    if (taken <= room) return text;
    most = Math.floor((CAREFUL * designs!.ids.length * room) / taken);
  }
  return bare;
}

function pageOf(
  study: Study,
  { design, values, designs }: Pick<LiveData, 'design' | 'values'> & { readonly designs: LiveDesigns },
  program: string,
): string {
  const live: LiveData = {
    study: liveStudy(study),
    design,
    values,
    otherSections: otherSections(study.text),
    version: version(),
    ...(designs && { designs: packed(designs) }),
  };
  const { title, hash } = study;
  return livePage({ title, design, hash, version: live.version, program, data: pack(live) });
}

function packed({ total, ids, columns, front }: NonNullable<LiveDesigns>): NonNullable<LiveData['designs']> {
  return { total, steps: stepsOf(ids), columns, front };
}

/** Levels that a page holds of a number. */
const MOST_LEVELS = 1000;

/** A slider goes from the least level to the greatest: of a million the page needs no others, which would take 11 MB. */
function fewLevels(varied: Varied): Varied {
  if (varied.kind === 'choice' || varied.levels.length <= MOST_LEVELS) return varied;
  const ascending = varied.levels.filter(Number.isFinite).sort();
  return { ...varied, levels: Float64Array.of(ascending[0]!, ascending.at(-1)!) };
}

/** What the page needs of a study. */
function liveStudy(study: Study): LiveData['study'] {
  const { title, hash, rig, vary, derive, limits, objectives, tolerance, requested } = study;
  return {
    title,
    hash,
    rig,
    vary: vary.map(fewLevels),
    derive,
    limits,
    objectives,
    ...(tolerance && { tolerance }),
    ...(requested && { requested }),
  };
}
