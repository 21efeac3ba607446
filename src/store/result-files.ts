import { basename, dirname, join } from 'node:path';

/** The only names that are ever written into a result folder, besides their temporary forms. */
export const RESULT_FILES = Object.freeze({
  run: 'run.json',
  study: 'study.yaml',
  csv: 'designs.csv',
  parquet: 'designs.parquet',
  metadata: 'designs.csv-metadata.json',
  front: 'front.csv',
  frontMetadata: 'front.csv-metadata.json',
  frontWorkbook: 'front.xlsx',
  descents: 'descents.csv',
  plateHeat: 'plate_heat.csv',
  plateHeatMetadata: 'plate_heat.csv-metadata.json',
  report: 'report.html',
  /** Beside the folders of several studies, not in them. */
  batch: 'batch.json',
});

/** What motion in time leaves in a folder of its own. */
export const MOTION_FILES = Object.freeze({
  csv: 'motion.csv',
  metadata: 'motion.csv-metadata.json',
  figure: 'motion.svg',
});

/** What a warming leaves in a folder of its own. */
export const WARM_FILES = Object.freeze({
  csv: 'warm.csv',
  metadata: 'warm.csv-metadata.json',
  figure: 'warm.svg',
});

export type WarmFile = (typeof WARM_FILES)[keyof typeof WARM_FILES];

export type MotionFile = (typeof MOTION_FILES)[keyof typeof MOTION_FILES];

/** The folders in a result folder: of finished batches, and of pictures. */
export const PARTS_FOLDER = 'parts';
export const FIGURES = 'figures';

/** A front under other limits and objectives than the study's: the digest of these is part of its names. */
export type OtherFront = `front-${string}.csv` | `front-${string}.csv-metadata.json` | `front-${string}.xlsx`;

export type ResultFile = (typeof RESULT_FILES)[keyof typeof RESULT_FILES] | OtherFront;

const OTHER_FRONT = /^front-[0-9a-f]{8}\.(csv|csv-metadata\.json|xlsx)$/;

let counter = 0;

/** Hidden, in the same folder so that renaming is atomic, and different for every process and file. */
export function temporaryPath(path: string): string {
  return join(dirname(path), `.${basename(path)}.${process.pid}-${counter++}.tmp`);
}

/** The process that made a temporary file, null for any other name. */
export function temporaryOwner(name: string): number | null {
  const [, file = '', owner] = /^\.(.+)\.(\d+)-\d+\.tmp$/.exec(name) ?? [];
  const isOurs = Object.values<string>(RESULT_FILES).includes(file) || OTHER_FRONT.test(file);
  return isOurs ? Number(owner) : null;
}
