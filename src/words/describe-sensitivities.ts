import { kneeRow } from '../front/landmarks.ts';
import { column, type TableRows } from '../model/rows.ts';
import type { Study } from '../model/study.ts';
import { listing, wrap } from '../text/listing.ts';
import { leadingRows, type SensitivityDescriber } from './sensitivity-words.ts';

/**
 * What a little more of each input does to the best compromise, or to the only design, for the terminal: lines; none for a
 * study that found nothing.
 */
export function describeSensitivities(
  study: Study,
  front: TableRows,
  sensitivityOf: SensitivityDescriber,
  width: number,
): string[] {
  if (front.count === 0) return [];
  const senses = study.objectives.map(({ sense }) => sense);
  const row =
    senses.length === 0
      ? 0
      : kneeRow(
          senses.map((_, o) => column(front, front.objectives, o)),
          senses,
        );
  const inputs = study.vary.length;
  const described = sensitivityOf(front.values.subarray(row * inputs, (row + 1) * inputs));
  if (described === null) return [];
  const which = inputs === 0 ? 'the rig' : `design ${front.designs[row]}`;
  return [
    '',
    ...wrap(`What 1 % more of an input changes about ${which}, the most first (more: card, report):`, width),
    listing(leadingRows(study, described), width).trimEnd(),
  ];
}
