import { CAUTION_RULES, CAUTIONS_REMINDER } from '../model/cautions.ts';
import { QUANTITIES } from '../model/quantities.ts';
import type { TableRows } from '../model/rows.ts';
import type { Task } from '../model/study.ts';
import { cautionsOf } from '../rig/cautions-of.ts';
import { createDesignReader } from '../rig/design.ts';
import type { Landmarks } from './describe-front.ts';

/**
 * The cautions of the designs that stand out on a front, each once with the designs that raise it, an entry each; the
 * reminder closes them, also when there are none.
 */
export function frontCautions(study: Task, front: TableRows, { extremes, knee }: Landmarks): string[] {
  const rows = [...new Set([...extremes, knee])];
  const raisedBy = new Map<string, number[]>();
  for (const row of rows) {
    for (const id of cautionIds(study, front, row)) {
      raisedBy.set(id, [...(raisedBy.get(id) ?? []), front.designs[row]!]);
    }
  }
  const entries = CAUTION_RULES.flatMap(({ id, rule }) => {
    const designs = raisedBy.get(id);
    if (designs === undefined) return [];
    const whose = designs.length === rows.length && rows.length > 1 ? 'all of them' : sayDesigns(designs);
    return [`- ${rule} (${whose})`];
  });
  const heading = `Cautions for ${sayDesigns(rows.map((row) => front.designs[row]!))}; \`eddylift card\` says what to do:`;
  return [...(entries.length === 0 ? [] : [heading, ...entries]), CAUTIONS_REMINDER];
}

function cautionIds(study: Task, front: TableRows, row: number): string[] {
  const reader = createDesignReader(study);
  reader.read(front.values, row * study.vary.length);
  const results = Float64Array.from(QUANTITIES, ({ index }) => front.quantities[index * front.count + row]!);
  return cautionsOf(study.rig, reader.slots, results).map(({ id }) => id);
}

function sayDesigns(designs: readonly number[]): string {
  return `design${designs.length === 1 ? '' : 's'} ${designs.join(', ')}`;
}
