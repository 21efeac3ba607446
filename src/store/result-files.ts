/** The only names that are ever written into a result folder, besides their temporary forms. */
export const RESULT_FILES = Object.freeze({
  run: 'run.json',
  study: 'study.yaml',
  csv: 'designs.csv',
  parquet: 'designs.parquet',
  metadata: 'designs.csv-metadata.json',
  front: 'front.csv',
  descents: 'descents.csv',
  plateHeat: 'plate_heat.csv',
  report: 'report.html',
});

/** The folder of pictures in a result folder. */
export const FIGURES = 'figures';

export type ResultFile = (typeof RESULT_FILES)[keyof typeof RESULT_FILES];

let counter = 0;

/** Hidden, in the same folder so that renaming is atomic, and different for every process and file. */
export function temporaryName(name: string): string {
  return `.${name}.${process.pid}-${counter++}.tmp`;
}

/** The process that made a temporary file, null for any other name. */
export function temporaryOwner(name: string): number | null {
  const match = /^\.(.+)\.(\d+)-\d+\.tmp$/.exec(name);
  return match && Object.values<string>(RESULT_FILES).includes(match[1]!) ? Number(match[2]) : null;
}
