import type { Study } from '../model/study.ts';
import { toUnit } from '../model/units.ts';
import type { StartRecord } from '../plan/plan.ts';
import { writeAtomically } from './atomic-file.ts';
import { csvField, csvNumber } from './csv-text.ts';
import { RESULT_FILES } from './result-files.ts';

/**
 * `descents.csv`: one row a start, in their order. Objectives are numbered as in the study, in their units: `bound` is
 * what the start was held to, empty where it was free; `from` and `to` are its first design and its best.
 */
export function descentsCsv(
  { objectives }: Pick<Study, 'objectives'>,
  starts: readonly StartRecord[],
): string {
  const column = (k: number, what: string) => {
    const { suffix } = objectives[k]!.unit;
    return `objective_${k + 1}_${what}${suffix === '' ? '' : `_${suffix}`}`;
  };
  const numbers = [...objectives.keys()];
  const header = [
    'start',
    'improves',
    ...numbers.map((k) => column(k, 'bound')),
    'from_design',
    ...numbers.map((k) => column(k, 'from')),
    'to_design',
    ...numbers.map((k) => column(k, 'to')),
    'feasible',
    'evaluations',
    'end',
  ];
  const value = (cost: number, k: number) => {
    const { sense, unit } = objectives[k]!;
    // -0 is not worth a sign
    return csvNumber(toUnit((sense === 'maximise' ? -cost : cost) + 0, unit));
  };
  const lines = starts.map(({ start, objective, caps, from, to, feasible, evaluations, end }) => [
    String(start),
    `objective ${objective + 1}`,
    ...caps.map((cap, k) => (cap === Number.POSITIVE_INFINITY ? '' : value(cap, k))),
    String(from.id),
    ...numbers.map((k) => value(from.costs[k]!, k)),
    String(to.id),
    ...numbers.map((k) => value(to.costs[k]!, k)),
    String(feasible),
    String(evaluations),
    end,
  ]);
  return [header, ...lines].map((fields) => `${fields.map(csvField).join(',')}\n`).join('');
}

/** Writes `descents.csv` into a result folder. Throws FolderError when the file system refuses. */
export async function writeDescents(
  folder: string,
  study: Pick<Study, 'objectives'>,
  starts: readonly StartRecord[],
): Promise<void> {
  await writeAtomically(folder, RESULT_FILES.descents, descentsCsv(study, starts));
}
