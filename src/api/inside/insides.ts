import type { Study as InnerStudy, Varied } from '../../model/study.ts';
import { type TableColumn, tableColumns } from '../../model/table-columns.ts';
import { inputToUnit } from '../../model/units.ts';
import { createPlan } from '../../plan/create-plan.ts';
import { shortPath } from '../../study/paths.ts';
import type { Column, Study, StudyInput, StudyProblem } from '../types.ts';

/** What a study is inside: callers see less, so that more may change. */
const insides = new WeakMap<Study, InnerStudy>();

/** The study behind one that `readStudy` returned. */
export function inside(study: Study): InnerStudy {
  const found = insides.get(study);
  if (!found) throw new TypeError('wanted a study that readStudy or readResult returned');
  return found;
}

export function outside(study: InnerStudy, problems: readonly StudyProblem[]): Study {
  const seen: Study = Object.freeze({
    title: study.title,
    notes: study.notes,
    text: study.text,
    hash: study.hash,
    designs: createPlan(study).atMost,
    inputs: study.vary.map(inputOf),
    limits: study.limits.map(({ text }) => text),
    objectives: study.objectives.map(({ sense, text }) => ({ sense, expression: text })),
    columns: ownColumns(study).map(columnOf),
    warnings: problems.filter(({ severity }) => severity === 'warning'),
  });
  insides.set(seen, study);
  return seen;
}

/** Columns that a design has by itself, whichever others there are. */
export function ownColumns(study: InnerStudy): readonly TableColumn[] {
  let found = own.get(study);
  if (!found) {
    found = tableColumns(study).filter(({ name }) => name !== 'design' && name !== 'on_front');
    own.set(study, found);
  }
  return found;
}

const own = new WeakMap<InnerStudy, readonly TableColumn[]>();

export function columnOf({ name, label, kind, unit, meaning }: TableColumn): Column {
  return { name, label, kind, unit: unit.symbol, meaning };
}

function inputOf(varied: Varied): StudyInput {
  const path = shortPath(varied.path);
  const { column } = varied;
  if (varied.kind === 'choice') {
    return { path, column, unit: '', values: varied.levels.map(({ label }) => label) };
  }
  const { unit, levels } = varied;
  return { path, column, unit: unit.symbol, values: Array.from(levels, (si) => inputToUnit(si, unit)) };
}
