import type { Study } from '../model/study.ts';

/** What a reader of a result must know of the study besides: what was assumed of its metals, and what has no price. */
export function studyNotes({ assumed = [], stock }: Pick<Study, 'assumed' | 'stock'>): string[] {
  const unpriced = stock?.unpriced ?? [];
  if (unpriced.length === 0) return [...assumed];
  const which = unpriced.join(', ');
  return [...assumed, `No price given: ${which}; the costs of designs that take them are empty.`];
}
