import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { listParts } from '../store/parts.ts';
import { wrap } from '../text/listing.ts';
import { describeEffort, type Effort, effortOf, estimateOf } from '../words/describe-plan.ts';
import { chooseFolder } from './choose-folder.ts';
import type { Io } from './io.ts';
import { loadStudy } from './load-study.ts';
import { STDIN } from './read-study-file.ts';
import { type RunSettings, refuseSearch, threadsFor } from './run-study.ts';
import { timeAside } from './time-aside.ts';

/** What is known of a study of a batch before its turn comes: times are of what is not there already. */
export interface Forecast extends Effort {
  readonly file: string;
  readonly state: 'to run' | 'already done' | 'cannot be run' | 'not known';
}

type Settings = Pick<
  RunSettings,
  'out' | 'several' | 'fresh' | 'threads' | 'sparing' | 'allowHuge' | 'share'
>;

/** Looks at each study in advance. What is wrong with one is printed when its turn comes. */
export async function forecastStudies(
  files: readonly string[],
  settings: Settings,
  io: Io,
): Promise<Forecast[]> {
  const forecasts: Forecast[] = [];
  for (const file of files) {
    forecasts.push(
      io.signal.aborted
        ? without(file, 'not known')
        : await forecast(file, settings, io).catch(() => without(file, 'cannot be run')),
    );
  }
  return forecasts;
}

async function forecast(file: string, settings: Settings, io: Io): Promise<Forecast> {
  // a pipe can be read once
  if (file !== STDIN && !(await stat(resolve(io.cwd, file))).isFile()) return without(file, 'not known');
  const { cwd, signal, stdin } = io;
  const silent = { write: () => true };
  const study = await loadStudy(file, settings.allowHuge, { cwd, signal, stdin, stderr: silent });
  if (!study) return without(file, 'cannot be run');
  if (settings.share) refuseSearch(file, study);
  const folder = await chooseFolder(study, { ...settings, cwd });
  if (folder.finished) return without(file, 'already done');
  const time = timeAside(study, io);
  const threads = threadsFor(study, settings);
  const estimate = await estimateOf(study, { ...settings, threads }, time);
  const effort = effortOf(estimate, await keptDesigns(folder.path));
  return { file, state: 'to run', ...effort };
}

function without(file: string, state: Forecast['state']): Forecast {
  return { file, state, designs: 0, mayBeFewer: false, least: 0, most: 0, atLeast: false };
}

/** Designs of a run that was broken off. */
async function keptDesigns(folder: string): Promise<number> {
  try {
    return (await listParts(folder)).reduce((sum, { count }) => sum + count, 0);
  } catch {
    return 0;
  }
}

/**
 * `5 studies: at most 12,345 designs, about 3 h 12 min on 2 threads`, and what is not among these; lines of at most
 * `width` characters.
 */
export function formatForecast(forecasts: readonly Forecast[], threads: number, width: number): string {
  const filesThat = (state: Forecast['state']) => forecasts.filter((one) => one.state === state);
  const toRun = filesThat('to run');
  const total = (key: 'designs' | 'least' | 'most') => toRun.reduce((sum, one) => sum + one[key], 0);
  const effort = describeEffort(
    {
      designs: total('designs'),
      mayBeFewer: toRun.some(({ mayBeFewer }) => mayBeFewer),
      least: total('least'),
      most: total('most'),
      atLeast: toRun.some(({ atLeast }) => atLeast),
    },
    threads,
  );
  const done = filesThat('already done').length;
  const bad = filesThat('cannot be run').map(({ file }) => file);
  const lines = [
    `${forecasts.length} studies: ${toRun.length > 0 ? effort : 'nothing to compute'}${done > 0 ? `; ${done} already done` : ''}`,
    ...(bad.length > 0 ? [`Cannot be run (eddylift check shows why): ${bad.join(', ')}`] : []),
  ];
  return lines.map((line) => wrap(line, width).join('\n  ')).join('\n');
}
