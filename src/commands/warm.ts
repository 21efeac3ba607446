import { basename, join, resolve } from 'node:path';
import { jsonCell } from '../documents/json-cell.ts';
import { UsageError } from '../errors.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { createDesignReader } from '../rig/design.ts';
import { followWarming } from '../rig/follow-warming.ts';
import { findDesign } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import type { DesignChoice } from '../session/named-design.ts';
import { printDocument } from '../session/print-document.ts';
import { makeFolder } from '../store/make-folder.ts';
import { WARM_FILES } from '../store/result-files.ts';
import { writeWarm } from '../store/write-warm.ts';
import { listing, widthOf, wrap } from '../text/listing.ts';
import { readDuration } from '../text/read-duration.ts';
import { layOut } from '../text/text-columns.ts';
import { warmColumns, warmCurve, warmTopics } from '../words/describe-warming.ts';

export interface WarmOptions {
  readonly design: DesignChoice;
  /** Null: until it is steady. */
  readonly seconds: string | null;
  /** Null: beside the result, or in `results`. */
  readonly out: string | null;
  readonly json: boolean;
  /** The figure as PNG, too. */
  readonly png: boolean;
}

const LONGEST = 86_400;

/** `eddylift warm`: one design as it warms from cold while nobody touches the drive. */
export async function warm(place: string, options: WarmOptions, io: Io): Promise<number> {
  const seconds = options.seconds === null ? null : readDuration(options.seconds);
  if (options.seconds !== null && !(seconds !== null && seconds > 0 && seconds <= LONGEST)) {
    throw new UsageError(`--for ${options.seconds}: wanted a time above 0 and up to a day, such as 20min`);
  }
  if (options.png) await (await import('../session/draw-pngs.ts')).requirePngs();
  const found = await findDesign(place, options.design, io);
  if (io.signal.aborted) return EXIT.interrupted;
  if (!found) return EXIT.usage;
  const { study, design, values } = found;
  const reader = createDesignReader(study);
  reader.read(values, 0);
  const { slots } = reader;
  const warming = followWarming(study.rig, slots, seconds);
  if (warming === null) throw new UsageError(`design ${design} has no operating point to warm from`);
  const { moments, events, end, voltageHeld } = warming;
  const shown = options.out ?? defaultFolder(place, design);
  const folder = resolve(io.cwd, shown);
  await makeFolder(folder);
  // charts take half a second to load
  const { warmChart } = await import('../report/charts/warm-chart.ts');
  const floats = slots[SLOT.floats] !== FLOATS.nothing;
  await writeWarm(folder, study.title, moments, await warmChart(warmCurve(warming, slots)));
  if (options.png) await (await import('../session/draw-pngs.ts')).drawPng(folder, WARM_FILES.figure);
  if (options.json) {
    const last = moments.at(-1)!;
    printDocument(io, 'warm', {
      design,
      held: voltageHeld ? 'voltage' : 'current',
      end,
      events: [...events],
      last: Object.fromEntries(
        Object.entries(last).map(([key, value]) => [
          key,
          typeof value === 'number' ? jsonCell(value) : value,
        ]),
      ),
      rows: moments.length,
      folder: shown,
    });
    return EXIT.done;
  }
  const width = widthOf(io.stdout);
  const held = voltageHeld ? 'supply voltage' : 'current';
  const title = `${study.title}: design ${design}, set cold, ${held} left alone`;
  io.stdout.write(`${wrap(title, width).join('\n')}\n\n`);
  io.stdout.write(`${layOut(warmColumns(warming, floats)).join('\n')}\n\n`);
  io.stdout.write(`${listing(warmTopics(warming, slots), width)}\n`);
  io.stdout.write(`Table: ${join(shown, WARM_FILES.csv)}\n`);
  return EXIT.done;
}

function defaultFolder(place: string, design: number): string {
  const name = basename(place).replace(/\.ya?ml$/, '');
  const isFile = name !== basename(place);
  return isFile
    ? join('results', `${name}-warm-${design}`)
    : `${place.replace(/[/\\]+$/, '')}-warm-${design}`;
}
