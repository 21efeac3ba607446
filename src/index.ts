/**
 * Eddylift as a library: read a study, compute designs of it, run it, read its result.
 *
 * @module
 */
export { type Input, inputs, metals, type Quantity, quantities } from './api/catalogue.ts';
export { evaluate } from './api/evaluate.ts';
export { type Result, readResult } from './api/result.ts';
export { type RunOptions, type RunReport, runStudy } from './api/run.ts';
export { readStudy } from './api/study.ts';
export {
  type Cell,
  type Column,
  EddyliftError,
  type Row,
  type Study,
  type StudyInput,
  type StudyProblem,
} from './api/types.ts';
