import {
  byHazard,
  CAUTION_RULES,
  CAUTIONS_REMINDER,
  type Judgement,
  raisedOf,
  unjudgedOf,
} from '../model/cautions/judge.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { TableRows } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { cautionResults } from '../rig/caution-results.ts';
import { cautionsOf } from '../rig/cautions-of.ts';
import { createDesignReader } from '../rig/design.ts';
import type { Landmarks } from './describe-front.ts';

/**
 * The cautions of the designs that stand out on a front, a line for each hazard, the worst first, then what could not be
 * judged; the reminder closes them, also when there are none.
 */
export function frontCautions(study: Task, front: TableRows, { extremes, knee }: Landmarks): string[] {
  const rows = [...new Set([...extremes, knee])];
  const judged = rows.map((row) => judgements(study, front, row));
  const entries = collect(judged.map(raisedOf), front, rows);
  const lines = byHazard(entries).map(({ label, judgements: own }) => {
    const findings = own.map(({ rule, designs }) => `${rule.brief}${whose(designs, rows.length)}`);
    return `- ${label}: ${findings.join('; ')}`;
  });
  const missing = [...new Set(judged.flatMap(unjudgedOf).map((each) => each.missing))];
  const unjudged = missing.length === 0 ? [] : [`- not judged: ${missing.join('; ')}`];
  const heading = `Cautions for ${designNames(rows.map((row) => front.designs[row]!))}; \`eddylift card\` shows more and what to do:`;
  const all = [...lines, ...unjudged];
  return [...(all.length === 0 ? [] : [heading, ...all]), CAUTIONS_REMINDER];
}

/** Each caution once, in the order of the registry, with the designs that raise it. */
function collect(raised: readonly Judgement[][], front: TableRows, rows: readonly number[]) {
  return CAUTION_RULES.flatMap((rule) => {
    const designs = rows.flatMap((row, i) =>
      raised[i]!.some((each) => each.rule.id === rule.id) ? [front.designs[row]!] : [],
    );
    return designs.length === 0 ? [] : [{ rule, designs }];
  });
}

function judgements(study: Task, front: TableRows, row: number): Judgement[] {
  const reader = createDesignReader(study);
  reader.read(front.values, row * study.vary.length);
  const results = Float64Array.from(QUANTITIES, ({ index }) => front.quantities[index * front.count + row]!);
  return cautionsOf(study.rig, reader.slots, cautionResults(study.rig, reader.slots, results));
}

/** Nothing where all designs share it. */
function whose(designs: readonly number[], all: number): string {
  return designs.length === all ? '' : ` (${designNames(designs)})`;
}

function designNames(designs: readonly number[]): string {
  return `design${designs.length === 1 ? '' : 's'} ${designs.join(', ')}`;
}
