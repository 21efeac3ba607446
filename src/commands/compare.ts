import { resolve } from 'node:path';
import { compareJson } from '../comparison/compare-json.ts';
import { compareText } from '../comparison/compare-text.ts';
import { UsageError } from '../errors.ts';
import { didYouMean } from '../expression/suggest.ts';
import { calibrate } from '../measured/calibrate.ts';
import { decodeTable } from '../measured/decode-table.ts';
import { readMeasured } from '../measured/read-measured.ts';
import { residualsOf } from '../measured/residuals.ts';
import type { FreeInput, MeasuredPoint } from '../model/measured.ts';
import type { Study } from '../model/study.ts';
import { createPlan } from '../plan/create-plan.ts';
import { createDesignReader } from '../rig/design.ts';
import { createPredictor } from '../rig/predict.ts';
import { designOf, findStudy } from '../session/find-design.ts';
import { EXIT, type Io } from '../session/io.ts';
import { printDocument } from '../session/print-document.ts';
import { readStudyFile } from '../session/read-study-file.ts';
import { reportProblems } from '../session/report-problems.ts';
import { version } from '../session/version.ts';
import { writePatch } from '../store/write-patch.ts';
import { readFree } from '../study/free-inputs.ts';
import { patchText } from '../study/patch-text.ts';
import { widthOf } from '../text/listing.ts';
import { count } from '../words/describe-plan.ts';

export interface CompareOptions {
  /** What columns hold whose names differ, each as `NAME=column`. */
  readonly columns?: readonly string[];
  /** Which design was built; null where the study leaves no choice. */
  readonly design: number | null;
  /** Inputs to fit, as written. */
  readonly free: readonly string[];
  /** File for the fitted inputs. */
  readonly out: string | null;
  readonly json: boolean;
  /** A page instead of text. */
  readonly html: boolean;
}

/** `eddylift compare`: measured points against the model of the rig, and what they show of its inputs. */
export async function compare(
  place: string,
  measured: string,
  options: CompareOptions,
  io: Io,
): Promise<number> {
  if (options.out !== null && options.free.length === 0) {
    throw new UsageError('--out keeps what was fitted: name inputs to fit with --free');
  }
  const source = await readStudyFile(measured, io);
  const table = readMeasured(source, didYouMean, renamedColumns(options.columns ?? []));
  if ('problems' in table) {
    reportProblems(io, measured, decodeTable(source).text, table.problems);
    return EXIT.usage;
  }
  if (table.unused.length > 0) {
    const names = table.unused.map((name) => `'${name}'`).join(', ');
    io.stderr.write(
      `eddylift: ${measured}: not used: ${names}; --column 'NAME=height_mm' names what a column holds\n`,
    );
  }
  const { points } = table;
  const found = await builtDesign(place, options.design, points, io);
  if (!found) return EXIT.usage;
  const { study, design, values } = found;
  const reader = createDesignReader(study);
  reader.read(values, 0);
  const { slots } = reader;
  const free = readAllFree(options.free, slots, points, io);
  if (!free) return EXIT.usage;

  const predictor = createPredictor(study.rig, slots);
  const residuals = residualsOf(points, predictor, []);
  const calibration = free.length > 0 ? calibrate(points, predictor, free) : null;
  if (residuals.every(({ model }) => Number.isNaN(model))) {
    throw new UsageError('the model has no answer to any of these points: is it the right design?');
  }
  const patch = options.out;
  if (calibration && patch !== null) {
    const about = `design ${design} of ${study.title}`;
    await writePatch(resolve(io.cwd, patch), patchText(calibration, about, measured));
  }
  const comparison = { study, design, measured, residuals, calibration, patch };
  if (options.html) {
    // charts take half a second to load
    const { compareHtml } = await import('../comparison/compare-html.ts');
    io.stdout.write(await compareHtml(comparison, version()));
  } else if (options.json) printDocument(io, 'compare', compareJson(comparison));
  else io.stdout.write(compareText(comparison, widthOf(io.stdout)));
  return EXIT.done;
}

function renamedColumns(texts: readonly string[]): Map<string, string> {
  return new Map(
    texts.map((text): [string, string] => {
      // a name may have an equals sign in it, a column has none
      const at = text.lastIndexOf('=');
      const [name, column] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
      if (at < 1 || name === '' || column === '') {
        throw new UsageError(
          `--column ${JSON.stringify(text)}: wanted a name and what it holds, such as 'Höhe (mm)=height_mm'`,
        );
      }
      return [name, column];
    }),
  );
}

interface BuiltDesign {
  readonly study: Study;
  readonly design: number;
  readonly values: Float64Array;
}

/** The design that was measured: the one named, or the study's only one but for what each point sets itself. */
async function builtDesign(
  place: string,
  design: number | null,
  points: readonly MeasuredPoint[],
  io: Io,
): Promise<BuiltDesign | null> {
  const found = await findStudy(place, io);
  if (!found) return null;
  if (design !== null) return { ...(await designOf(found, design)), design };
  const { study } = found;
  const { atMost } = createPlan(study);
  const leftOpen = study.vary.find(
    (varied) =>
      varied.levels.length > 1 &&
      !points.every(
        ({ drive, settings }) =>
          (varied.path.startsWith('drive.') && drive.kind !== 'own') ||
          (varied.kind === 'number' && settings.some(([slot]) => slot === varied.slot)),
      ),
  );
  if (leftOpen) {
    throw new UsageError(
      `${place} has ${count(atMost, 'design')} (${leftOpen.path} varies): choose with --design the one that was built`,
    );
  }
  return { ...(await designOf(found, 0)), design: 0 };
}

/** Null when one cannot be read, which then stands on stderr. */
function readAllFree(
  texts: readonly string[],
  slots: Float64Array,
  points: readonly MeasuredPoint[],
  io: Io,
): FreeInput[] | null {
  if (texts.length === 0) return [];
  const text = texts.join(',');
  const read = readFree(text, slots);
  if ('problems' in read) {
    reportProblems(io, '--free', text, read.problems);
    return null;
  }
  const set = read.free.find(({ slot }) => points.some(({ settings }) => settings.some(([s]) => s === slot)));
  if (set) throw new UsageError(`--free ${set.path}: the measured points give it`);
  return [...read.free];
}
