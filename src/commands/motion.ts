import { basename, join, resolve } from 'node:path';
import type { DocumentBody } from '../documents/document-shapes.ts';
import { jsonCell } from '../documents/json-cell.ts';
import { UsageError } from '../errors.ts';
import { createDesignReader } from '../rig/design.ts';
import { type MotionSummary, summariseMotion } from '../rig/motion-summary.ts';
import { type PreparedMotion, prepareMotion } from '../rig/prepare-motion.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import { type MotionArguments, readMotion } from '../session/motion-request.ts';
import type { DesignChoice } from '../session/named-design.ts';
import { printDocument } from '../session/print-document.ts';
import { makeFolder } from '../store/make-folder.ts';
import { MOTION_FILES } from '../store/result-files.ts';
import { type MotionRows, MotionTable, writeMotionFigure } from '../store/write-motion.ts';
import { grouped } from '../text/grouped.ts';
import { listing, widthOf, wrap } from '../text/listing.ts';
import { driveWords, motionTopics } from '../words/describe-motion.ts';

export interface MotionOptions extends MotionArguments {
  readonly design: DesignChoice;
  /** Null: beside the result, or in `results`. */
  readonly out: string | null;
  readonly json: boolean;
  /** The figure as PNG, too. */
  readonly png: boolean;
}

/** A run of more steps than this would not be waited for, nor would its table be read. */
const MOST_STEPS = 6_000_000;
/** Between two looks at whether the user wants it to stop, s of motion. */
const PIECE = 0.25;

/** `eddylift motion`: one design of a study in time, from rest, as its drive gives it. */
export async function motion(place: string, options: MotionOptions, io: Io): Promise<number> {
  const { request, seconds } = readMotion(options);
  const { json } = options;
  if (options.png) await (await import('../session/draw-pngs.ts')).requirePngs();
  const found = await findDesign(place, options.design, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (!found) return EXIT.usage;
  const { study, design, values } = found;
  const reader = createDesignReader(study);
  reader.read(values, 0);
  const prepared = prepareMotion(study.rig, reader.slots, request);
  if ('refused' in prepared) throw new UsageError(`design ${design}: ${prepared.refused}`);
  const { run } = prepared;
  const steps = seconds / run.step;
  if (steps > MOST_STEPS) {
    const most = MOST_STEPS * run.step;
    throw new UsageError(
      `${grouped(seconds)} s of motion are ${grouped(Math.round(steps))} steps: at most ${grouped(MOST_STEPS)}, here ${grouped(Number(most.toPrecision(3)))} s`,
    );
  }
  const table = new MotionTable();
  table.add(rowsOf(prepared), prepared.standoff);
  for (let end = PIECE; !io.signal.aborted && !run.lost && run.time < seconds - run.step / 2; end += PIECE) {
    run.advanceTo(Math.min(end, seconds));
    table.add(rowsOf(prepared), prepared.standoff);
    // lets a signal through
    await new Promise((next) => setImmediate(next));
  }
  const interrupted = io.signal.aborted;
  const folder = resolve(io.cwd, options.out ?? defaultFolder(place, design));
  await makeFolder(folder);
  // the table first: who interrupts does not wait for the rest
  await table.write(folder, study.title);
  const summary = summariseMotion(prepared);
  await writeFigure(folder, prepared, summary);
  if (options.png) await (await import('../session/draw-pngs.ts')).drawPng(folder, MOTION_FILES.figure);
  const shown = options.out ?? defaultFolder(place, design);
  if (json) {
    printDocument(io, 'motion', report(prepared, summary, interrupted, shown));
  } else {
    const isWorst =
      request.phase === null && prepared.drive.quantity === 'voltage' && prepared.drive.rise === 0;
    const width = widthOf(io.stdout);
    const print = (text: string) => io.stdout.write(`${wrap(text, width).join('\n')}\n`);
    print(`${study.title}: design ${design}, ${driveWords(prepared.drive, isWorst)}`);
    if (interrupted) print(`Interrupted: what follows is of the first ${Number(run.time.toPrecision(4))} s.`);
    io.stdout.write(`\n${listing(motionTopics(summary), width)}\n`);
    print(
      'Computed with the temperature held and without other friction than guides.drag; bodies are rigid and stay level.',
    );
    io.stdout.write(`\nMotion: ${join(shown, MOTION_FILES.csv)}\n`);
  }
  return interrupted ? EXIT.interrupted : EXIT.done;
}

function rowsOf({ run }: PreparedMotion): Omit<MotionRows, 'height'> {
  const { time, gap, speed, current, voltage, force, plateLoss } = run.samples;
  return { time, gap, speed, current, voltage, force, plate_loss: plateLoss };
}

async function writeFigure(
  folder: string,
  { run, standoff, headroom }: PreparedMotion,
  { steadyHeight }: MotionSummary,
): Promise<void> {
  const { time, gap } = run.samples;
  const height = gap.map((each) => each - standoff);
  // charts take half a second to load
  const { motionChart } = await import('../report/charts/motion-chart.ts');
  await writeMotionFigure(folder, await motionChart({ time, height, steadyHeight, headroom }));
}

function defaultFolder(place: string, design: number): string {
  const name = basename(place).replace(/\.ya?ml$/, '');
  const isFile = name !== basename(place);
  return isFile
    ? join('results', `${name}-motion-${design}`)
    : `${place.replace(/[/\\]+$/, '')}-motion-${design}`;
}

/** For machines: SI, null where there is nothing to show, `INF` for what never comes. */
function report(
  { drive, run }: PreparedMotion,
  summary: MotionSummary,
  interrupted: boolean,
  folder: string,
): DocumentBody<'motion'> {
  const cells = (record: object) =>
    Object.fromEntries(
      Object.entries<string | number | boolean | null>(record as never).map(([key, value]) => [
        key,
        typeof value === 'number' ? jsonCell(value) : value,
      ]),
    );
  return {
    status: interrupted ? 'interrupted' : 'done',
    drive: cells(drive),
    step: run.step,
    summary: cells(summary),
    energy: cells(run.moving.energy),
    folder,
  };
}
